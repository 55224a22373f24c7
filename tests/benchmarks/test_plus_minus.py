"""A turn with a ± beside the same turn without one: it may take twice as long at most.

Run by hand: pytest -s tests/benchmarks
"""

import time

import pytest

from assistant import Session

MOST = 2.0  # times a turn without
TURNS = 25

PAIRS = {
    "a jar": ("{} g fresh nettle at 80 % water, 1:2 at 60 %", "{} g give or take 5 fresh nettle at 80 % water, 1:2 at 60 %"),
    "from a stock": (
        "{} g fresh nettle at 80 % water, 1:2 to finish at 45 % from 95 %",
        "{} g give or take 5 fresh nettle at 75 to 85 % water, 1:2 to finish at 45 % from 95 %",
    ),
    "a formula": (
        "formula of {} mL thyme, 33 mL elecampane, 17 mL licorice, 12 mL ginger",
        "formula of {} mL give or take 1 thyme, 33 mL ± 1 elecampane, 17 mL ± 1 licorice, 12 mL ± 1 ginger",
    ),
    "bottles": ("{} mL dried yarrow tincture at 45 % into 50 mL bottles", "{} mL give or take 20 dried yarrow tincture at 45 % into 50 mL bottles"),
}


def turns(sentence: str, before: tuple[str, ...], other: str, before_other: tuple[str, ...]) -> tuple[float, float]:
    """The quickest of many turns of each of two sentences, each in a session of its own, in milliseconds; turn about, so that a busy machine slows both."""
    times: tuple[list[float], list[float]] = [], []
    for n in range(TURNS):
        for spoken, earlier, row in ((sentence, before, times[0]), (other, before_other, times[1])):
            session = Session()
            for one in earlier:
                session.say(one)
            start = time.perf_counter()
            session.say(spoken.format(101 + n))
            row.append((time.perf_counter() - start) * 1e3)
    return min(times[0]), min(times[1])


@pytest.mark.parametrize("name", PAIRS)
def test_a_turn_with_a_plus_minus(name):
    plain, unsure = PAIRS[name]
    without, with_ = turns(plain, (), unsure, ())
    print(f"\n{name:14} without {without:6.2f} ms, with ± {with_:6.2f} ms: {with_ / without:4.2f} times", end="")
    assert with_ <= MOST * without


def test_a_turn_with_instruments_in_hand():
    tools = ("my spring scale goes to a kilo in 10 g steps", "my cylinders are 10, 50 and 100 ml, class B")
    sentence = PAIRS["a jar"][0]
    without, with_ = turns(sentence, (), sentence, tools)
    print(f"\n{'instruments':14} without {without:6.2f} ms, with them {with_:6.2f} ms: {with_ / without:4.2f} times", end="")
    assert with_ <= MOST * without
