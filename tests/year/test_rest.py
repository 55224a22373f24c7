"""The pressing day, orders, market, the ledger, racks, crowns, refills and kits: each example with its figures by hand."""

from __future__ import annotations

import pytest

from tests.year.bench import figure, jar_of_a_gram, table_lines, talk


def near(value: float) -> float:
    return pytest.approx(value, rel=1e-6)


# ── the pressing day ─────────────────────────────────────────────────────────────────────────────────────────────────────

DAY = "Pressing day: nettle 850 mL from 400 g, elder 620 mL from 300 g, yarrow 400 mL from 100 g dried; basket 500 mL, 50 mL bottles"


def test_the_pressing_day_by_hand():
    reply = talk(DAY)
    assert figure(reply, "marc_room", "nettle") == near(400 * 1 + 400 * 0.2 * 5)  # fresh: a mL a gram, and 5 mL on each gram of dry matter
    assert figure(reply, "marc_room", "yarrow") == near(100 * 0.7 + 100 * 5)  # dried: all of it dry matter
    assert [figure(reply, "press_loads", n) for n in ("nettle", "elder", "yarrow")] == [2, 2, 2]
    assert [figure(reply, "bottles_from", n) for n in ("nettle", "elder", "yarrow")] == [17, 12, 8]
    assert figure(reply, "day_loads") == 6
    assert figure(reply, "day_bottles") == 37
    assert figure(reply, "day_out") == 1870
    assert sum(figure(reply, "bottles_from", n) * 50 + figure(reply, "left_from", n) for n in ("nettle", "elder", "yarrow")) == near(1870)
    assert all(len(row) <= 60 for row in table_lines(reply))


def test_a_larger_basket():
    assert figure(talk(DAY, "basket is 1 L"), "day_loads") == 3


# ── orders and market ────────────────────────────────────────────────────────────────────────────────────────────────────


def test_promised_against_what_there_is():
    reply = talk("Promised 400 mL of nettle and 300 mL of elder, nettle has 350 mL, elder has 500 mL")
    assert figure(reply, "order_short", "nettle") == 50
    assert figure(reply, "order_short", "elder") == -200
    assert reply.text.startswith("Short: nettle by 50 mL.")


def test_bottles_promised_are_counted_in_millilitres():
    reply = talk("orders: 12 bottles of 50 mL nettle, 8 bottles of 50 mL sage. There is 700 mL of nettle and 300 mL of sage")
    assert figure(reply, "promised", "nettle") == 600
    assert figure(reply, "order_short", "sage") == 100


def test_lines_that_fall_under_a_margin():
    reply = talk(
        "Nettle sells at 9.50 and costs 3.10 with 45 mL of spirit, elder sells at 8 and costs 3.30 with 30 mL. "
        "Spirit went from 28 to 36: which lines fall under 60 %?"
    )
    assert figure(reply, "line_cost_now", "nettle") == near(3.10 + 45 * 8 / 1000)
    assert figure(reply, "line_margin", "nettle") == near((1 - 3.46 / 9.5) * 100)  # 63.6 %
    assert figure(reply, "line_margin", "elder") == near((1 - 3.54 / 8) * 100)  # 55.75 %
    assert reply.text.startswith("Under 60 %: elder (55.8 %).")


def test_the_market_by_hand():
    reply = talk("Took 40 to market, sold 23 at 9.50, they cost me 3.10 each, stall was 25. What's left, and what did I make?")
    assert figure(reply, "left_of_market") == 17
    assert figure(reply, "takings") == near(23 * 9.5)
    assert figure(reply, "market_gain") == near(23 * 9.5 - 23 * 3.1 - 25)


# ── the ledger ───────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_ledger_by_hand():
    reply = talk("Bought 10 L of 95, used 6.2 L, 3.5 L on the shelf: what is unaccounted for?")
    assert figure(reply, "pure_missing") == near((10000 - 6200 - 3500) * 0.95)
    assert figure(reply, "missing_share") == near(3)
    assert "local law" in reply.text
    assert "20 °C" in reply.text


