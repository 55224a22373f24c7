"""The ledger itself: what waits, what is set aside, and what a copy leaves alone."""

from assistant.solving.attempt import attempt
from assistant.solving.ledger import Ledger, Way
from assistant.solving.network import network_of
from tests.solving.toys import TABLE, solved, toys, values, wide


def begun(*equations, members=(), brackets=wide):
    return Ledger(network_of(toys(*equations), members, TABLE), brackets)


def give(ledger, **said):
    for key, value in said.items():
        ledger.give(ledger.network.slot_of[key], float(value), 0.0)


def known(ledger):
    return {key: ledger.values[slot] for key, slot in ledger.network.slot_of.items() if ledger.known[slot]}


def test_a_said_value_may_be_off_by_half_a_percent_or_by_its_digits_whichever_is_more():
    ledger = begun("a = b + c")
    slot = ledger.network.slot_of["a"]
    ledger.give(slot, -200.0, 0.25)
    assert ledger.slack[slot] == 1.0
    ledger.give(slot, 10.0, 0.25)
    assert ledger.slack[slot] == 0.25


def test_a_copy_goes_its_own_way():
    ledger = begun("a = b + c", "d = 2 * a", "e = floor(d)")
    give(ledger, b=1)
    twin = ledger.copy()
    give(twin, c=2)
    twin.settle()
    twin.stuck[(9,)] = 1
    twin.several[(9,)] = []
    twin.clashes.append(0)
    assert known(twin) == {"a": 3, "b": 1, "c": 2, "d": 6, "e": 6}
    assert known(ledger) == {"b": 1}
    assert (ledger.open, ledger.idle, ledger.stuck, ledger.several, ledger.clashes, ledger.unchecked) == ([2, 2, 2], set(), {}, {}, [], [])
    give(ledger, a=7)
    ledger.settle()
    assert known(ledger) == {"a": 7, "b": 1, "c": 6, "d": 14, "e": 14}


def test_what_lies_nearer_to_what_was_given_is_found_first():
    ledger = begun("d = c + 0", "c = b + 0", "d = 2 * a", "b = a + 0")
    give(ledger, a=3)
    ledger.settle()
    keys = ledger.network.keys
    assert [keys[slot] for slot in ledger.order] == ["a", "d", "b", "c"]
    assert ledger.way[ledger.network.slot_of["d"]].leading == (2,)


def test_an_equation_that_found_nothing_waits_to_be_checked_once():
    ledger = begun("a = b + c", "a = b * c")
    give(ledger, a=4, b=2, c=2)
    ledger.settle()
    assert ledger.unchecked == [0, 1]
    ledger.settle()
    assert ledger.unchecked == [0, 1]


def test_an_equation_that_gave_a_value_is_not_checked_against_it():
    ledger = begun("a = b + c")
    give(ledger, b=2, c=2)
    ledger.settle()
    assert ledger.unchecked == []
    assert ledger.idle == {0}


def test_a_value_found_later_lies_one_wave_behind_the_latest_it_needs():
    ledger = begun("a = b + c", "e = a + b")
    give(ledger, b=1, c=2)
    ledger.settle()
    slot = ledger.network.slot_of
    assert [ledger._wave[slot[key]] for key in ("b", "a", "e")] == [0, 1, 2]
    ledger = begun("a = b + c", "e = a + b")
    give(ledger, b=1)
    ledger.found(Way((slot["a"], slot["c"]), (0, 0)), (3.0, 2.0))
    assert ledger._wave[slot["a"]] == 1
    ledger = begun("a = b + c", "e = a + b", "g = e + f", "h = 2 * f")
    give(ledger, b=1, c=2)
    ledger.settle()
    slot = ledger.network.slot_of
    ledger.found(Way((slot["g"], slot["f"]), (2, 2)), (9.0, 4.0))
    assert ledger._wave[slot["g"]] == 3


def test_a_division_by_nothing_leaves_the_unknown_stuck_on_its_equation():
    ledger = begun("a = b * c")
    give(ledger, a=4, b=0)
    ledger.settle()
    assert ledger.stuck == {(ledger.network.slot_of["c"],): 0}


