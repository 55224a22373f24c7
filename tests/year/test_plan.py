"""The year's plan: each figure by hand, what goes in comes out again, every direction, and sixty of them at once."""

from __future__ import annotations

import time

import pytest

from assistant.cautions.plants import plants
from tests.year.bench import bench, figure, jar_of_a_gram, table_lines, talk

NETTLE = (
    "Used 4.2 L nettle last year, 600 mL left, expect 10 % more; fresh 1:2 at 75 %, 80 % water, 2 mL/g, 10 % trim: what do I pick and buy?"
)
NEED = 4200 * 1.10  # 4620 mL
MAKE = NEED - 600  # 4020 mL
IN_JAR, FINISH = jar_of_a_gram(2, 75, 0.80)  # mL a gram of plant, and percent
HERB = MAKE / (IN_JAR - 0.20 * 2)  # out of the press: the jar, less 2 mL for each gram of dry matter
GATHER = HERB / 0.90 * 1.15  # a tenth goes off as trim; 15 % margin is common practice


def near(value: float) -> float:
    return pytest.approx(value, rel=1e-6)


def test_the_plan_of_one_plant_by_hand():
    reply = talk(NETTLE)
    assert figure(reply, "needed_for_year") == near(NEED)
    assert figure(reply, "to_make") == near(MAKE)
    assert figure(reply, "herb") == near(HERB)
    assert figure(reply, "to_gather") == near(GATHER)
    assert figure(reply, "menstruum") == near(2 * HERB)
    assert figure(reply, "finished_strength") == near(FINISH)
    assert [q.wants for q in reply.questions] == [("stock_strength",)]  # what to buy hangs on what is bought


def test_what_to_buy_once_the_spirit_is_told():
    reply = talk(NETTLE, "from 95 %")
    assert figure(reply, "stock") == near(2 * HERB * 75 / 95)
    assert not reply.questions


def test_what_goes_in_comes_out_with_the_losses_named():
    session = bench()
    talk(NETTLE, "from 95 %", "50 mL bottles", session=session)
    of = session.last.value
    assert of("still_left") + of("to_make") == near(of("needed_for_year"))
    assert of("pressed") + of("held_back") == near(of("in_jar"))
    assert of("bottles") * 50 + of("rest") == near(of("racked"))
    assert of("stock") * 95 / 100 == near(of("alcohol"))  # the alcohol bought is the alcohol poured …
    assert of("in_jar") * of("finished_strength") / 100 == near(of("alcohol"))  # … and the alcohol in the jar
    assert of("to_gather") == near(of("herb") + (of("to_gather") - of("herb")))
    assert of("to_gather") / 1.15 * 0.90 == near(of("herb"))  # gathered, less the margin, less the trim


def test_other_directions():
    assert figure(talk("need 5 L of nettle for the year, have 1 L, dried 1:5 at 45 %, 2 mL/g"), "herb") == near(4000 / (5 - 2))
    reply = talk("used 3 L sage last year, nothing left, dried 1:4 at 50 %, 2 mL/g", "20 % less this year")
    assert figure(reply, "herb") == near(3000 * 0.8 / (4 - 2))


def test_a_plan_that_needs_nothing_is_refused_with_the_reason():
    reply = talk("Used 3 L nettle last year, 4 L left, fresh 1:2 at 75 %, 80 % water: what do I pick?")
    assert reply.status == "refused"
    assert reply.questions


def test_where_a_figure_comes_from():
    reply = talk(NETTLE, "where does the 4020 come from?")
    assert [s.quantity for s in reply.steps] == ["needed_for_year", "to_make"]
    assert reply.steps[-1].working == "4620 mL − 600 mL = 4020 mL"


TWO = (
    "Used 4.2 L nettle and 3 L elder last year; 600 mL nettle left and 200 mL elder left; expect 10 % more; "
    "all fresh 1:2 at 75 %, 80 % water, 2 mL/g, from 95 %, 50 mL bottles"
)


def test_every_plant_and_one_total_to_buy():
    elder = (3000 * 1.1 - 200) / (IN_JAR - 0.4)
    reply = talk(TWO, "the elder is picked in June", "nettle is picked in May", "show me the whole year")
    assert figure(reply, "stock_all") == near((HERB + elder) * 2 * 75 / 95)
    assert figure(reply, "gather_all") == near((HERB + elder) * 1.15)
    assert figure(reply, "bottles_all") == 80 + 62
    rows = table_lines(reply)
    assert [row.split()[0] for row in rows] == ["month", "nettle", "elder", "in"]  # May comes before June
    assert all(len(row) <= 60 for row in rows)


def test_a_total_can_be_followed():
    reply = talk(TWO, "show me the whole year", "why")
    said = {s.quantity: s.working for s in reply.steps}
    assert said["stock_all"].count("+") == 1
    assert said["bottles_all"] == "80 + 62 = 142"


def test_every_number_of_the_table_is_among_the_values():
    reply = talk(TWO)
    shown = {word for v in reply.values for word in v.text.split()}
    for row in table_lines(reply)[1:]:
        assert set(row.replace("in all", "in-all").replace("–", "").split()[1:]) <= shown, row


def test_the_same_as_csv():
    reply = talk(TWO, "as csv")
    heads, *rows = [line.split(",") for line in reply.text.split("\n")]
    assert heads[:2] == ["", "need [mL]"]
    assert rows[-1][0] == "in all"
    assert sum(float(row[1]) for row in rows[:-1]) == near(float(rows[-1][1]))


def test_plants_of_several_spirits_make_no_one_sum():
    reply = talk("used 2 L sage last year; dried 1:4 at 50 % from 95 %", "used 2 L thyme last year; dried 1:4 at 40 % from 40 %", "show me the whole year")
    assert not [v for v in reply.values if v.quantity == "stock_all"]
    bought = {v.about: v.value for v in reply.values if v.quantity == "stock" and "%" in v.about}
    assert bought["95 %"] == near(4 * 2000 / (4 - 3) * 50 / 95)
    assert bought["40 %"] == near(4 * 2000 / (4 - 3))


def test_a_bad_figure_changes_nothing():
    session = bench()
    talk(TWO, session=session)
    before = list(session.batches)
    reply = session.say("used 0 L nettle and 3 L elder last year, fresh 1:2 at 75 %")
    assert reply.status in ("refused", "asking")
    assert list(session.batches) == before


def plenty() -> list[str]:
    """A sentence for every plant of the list; sixty of them are planned."""
    known = {}
    for word in sorted(plants().words()):
        hit = plants().called(word)
        if word.isalpha() and hit is not None and hit.plant is not None and hit.plant.is_known and not hit.question:
            known.setdefault(hit.plant.latin, word)
    names = list(known.values())
    return [f"used {1 + n / 10:g} L {name} last year, 100 mL left; fresh 1:2 at 75 %, 80 % water, from 95 %, no margin" for n, name in enumerate(names)]


def test_sixty_plans_at_once():
    session = bench()
    held = []
    for n, sentence in enumerate(plenty()):
        if len(held) < 60 and session.say(sentence).is_good and len(session.batches) > len(held):
            held.append(n)  # a plant that a stop speaks of makes no plan
    began = time.process_time()
    reply = session.say("show me the whole year")
    taken = time.process_time() - began
    assert len(table_lines(reply)) == 62
    total = sum((1000 + 100 * n - 100) / (IN_JAR - 0.2 * 3) for n in held) * 2 * 75 / 95
    assert figure(reply, "stock_all") == near(total)
    assert taken < 5, f"{taken:.2f} s of processor time; a second is the aim, measured in the benchmarks"
