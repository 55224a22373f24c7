"""How many doses a bottle holds, and the drops that go in with each: "how many doses of 5 mL in 200 mL", "3 drops of ginger in every dose"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.units import spoon_of
from assistant.session.batch import Batch
from assistant.session.work import take_as

EACH_DOSE = r"(?:in|to|per|for|with|a|each|every|the)\s+(?:(?:every|each|a|the|one)\s+)?(?:dose|spoonful|teaspoonful|taking)\b"
DROPS = looked_for(
    rf"(?P<n>\d+|one|two|three|four|five|six|a)\s*drops?\s+(?:of\s+)?(?:[a-z]+ ){{0,4}}?{EACH_DOSE}"
    rf"|\bdose\b[^;.]{{0,20}}\bwith (?P<m>\d+)\s*drops?\b", re.IGNORECASE
)
DROPS_ASKED = looked_for(
    r"\b(?:how many|what|number of)\s+(?:[a-z]+ )?drops\b|\bdrops (?:of [a-z]+ )?(?:in all|altogether|in total|for the bottle|in the bottle)", re.IGNORECASE
)
HOW_MANY = looked_for(r"\bhow many\b(?! days| weeks| bottles| drops| ml| grams| g\b| times)|\bdoses (?:is that|in it|are there)", re.IGNORECASE)
SPOONS = looked_for(
    r"\bhow many (?P<spoon>tea ?spoon(?:ful)?s?|tsps?|table ?spoon(?:ful)?s?|tbsps?)\b.{0,20}\b(?:in|from|out of|does)\b.*\b(?:bottle|phial"
    r"|vial)\b",
    re.IGNORECASE,
)
THERE = frozenset({"bottle_size", "menstruum", "pressed", "blend", "stock", "spirit_in_hand", "supply", "to_bottle"})
DOSE_IS = looked_for(r"\bdoses?\b|\bspoonfuls?\b", re.IGNORECASE)
ANOTHER = looked_for(
    r"^\W*(?:(?:and|or|so|what|if|about|at|with|its|it|only|just|say|make|that|take|taking|how|many|then|of|a|dose|doses|is"
    r"|was)\W+)*\d+(?:[.,]\d+)?\s*(?:mls?)?"
    r"(?:\W+(?:doses?|instead|then|each))*\W*$",
    re.IGNORECASE,
)
DOSE_OF = looked_for(r"dose (?:is |of |= ?)?(\d+(?:\.\d+)?) ?ml\b", re.IGNORECASE)
BOTTLE_OF = looked_for(r"\b(\d+) ?ml bottle\b|\bbottle (?:is |of )?(\d+) ?ml\b", re.IGNORECASE)
LARGEST_DOSE = 30.0  # mL


def doses_in_it(reading: Reading, batch: Batch | None) -> None:
    """Ask the doses in a bottle, or the drops that so many doses take. Changes the reading."""
    if reading.ingredients or ("essential" in reading.frames and not DROPS.search(reading.heard)):
        return
    facts = batch.facts if batch is not None else {}
    if facts.keys() & {"dose", "daily"} and any(a.quantity == "days" for a in reading.asked):
        reading.let_go("cautions_keeping")  # "how long does it last then": for how many days there is enough
    drops = DROPS.search(reading.heard)
    if drops is not None and DROPS_ASKED.search(reading.heard):
        _drops_beside(reading, drops)
    elif "drops_beside" in facts and not reading.asked and (told := [f for f in reading.figures if _in_drops(f)]):
        take_as(reading, told[0], "drops_beside")
    elif batch is not None and batch.wanted == ("doses",) and len(reading.figures) == 1 and not reading.asked and ANOTHER.match(reading.heard):
        figure = reading.figures[0]  # "and at 4"
        if figure.value <= LARGEST_DOSE and (figure.kind in ("mL", "#") if isinstance(figure, Loose) else figure.quantity not in ("dose_drops", "times_a_day")):
            take_as(reading, figure, "dose")
    elif (spoons := SPOONS.search(reading.heard)) is not None and len(reading.figures) == 1:
        size = spoon_of(spoons["spoon"], reading.measures)
        if not _there(reading, reading.figures):
            return
        reading.said.append(Said("dose", size, spoons.start("spoon"), spoons.end("spoon"), "", "tsp"))
        _asks(reading, "doses")
    elif HOW_MANY.search(reading.heard) and DOSE_IS.search(reading.heard) and not {a.quantity for a in reading.asked} - {"doses", "bottles", "menstruum"}:
        _doses(reading)


def _in_drops(figure: Said | Loose) -> bool:
    return figure.quantity == "dose_drops" if isinstance(figure, Said) else figure.kind == "drop"


def _doses(reading: Reading) -> None:
    figures = reading.figures
    if len(figures) != 2:
        return
    doses = [f for f in figures if isinstance(f, Said) and f.quantity in ("dose", "dose_drops")]
    if not doses:
        small = [f for f in figures if f.value <= LARGEST_DOSE and (f.quantity in THERE if isinstance(f, Said) else f.kind in ("mL", "#"))]
        doses = [take_as(reading, small[0], "dose")] if len(small) == 1 else []
    others = [f for f in reading.figures if f.start not in [d.start for d in doses]]
    if len(doses) == 1 and _there(reading, others):
        _asks(reading, "doses")


def _drops_beside(reading: Reading, drops: re.Match[str]) -> None:
    start = drops.start("n") if drops["n"] else drops.start("m")
    figure = next((f for f in reading.figures if f.start <= start < f.end), None)
    doses = [f for f in reading.figures if f is not figure and (f.quantity == "dose" if isinstance(f, Said) else f.kind == "mL" and f.value <= LARGEST_DOSE)]
    others = [f for f in reading.figures if f is not figure and f not in doses]
    if figure is None or len(doses) != 1:
        hidden = DOSE_OF.search(reading.heard)
        if figure is None or hidden is None or doses:
            return
        reading.said.append(Said("dose", float(hidden[1]), hidden.start(1), hidden.end()))
        others = [f for f in others if not hidden.start() <= f.start < hidden.end()]
    elif isinstance(doses[0], Loose):
        take_as(reading, doses[0], "dose")
    take_as(reading, figure, "drops_beside")
    reading.frames.discard("essential")
    if not others:
        size = BOTTLE_OF.search(reading.heard)
        if size is not None:
            reading.said.append(Said("bottle_size", float(size[1] or size[2]), size.start(), size.end()))
    elif not _there(reading, others):
        return
    _asks(reading, "drops_of_all")


def _there(reading: Reading, figures: list[Said | Loose]) -> bool:
    """Whether one figure tells what it is taken from; it is the bottle then."""
    if len(figures) != 1 or not (figures[0].quantity in THERE if isinstance(figures[0], Said) else figures[0].kind in ("mL", "#")):
        return False
    take_as(reading, figures[0], "bottle_size")
    return True


def _asks(reading: Reading, quantity: str) -> None:
    reading.let_go("in_unit", "scale_n")
    reading.asked[:] = [Asked(quantity, 0, len(reading.heard))]
    reading.frames.add("dose")