def test_the_least_that_is_enough_is_taken_once_and_only_when_asked_for():
    ledger = begun("n = floor(x)", "m = floor(y)")
    give(ledger, n=3, m=5)
    ledger.settle()
    assert known(ledger) == {"n": 3, "m": 5}
    assert ledger.take_least()
    assert known(ledger) == {"n": 3, "m": 5, "x": 3}
    assert ledger.take_least()
    assert known(ledger)["y"] == 5
    assert not ledger.take_least()


def test_the_least_may_be_forgone():
    ledger = begun("n = floor(x)", "m = floor(y)")
    give(ledger, n=3, m=5)
    ledger.settle()
    ledger.forgo_least()
    assert ledger.take_least()
    assert known(ledger) == {"n": 3, "m": 5, "y": 5}
    ledger.forgo_least()
    assert not ledger.take_least()


def test_a_least_amount_that_came_to_be_known_meanwhile_is_passed_over():
    ledger = begun("n = floor(x)", "m = floor(y)")
    give(ledger, n=3, m=5)
    ledger.settle()
    give(ledger, x=3.4)
    assert ledger.take_least()
    assert known(ledger) == {"n": 3, "m": 5, "x": 3.4, "y": 5}


def test_a_search_takes_the_one_value_and_tells_of_several():
    ledger = begun("h = bump(x)", brackets=lambda _: (0.0, 10.0))
    give(ledger, h=21)
    slot = ledger.network.slot_of["x"]
    assert ledger.searched(0, slot) is None
    assert [round(one[slot], 9) for one in ledger.several[(slot,)]] == [3, 7]
    assert not ledger.known[slot]
    alone = begun("h = bump(x)", brackets=lambda _: (0.0, 5.0))
    give(alone, h=21)
    assert round(alone.searched(0, slot), 9) == 3
    assert alone.several == {}


def test_the_gap_between_the_sides_and_their_size():
    ledger = begun("a = b - c")
    give(ledger, a=5, b=2, c=4)
    assert ledger.gap(0) == (7.0, 7.0)
    nowhere = begun("a = b / c")
    give(nowhere, a=5, b=2, c=0)
    assert nowhere.gap(0) is None


def test_a_difference_of_equals_leaves_no_amount_however_large_the_two():
    even = (3.38 * 1 + 3.38 * 2) / 3
    assert even != 3.38  # by the last digit alone
    for size in (0.01, 1.0, 1e3, 1e6):
        solution = solved(("w * (j + m) = a * j + s * m",), {"m": 2 * size, "a": 3.38, "s": 3.38, "w": even})
        assert solution.value("j") is None
    assert values(solved(("w * (j + m) = a * j + s * m",), {"m": 2, "a": 3.38, "s": 3.39, "w": 3.385}))["j"] == 2


def test_only_a_way_that_takes_something_off_may_leave_rounding_alone():
    network = network_of(toys("left = stock - poured", "a = b * c", "h = bump(x)"), (), TABLE)
    takes_off = {network.keys[slot]: instance.towards(slot).takes_off for instance in network.instances for slot in instance.slots}
    assert takes_off == {"left": True, "poured": True, "stock": False, "a": False, "b": False, "c": False, "h": False, "x": False}


def test_a_difference_is_told_though_twice_the_amount_would_be_beyond_a_table():
    """The table of squares ends at 10,000."""
    solution = solved(("whole = square(side) + rest",), {"whole": 64_000_001, "rest": 1})
    assert solution.value("side") == 8000


def test_nothing_less_nothing_is_nothing_and_is_told():
    assert values(solved(("left = stock - poured",), {"stock": 5, "poured": 5}))["left"] == 0
    assert values(solved(("left = stock - poured",), {"stock": 5, "left": 5}))["poured"] == 0


def test_equations_set_aside_are_not_gone_through_again():
    network = network_of(toys("a = b + c", "d = a + 1"), (), TABLE)
    ledger = Ledger(network, wide)
    ledger.idle.add(0)
    give(ledger, b=1, c=2)
    ledger.settle()
    assert known(ledger) == {"b": 1, "c": 2}
    assert known(attempt(network, wide, [(network.slot_of["b"], 1.0, 0.0), (network.slot_of["c"], 2.0, 0.0)])) == {"a": 3, "b": 1, "c": 2, "d": 4}
