"""So much sugar or honey to a decoction told in words: "honey equal parts", "half as much honey", "sugar to match", "a pound of sugar to the pint".

By weight, where no volume is spoken of.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Ingredient, Reading, Said
from assistant.patterns import looked_for
from assistant.session.renumbering import size_said
from assistant.session.sweets import SPIRITS, WATERY

if TYPE_CHECKING:
    from assistant.session.conversation import Session

OTHERS = looked_for(r"\b(?:vinegar|oxymel|wax|glycerine?|oil|instead|tincture)\b", re.IGNORECASE)
FACTORS = {"half": 0.5, "twice": 2.0, "double": 2.0, "third": 1 / 3, "quarter": 0.25}
FACTOR = r"(?P<factor>half|third|quarter|equal(?:ly)?|same|as much|even|twice|double)"
FILLERS = r"(?:(?:again|as|much|the|its|own|weights?|volumes?|parts?|amounts?|quantity|measures?|of|in|by|to|that|it|runny|raw|white|brown|cane)\s+)"
BEFORE = looked_for(rf"\b{FACTOR}\s+{FILLERS}{{0,6}}(?P<sweet>honey|sugar)\b", re.IGNORECASE)
BEHIND = looked_for(
    rf"\b(?P<sweet>honey|sugar)\b\W+(?:(?:at|in|by|of|the|with|to|it|its)\W+){{0,3}}{FACTOR}\b"
    r"(?:\W+(?:the|its|as|by|of|own|that))*\W*(?:weights?|volumes?|parts?|amounts?|again|much|measures?|quantity)?",
    re.IGNORECASE,
)
MATCHED = looked_for(
    r"\b(?P<sweet>honey|sugar)\b\W+(?:to match|(?:weight|pound|gram|like|cup|pint|volume)s? for (?:weight|pound|gram|like|cup|pint|volume)s?\b)"
    r"|\b(?:weight|pound|gram|like|cup|pint|volume)s? for (?:weight|pound|gram|like|cup|pint|volume)s? (?:of |with |in )?(?P<other>honey|sugar)\b"
    r"|\b(?:and|with) the same of (?P<third>honey|sugar)\b",
    re.IGNORECASE,
)
SWEET = looked_for(r"\b(?:honey|sugar)\b", re.IGNORECASE)
BOTH = looked_for(r"\bhoney\b.*\bsugar\b|\bsugar\b.*\bhoney\b", re.IGNORECASE)
BY_VOLUME = looked_for(r"\bvolumes?\b|\bmls? of it\b|\bcups? for\b|\bpints? for\b|\bby the (?:jug|cup|ml)\b", re.IGNORECASE)
SO_MUCH_OF_IT = looked_for(r"\d\s*(?:ml|mls|l|litres?|pints?|cups?)\b[^.;]*\bthe same of honey\b", re.IGNORECASE)
ALONE = looked_for(
    rf"^\W*(?:(?:no|actually|and|make|it|that|what|if|at|then|better|rather|with)\W+)*(?:the\s+)?{FACTOR}\s+(?:the\s+|as\s+much\s+)?(?P<measure>weights?|volumes?|parts)\b",
    re.IGNORECASE,
)
EACH = looked_for(r"\bof each\b|\beach of\b", re.IGNORECASE)
GRAMS = looked_for(r"\bgrams?\b|\bweigh", re.IGNORECASE)
WHOLE_SHARES = ("half", "third", "quarter")  # "half honey" is a share of the whole; "half as much honey" is none
OF_IT = looked_for(r"\b(?:as much|weight|volume|amount|quantity|measure|its|of it|of that)\b", re.IGNORECASE)
RATE = looked_for(
    r"^\s*(?:of )?(?:the |white |raw )?(?:(?:honey|sugar)\s+)?(?:is |goes )?(?:to|per|for|a|in|on|/)\s*(?:the|each|every|a|one)?\s*"
    r"(?P<n>100 ?ml|litre|liter|l|pint|quart|gallon)\b(?! of (?:honey|sugar|syrup))",
    re.IGNORECASE,
)
LIQUID = frozenset({"decoction", "liquid", "boiled_to", "boiled_share", "boiled_from", "juice"})
WATER = 0.9982  # g/mL


def as_sweet(session: Session, reading: Reading) -> None:
    """Turn so much sugar or honey, told in words, into so many times the liquid. Changes the reading."""
    batch = session.batch
    heard = reading.heard
    running = batch.facts.keys() if batch is not None and not batch.members else frozenset()
    again = next((k[:-6] for k in ("honey_times", "sugar_times", "honey_volumes") if k in running), "").rstrip("_")
    named = SWEET.search(heard) is not None
    alone = ALONE.search(heard) if again and not named else None
    if OTHERS.search(heard) or not (named or alone) or BOTH.search(heard) or reading.liquids or reading.has("swap") or EACH.search(heard):
        return
    wet = bool({s.quantity for s in reading.said} & LIQUID or running & LIQUID)
    wet = wet or any(line.name.split()[-1] in WATERY and any(q == "volume" for q, *_ in line.figures) for line in reading.ingredients)
    if not wet or any(s.quantity in ("honey_times", "sugar_times", "ratio") for s in reading.said):
        return
    if _rate(reading, bool(running & LIQUID)):
        return
    hit = alone or MATCHED.search(heard) or BEFORE.search(heard) or BEHIND.search(heard)
    if hit is None:
        return
    groups = hit.groupdict()
    sweet = next((s for s in (groups.get("sweet"), groups.get("other"), groups.get("third")) if s), again.split("_")[0]).lower()
    word = (groups.get("factor") or "equal").lower()
    told = running & {sweet, f"{sweet}_times", "honey_volume", "honey_volumes"}
    if (word in WHOLE_SHARES and not OF_IT.search(hit.group())) or (told and word in FACTORS and not OF_IT.search(hit.group())):
        return
    if not _lines(reading):
        return
    by_volume = sweet == "honey" and (BY_VOLUME.search(heard) or SO_MUCH_OF_IT.search(heard)) is not None
    _in_its_place(reading, sweet)
    figure = next((f for f in reading.loose if hit.start() <= f.start < hit.end()), None)
    start, end = (figure.start, figure.end) if figure is not None else (hit.start(), hit.start())
    reading.said.append(Said("honey_volumes" if by_volume else f"{sweet}_times", FACTORS.get(word, 1.0), start, end))
    reading.freed |= ({"honey", "honey_volume", "honey_times", "honey_volumes", "brix"} if sweet == "honey" else {"sugar", "brix"}) - {
        "honey_volumes" if by_volume else f"{sweet}_times"
    }
    reading.loose[:] = [f for f in reading.loose if not hit.start() <= f.start < hit.end()]
    for f in [f for f in reading.loose if f.kind == "#" and batch is not None and any(batch.facts[k].value == f.value for k in running & LIQUID)]:
        reading.only_points(f)  # "into the 700": what is there
    reading.acts[:] = [a for a in reading.acts if a.name not in ("same", "scale_n", "scale_one", "scale", "set")]
    _ask(reading, sweet, by_volume)


def _rate(reading: Reading, running: bool) -> bool:
    """ "A pound of sugar to the pint": so much to each measure of what there is."""
    sweets = [s for s in reading.said if s.quantity in ("sugar", "honey")]
    lines = [line for line in reading.ingredients if line.name.split()[-1] in ("sugar", "honey") and line.figures and line.figures[0][0] == "weight"]
    if not sweets and not lines:
        sweets = [replace(s, quantity=word.lower()) for s in reading.said if s.quantity == "herb" and s.weak for word in SWEET.findall(reading.heard)[:1]]
    if len(sweets) + len(lines) != 1:
        return False
    name, value, start, end = (sweets[0].quantity, sweets[0].value, sweets[0].start, sweets[0].end) if sweets else (
        lines[0].name.split()[-1], *lines[0].figures[0][1:]
    )
    hit = RATE.match(reading.heard[end:])
    if hit is None:
        return False
    inside = [f for f in reading.figures if end <= f.start < end + hit.end()]
    liquid = any(s.quantity in LIQUID and s not in inside for s in reading.said) or len(reading.ingredients) > len(lines)
    if not (running or liquid) or not _lines(reading):
        return False
    unit = hit.group("n").lower()
    size = 100.0 if unit.startswith("100") else size_said(unit, reading.measures)
    reading.said[:] = [s for s in reading.said if s.start != start and s not in inside]
    reading.loose[:] = [f for f in reading.loose if f not in inside]
    for figure in inside:
        reading.numbers.append((figure.start, figure.end, "#"))
    reading.said.append(Said(f"{name}_times", value / (size * WATER), start, end + hit.end()))
    reading.freed |= {"brix", name}
    _in_its_place(reading, name)
    _ask(reading, name, False)
    return True


PLACES = {
    ("liquid", "volume"): "decoction",
    ("spirit", "volume"): "keeping_spirit",
    ("spirit", "strength_of"): "keeping_strength",
    ("plant", "weight"): "herb",
}


def _lines(reading: Reading) -> bool:
    """The lines of the sentence as figures of the whole; False where one of them is of something else, and nothing is changed."""
    placed: list[Said] = []
    for line in reading.ingredients:
        key = _role(line)
        if key is None:
            return False
        for quantity, value, start, end in line.figures:
            if quantity == "part":
                continue
            name = PLACES.get((key, quantity), "")
            if not name and key != "sweet":
                return False
            if name:
                placed.append(Said(name, value, start, end))
    reading.said += placed
    reading.ingredients.clear()
    reading.frames -= {"listed", "formula", "written"}
    reading.frames.add("syrup")
    return True


def _in_its_place(reading: Reading, sweet: str) -> None:
    """A decoction told anew with its own sweet has none of the other sweet that was told of the last."""
    if any(s.quantity in LIQUID for s in reading.said):
        reading.freed |= {"honey", "honey_volume", "honey_times", "honey_volumes"} if sweet == "sugar" else {"sugar", "sugar_times"}


def _role(line: Ingredient) -> str | None:
    last, first = line.name.split()[-1], line.name.split()[0]
    if last in ("sugar", "honey"):
        return "sweet"
    if last in WATERY or first in WATERY:
        return "liquid"
    if last in SPIRITS:
        return "spirit"
    return "plant" if all(q in ("part", "weight") for q, *_ in line.figures) else None


def _ask(reading: Reading, sweet: str, by_volume: bool) -> None:
    others = [a for a in reading.asked if a.quantity not in ("sugar", "honey", "honey_volume", "herb", "menstruum")]
    if not others:
        reading.asked[:] = [Asked("honey_volume" if by_volume and not GRAMS.search(reading.heard) else sweet, 0, len(reading.heard))]


__all__ = ["as_sweet"]
