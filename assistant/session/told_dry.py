"""What is meant dry: "3.4 kg balm, 78 % water, what's that dry", "if it only gets down to 13 % water", "want 300 g dried root, how much to dig"."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.dry_rates import WEIGHED_DRY
from assistant.listening.statements import Asked, Loose, Reading
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

ASKED_DRY = looked_for(
    r"\b(?:what(?:['’]?s| is| does| will| would|['’]?ll)|how much)\b(?P<between>[^\d.;?!]{0,28}?)\b(?:dry|dried)\b"
    r"(?:\W*(?:will|do|does|would|should|can|have|got|get|i|we|it|that|be|left|me|out of|from|then|weight|end up with|come to)\b)*\W*(?:$|[.;?!])",
    re.IGNORECASE,
)
TURNED = looked_for(r"\b(?:fresh|pick|gather|dig|cut|harvest|pour|menstruum|counted|reckoned|equivalent|per ml|ratio)\b", re.IGNORECASE)
DOWN_TO = looked_for(
    r"\b(?:gets?|got|goes|went|comes?|came|dries|dried|dry|falls?|only|takes?|is|was|stops?|stays?|stuck|sticks?)\b"
    r"[^\d.;?!]{0,24}\b(?:to|at)\s+(?:about |only |just )?$",
    re.IGNORECASE,
)
WANTED = looked_for(r"\b(?:want|need|after|for|get|have|end up with|make|wants|needs|order)\b\W*(?:[\w']+\W+){0,2}$", re.IGNORECASE)
FRESH_WEIGHTS = frozenset({"herb", "gross", "picked"})
HOW_IT_DRIES = frozenset({"water_content", "drying_ratio"})
IN_A_JAR = frozenset({"ratio", "menstruum", "strength", "stock_strength"})
MISTAKEN = frozenset({"herb", "herb_left", "picked", "held_back", "left_dried", "dried", "dry_matter"})
HOW_MUCH = looked_for(r"\bhow much\b.*\b(?:need|needs|want|take|takes|go|goes|use)\b", re.IGNORECASE)
MOST_WATER = 40.0  # percent: more than this nobody calls dried


def told_dry(reading: Reading, batch: Batch | None) -> None:
    """Give these sentences their meaning. Changes the reading."""
    if reading.ingredients or reading.liquids:
        return
    _what_it_dries_to(reading, batch)
    _wanted_dry(reading)
    if batch is not None:
        _how_dry_it_gets(reading, batch)
        _of_the_dried(reading, batch)


def _what_it_dries_to(reading: Reading, batch: Batch | None) -> None:
    """A fresh weight and how it dries are told, and what it is dry is asked."""
    hit = ASKED_DRY.search(reading.heard)
    if hit is None or TURNED.search(hit["between"]) or {a.quantity for a in reading.asked} - MISTAKEN:
        return
    told = {s.quantity for s in reading.said}
    if batch is not None and not told & FRESH_WEIGHTS:
        told |= batch.facts.keys()
    if told & (IN_A_JAR | {"dried", "wilted"}) or not told & FRESH_WEIGHTS or not told & HOW_IT_DRIES:
        return
    reading.asked[:] = [Asked("dried", hit.start(), hit.end())]
    reading.in_state("fresh")


def _wanted_dry(reading: Reading) -> None:
    """The dried weight that is wanted, where it is asked how much to dig or to pick for it."""
    if not any(a.quantity == "to_gather" for a in reading.asked) or any(s.quantity in ("dried", "gross", "picked") for s in reading.said):
        return
    weights = [s for s in reading.said if s.quantity == "herb"]
    if len(weights) != 1:
        return
    weight = weights[0]
    if not WEIGHED_DRY.match(reading.heard[weight.end :]) or not WANTED.search(reading.heard[: weight.start]):
        return
    reading.said[:] = [replace(s, quantity="dried", weak=False) if s is weight else s for s in reading.said]
    reading.in_state("fresh")


def _how_dry_it_gets(reading: Reading, batch: Batch) -> None:
    """ "And if it only gets down to 13 % water": what is left in the dried plant, where it is reckoned what it dries to."""
    facts = batch.facts.keys()
    if not ({"dried", "herb", "to_gather"} & set(batch.wanted)) or not facts & {"water_content", "drying_ratio"} or facts & IN_A_JAR:
        return
    figures = [f for f in reading.figures if (f.kind in ("%", "#") if isinstance(f, Loose) else f.quantity in ("strength", "water_content"))]
    if len(figures) != 1 or len(reading.said) + len(reading.loose) != 1:
        return
    figure = figures[0]
    if not 0 <= figure.value <= MOST_WATER or not DOWN_TO.search(reading.heard[: figure.start]):
        return
    if "dried" not in batch.wanted and "dried" not in facts:
        return
    take_as(reading, figure, "dried_water")
    reading.asked[:] = [a for a in reading.asked if a.quantity not in ("water", "water_content", "plant_water")]


def _of_the_dried(reading: Reading, batch: Batch) -> None:
    """ "And how much would I need for 2 litres of 1:5?" behind what it dries to: of the dried plant, and the fresh one is done with."""
    if "dried" not in batch.wanted or "fresh" in reading.tags or not HOW_MUCH.search(reading.heard) or {a.quantity for a in reading.asked} - {"herb", "dried"}:
        return
    if {"ratio", "menstruum"} <= {s.quantity for s in reading.said} and not batch.facts.keys() & IN_A_JAR:
        reading.freed |= batch.facts.keys() & {"herb", "gross", "tare", "picked", "trim_loss", "water_content", "drying_ratio", "dried_water"}
        reading.asked[:] = [Asked("herb", 0, len(reading.heard))]
        reading.tags.add("dried")