def test_spirits_of_several_strengths_meet_in_pure_alcohol():
    reply = talk("Bought 12 L of 95 %. Used 7 L of 95 %. 6 L of 60 % on the shelf. What is unaccounted for, in percent?")
    assert figure(reply, "pure_missing") == near(12000 * 0.95 - 7000 * 0.95 - 6000 * 0.6)
    reply = talk("bought 5 L of 96 and 3 L of 40, used 2 L of 96, 3 L of 96 on the shelf. what is missing?")
    assert figure(reply, "pure_missing") == near(5000 * 0.96 + 3000 * 0.40 - 2000 * 0.96 - 3000 * 0.96)


# ── drying ───────────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_drying_in_progress_by_hand():
    """3 kg at 80 % are 600 g of dry matter; at 1.2 kg half of it is water; with 10 % left it weighs 600 / 0.9."""
    reply = talk("Hung 3 kg nettle at 80 % water, it weighs 1.2 kg now. How much still to lose?")
    assert figure(reply, "water_now") == near(600)
    assert figure(reply, "wilted_water") == near(50)
    assert figure(reply, "dried") == near(600 / 0.9)
    assert figure(reply, "still_to_lose") == near(1200 - 600 / 0.9)


def test_rack_loading_by_hand():
    reply = talk("How many racks for 6 kg of fresh nettle, 1.5 kg to the square metre, racks of 60 by 90 cm?")
    assert figure(reply, "rack_load") == near(1500 * 0.6 * 0.9)
    assert figure(reply, "racks") == 8  # 6000 / 810 = 7.4


# ── crowns ───────────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_crowns_in_rotation_by_hand():
    reply = talk(
        "I need 1.2 kg valerian root a year, a crown gives 90 g, three years to grow, a tenth fail, 20 crowns a bed: "
        "how many crowns to lift and to plant, how many beds?"
    )
    assert figure(reply, "plants_taken") == 14  # 1200 / 90 = 13.3
    assert figure(reply, "crowns_to_plant") == 16  # 14 / 0.9 = 15.6
    assert figure(reply, "crowns_standing") == 48
    assert figure(reply, "beds") == 3  # 48 / 20 = 2.4


# ── refills and kits ─────────────────────────────────────────────────────────────────────────────────────────────────────


def test_a_refill_is_told_and_not_judged():
    reply = talk("200 mL, 28 days at 5 mL tds, 35 left")
    assert figure(reply, "taken") == 165
    assert figure(reply, "meant") == 28 * 15
    assert figure(reply, "share_taken") == near(165 / 420 * 100)
    assert figure(reply, "bottle_days") == 13  # 200 / 15
    assert not any(word in reply.text.lower() for word in ("should", "too little", "too much", "forgot", "complian", "missed"))


def test_kits_of_a_class_by_hand():
    reply = talk("Nine students, 60 mL each, two spare", "fresh nettle 1:2 at 60 % from 95, 80 % water", "herb 30 a kilo, spirit 28 a litre")
    herb = 11 * 60 / (jar_of_a_gram(2, 60, 0.8)[0] - 0.2 * 3)
    stock = herb * 2 * 60 / 95
    assert figure(reply, "kits") == 11
    assert figure(reply, "kit_volume") == 660
    assert figure(reply, "herb") == near(herb)
    assert figure(reply, "to_gather") == near(herb * 1.15)
    assert figure(reply, "stock") == near(stock)
    assert figure(reply, "cost_a_head") == near((herb * 0.030 + stock * 0.028) / 9)


def test_kits_of_the_jar_in_hand():
    reply = talk("100 g fresh nettle, 1:2 at 60 %, 80 % water, from 95 %", "nine students, 60 mL each, two spare")
    assert figure(reply, "herb") == near(660 / (jar_of_a_gram(2, 60, 0.8)[0] - 0.2 * 3))
