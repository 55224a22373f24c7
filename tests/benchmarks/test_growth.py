"""What grows and how: turns of one conversation, words of a sentence, plants and rules of one's own, ingredients of a recipe.

Times are those of the thread's processor, so that others on the machine do not count; each curve is printed against its own beginning.

Run by hand: pytest -s tests/benchmarks/test_growth.py
"""

import resource
import statistics
import time
from collections.abc import Callable

import pytest

from assistant import Session
from assistant.cautions.plants import plants
from assistant.listening.lengths import MOST_WORDS
from tests.benchmarks.test_cautions import many
from tests.stillroom.test_recipes_hold import HERBS

TURNS = 10_000
WINDOW = 700  # turns looked at, around the 100th and before the 10,000th
MOST_GROWTH = 1.2
MOST_MEGABYTES = 5.0  # a thousand turns
BENCH = (
    "112 g fresh nettle, 1:2 at 60 %", "how much spirit and water from 95", "make it 1:3", "what if it were 150 g", "why", "in ounces?",
    "go back to the nettle", "30 ml 3 times a day, how long does it last", "undo", "50 g dried yarrow 1:5 at 45 %, how much menstruum", "compare the two",
    "3 parts nettle, 2 parts thyme, 100 mL", "the owl sings at dusk", "500 g fresh elder leaf at 75% water, what does it dry to",
)  # fmt: skip


def cost(sentence: str, rounds: int = 7, session: Session | None = None) -> float:
    """Milliseconds of a processor for a sentence, said to a fresh session each time unless one is given."""
    times = []
    for _ in range(rounds):
        talker = session or Session()
        start = time.thread_time()
        talker.say(sentence)
        times.append((time.thread_time() - start) * 1e3)
    return statistics.median(times)


def ordinary(turn: int) -> str:
    return BENCH[turn % len(BENCH)]


def many_plans(turn: int) -> str:
    """A new plan at every fourth sentence, and a word back to the one before: two and a half thousand plans in the end, of plants of the list."""
    names = plants().names()
    return _plan_after_plan(turn, lambda plan: names[plan % len(names)])


