"""A measure said with a word of fullness: "a full quart", "a good pint", "another whole litre" are one quart, one pint, one litre."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.islands import Item
from assistant.quantities.units import units

ONE = frozenset({"a", "an", "one", "another", "every"})
BARE = frozenset({"full", "whole"})
FULL = frozenset({"full", "whole", "good", "generous", "scant", "entire", "level", "big", "proper"})


def with_whole_measures(items: Sequence[Item], measures: str) -> list[Item]:
    """The items with such measures made amounts, over the place of the words. `measures` is whose pint is meant."""
    result: list[Item] = []
    i = 0
    while i < len(items):
        item = items[i]
        ahead = items[i + 1] if i + 1 < len(items) else None
        before = items[i - 1].word if i else ""
        bare = item.word in BARE and (not i or items[i - 1].kind == "word") and ahead is not None and ahead.unit == "mL"  # "whole tsp", "full pint then"
        if ahead is not None and item.word in FULL and (before in ONE or bare) and ahead.kind == "word" and ahead.unit in ("mL", "g"):
            size = _size(ahead, measures)
            if size is not None:
                text = item.text + " " + ahead.text
                result.append(replace(ahead, kind="amount", text=text, start=item.start, word="", value=size, said=1.0))
                i += 2
                continue
        if _is_one_spoon(items, i) and (one := _size(item, measures)) is not None:
            teaspoon = item.text.lower().startswith(("tsp", "teaspoon", "spoon"))
            item = replace(item, kind="amount", word="", value=one, said=1.0, said_unit="tsp" if teaspoon else "tbsp", alt=5.0 if teaspoon else None)
        if _is_asked_alone(items, i) and (one := _size(item, measures)) is not None:
            item = replace(item, kind="amount", word="", value=one, said=1.0)
        if _is_ones(items, i) and (one := _size(item, measures)) is not None:
            item = replace(item, kind="amount", word="", value=one, said=1.0)
        result.append(item)
        i += 1
    return result


VESSEL_SIZES = ("pint", "quart", "gallon", "litre", "liter")


SPOONS = frozenset({"tsp", "teaspoon", "tbsp", "tablespoon", "spoonful", "teaspoonful"})


def _is_one_spoon(items: Sequence[Item], i: int) -> bool:
    """ "Tsp twice a day": a spoon with how often behind it and no number before it is one."""
    item = items[i]
    ahead = items[i + 1] if i + 1 < len(items) else None
    return (
        item.kind == "word"
        and item.text.lower() in SPOONS
        and (not i or items[i - 1].kind in ("word", "punct"))
        and ahead is not None
        and (ahead.kind == "frequency" or (ahead.kind == "number" and ahead.text.lower().endswith("x")))
    )


LEADS = frozenset({"and", "or", "in", "into", "with", "for", "what", "about", "how"})


def _is_asked_alone(items: Sequence[Item], i: int) -> bool:
    """ "Quarts?", "and in pints?": jars of that size, where nothing else is said."""
    item = items[i]
    plural = item.kind == "word" and item.unit == "mL" and item.text.lower().endswith(tuple(f"{size}s" for size in VESSEL_SIZES))
    return plural and all(j == i or items[j].kind == "punct" or items[j].word in LEADS for j in range(len(items)))


def _is_ones(items: Sequence[Item], i: int) -> bool:
    """ "Imperial pint ones", "quart ones": jars or bottles spoken of before, by their size."""
    behind = items[i + 1].word if i + 1 < len(items) else ""
    return items[i].kind == "word" and items[i].unit == "mL" and items[i].text.lower().endswith(VESSEL_SIZES) and behind == "ones"


def _size(item: Item, measures: str) -> float | None:
    unit = units().spellings.get(item.text.lower())
    return None if unit is None else unit.size(measures)
