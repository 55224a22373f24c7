"""A thousand rules against a hundred: reading them, and a whole turn with them, as ratios.

Run by hand: pytest -s tests/benchmarks
"""

import statistics
import time

from assistant import Session
from assistant.cautions import read_folder, shipped, speak
from assistant.cautions.folder import read_texts
from assistant.cautions.reading import read_rules
from assistant.places import rules_folder
from tests.cautions.kit import Figure, book_of, facts, meaning

LOADED = 40.0  # ms for all rules and plants


def many(count: int) -> str:
    """That many rules in one text: the shipped ones under new names, over and over."""
    blocks = [block for path in sorted(rules_folder().glob("*.rules")) for block in path.read_text(encoding="utf-8").split("\nrule ")[1:]]
    return "".join(f"\nrule copy-{number}-{blocks[number % len(blocks)]}\n" for number in range(count))


def took(work, times=7) -> float:
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append((time.perf_counter() - start) * 1e3)
    return statistics.median(found)


def test_loading_and_weighing():
    shipped.cache_clear()
    start = time.perf_counter()
    pack = shipped()
    loaded = (time.perf_counter() - start) * 1e3
    few, lots = many(100), many(1000)
    read_rules(few, "few.rules", meaning())
    each_few = took(lambda: read_rules(few, "few.rules", meaning()), 3) / 100
    each_lots = took(lambda: read_rules(lots, "lots.rules", meaning()), 3) / 1000
    small, large = (book_of(*read_rules(text, "some.rules", meaning())[0]) for text in (few, lots))
    assert (len(small), len(large)) == (100, 1000)
    figures = {"herb": 100, "ratio": 2, "strength": 60, "finished_strength": Figure(42, "found"), "menstruum": 200}
    given = facts(figures, "fresh wild", plant="nettle", part="leaf")
    weigh_few, weigh_lots = took(lambda: speak(small, given), 50), took(lambda: speak(large, given), 50)
    print(f"\nshipped      {len(pack.book)} rules and {len(pack.plants)} plants in {loaded:5.1f} ms ({loaded / LOADED:4.2f} of {LOADED:g})", end="")
    print(f"\nfrom texts   {took(lambda: read_texts(rules_folder()), 1):5.0f} ms", end="")
    print(f"\na rule       {each_few:5.2f} ms of 100, {each_lots:5.2f} ms of 1,000 ({each_lots / each_few:4.2f})", end="")
    print(f"\nweighing     {weigh_few:5.3f} ms with 100, {weigh_lots:5.3f} ms with 1,000 ({weigh_lots / weigh_few:4.2f})", end="")
    assert each_lots < 3 * each_few


def test_a_turn_with_a_thousand_rules(tmp_path, monkeypatch):
    """The whole turn, with a hundred and with a thousand rules of a person's own laid over the shipped ones."""
    sentence = "112 g fresh nettle from the hedgerow, 1:2 at 60 %"
    spent, base = {}, shipped()
    for count in (100, 1000):
        folder = tmp_path / str(count)
        folder.mkdir()
        (folder / "own.rules").write_text(many(count), encoding="utf-8")
        pack = read_folder(folder, base)
        assert not pack.faults
        monkeypatch.setattr("assistant.cautions.folder.shipped", lambda pack=pack: pack)
        Session().say(sentence)
        spent[count] = took(lambda: Session().say(sentence), 25)
    print(f"\na turn       {spent[100]:5.2f} ms with 100 of one's own, {spent[1000]:5.2f} ms with 1,000 ({spent[1000] / spent[100]:4.2f})", end="")
    assert spent[1000] < 2 * spent[100]