def new_plants(turn: int) -> str:
    """The same with a plant that was never heard of in every plan."""
    return _plan_after_plan(turn, lambda plan: "".join("bdfgklmnprstvz"[plan // 14**k % 14] + "aeiou"[plan // 3**k % 5] for k in range(3)) + "wort")


def _plan_after_plan(turn: int, plant: Callable[[int], str]) -> str:
    here, before = plant(turn // 4), plant(max(turn // 4 - 1, 0))
    new = f"new batch: {50 + turn % 400} g dried {here} 1:5 at 45 %"
    return (new, "how much spirit and water from 95", "make it 1:4 at 50 %", f"back to the {before}")[turn % 4]


@pytest.mark.parametrize("said", [ordinary, many_plans, new_plants])
def test_the_ten_thousandth_turn(said):
    """A young conversation and an old one are spoken turn about, so that a machine that is busy for a while slows both."""
    old, held = Session(), {}
    for turn in range(TURNS - WINDOW):
        old.say(said(turn))
        if turn + 1 == 1000:
            held[turn + 1] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    held[TURNS] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    young = Session()
    for turn in range(100):
        young.say(said(turn))
    times: tuple[list[float], list[float]] = [], []
    for turn in range(WINDOW):
        for session, spoken, row in ((young, 100 + turn, times[0]), (old, TURNS - WINDOW + turn, times[1])):
            sentence = said(spoken)
            start = time.thread_time()
            session.say(sentence)
            row.append((time.thread_time() - start) * 1e3)
    first, last = statistics.mean(times[0]), statistics.mean(times[1])
    each = (held[TURNS] - held[1000]) / ((TURNS - WINDOW) / 1000 - 1)
    print(f"\n{said.__name__:12} {first:5.2f} ms around turn 100, {last:5.2f} ms before turn {TURNS:,} ({last / first:4.2f})", end="")
    print(f"   {each:5.2f} MB for a thousand turns, {len(old.batches)} plans", end="")
    assert last < MOST_GROWTH * first
    assert each < MOST_MEGABYTES


FILLER = "well you know the thing with it is that my neighbour came by and said the hedge was full so we went out there and".split()
SENTENCES = {
    "talk around one job": lambda n: " ".join(["112 g fresh nettle, 1:2 at 60 %,", *(FILLER[i % len(FILLER)] for i in range(n - 8))]),
    "figures alone": lambda n: " ".join(f"{i} g" for i in range(1, n // 2 + 1)),
    "figures of plants": lambda n: " ".join(f"{i} g nettle," for i in range(1, n // 3 + 1)),
    "ratios": lambda n: " ".join(["1:2 at 60 %"] * (n // 4)),
    "number words": lambda n: " ".join(["twenty"] * n),
    "asking on and on": lambda n: " ".join(["how much"] * (n // 2)),
    "nothing known": lambda n: " ".join(f"qu{'aeiou'[i % 5]}rz{'bcdfg'[i // 5 % 5]}l" for i in range(n)),
}


def test_words_of_a_sentence():
    lengths = (25, 50, 100, 200, MOST_WORDS)
    for name, sentence in SENTENCES.items():
        assert Session().say(sentence(MOST_WORDS)).status != "refused"
        spent = {n: cost(sentence(n)) for n in lengths}
        print(f"\n{name:22}" + "".join(f"{n:5} words {ms:6.1f} ms ({ms / n:5.3f} each)" for n, ms in spent.items()), end="")
        # A step from 100 to 400 words that is no steeper than the one from nothing to 100: linear, with a tenth for chance.
        assert spent[MOST_WORDS] < 1.1 * MOST_WORDS / 100 * spent[100]
    start = time.thread_time()
    assert Session().say("well " * (MOST_WORDS + 1)).status == "refused"
    assert (time.thread_time() - start) * 1e3 < 5


PLANT = """
[[plant]]
latin = "Herba numero{n}a"
names = ["{name}"]
family = "Asteraceae"
[[plant.part]]
kind = "leaf"
name = "leaf"
water = [70, 80, "common practice", "common practice"]
"""


def own_names(count: int) -> list[str]:
    """Invented plant names of two words: half of them share their first word with others."""
    return [f"{'wester' if n % 2 else 'oster'}{'abcdefghij'[n // 2 % 10]}ling {'klmnopqrst'[n // 20 % 10]}or{'abcdefghij'[n // 200]}wort" for n in range(count)]


def test_plants_and_rules_of_ones_own(tmp_path):
    spent = {}
    for count in (10, 100, 1000):
        folder = tmp_path / str(count)
        folder.mkdir()
        names = own_names(count)
        assert len(set(names)) == count
        (folder / "plants.toml").write_text("".join(PLANT.format(n=n, name=name) for n, name in enumerate(names)), encoding="utf-8")
        (folder / "own.rules").write_text(many(count), encoding="utf-8")
        start = time.thread_time()
        session = Session(folder=folder)
        opened = time.thread_time() - start
        assert not session.faults
        sentence = f"112 g fresh {names[-1]}, 1:2 at 60 %"
        reply = session.say(sentence)
        assert "water_content" in {v.quantity for v in reply.values}, reply.text
        spent[count] = cost(sentence, 15, session)
        print(f"\n{count:5} plants and {count:5} rules of one's own: opened in {opened * 1e3:7.0f} ms ({opened / count * 1e3:5.2f} each)", end="")
        print(f", a turn {spent[count]:5.2f} ms ({spent[count] / spent[10]:4.2f})", end="")
    assert spent[1000] < 2 * spent[10]


def test_ingredients_of_a_recipe():
    spent = {}
    for count in (5, 10, 20, 40):
        sentence = ", ".join(f"{n % 5 + 1} parts {herb}" for n, herb in enumerate(HERBS[:count])) + ", 1 litre"
        assert sum(v.quantity == "volume" for v in Session().say(sentence).values) == count
        spent[count] = cost(sentence)
        print(f"\n{count:3} ingredients {spent[count]:6.2f} ms ({spent[count] / count:5.3f} each)", end="")
    assert spent[40] < 1.1 * 8 * spent[5]
