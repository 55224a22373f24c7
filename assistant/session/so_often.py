"""A dose told by its measure and how often, no day named: "half tsp 3 times, 4 oz bottle", "30 drops twice from 50 mL"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.settling import SELDOM
from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.units import of_liquid, spoon_of
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.batch import Batch

LARGEST_DOSE, MOST_DROPS, MOST_TIMES = 15.0, 200.0, 12.0  # mL, drops, a day
TAKEN = frozenset({"pressed", "menstruum", "stock", "spirit_in_hand", "blend", "dose", "dose_drops", "bottle_size"})
BETWEEN = looked_for(r"^\W*(?:(?:of|it|that|taken|about|in|with|some|a|little|warm|hot|cold|water|juice|tea)\b\W*)*$", re.IGNORECASE)
FROM = looked_for(r"\b(?:bottle|phial|vial|flask|from|out of)\b", re.IGNORECASE)
BOTTLE_IS = looked_for(r"\b(?:bottle|phial|vial|flask) (?:is|holds|of|has) (?:an? |about |only )?$", re.IGNORECASE)
BOTTLES = frozenset({"bottle_size", "menstruum", "pressed", "stock", "spirit_in_hand"})
OF_A_BOTTLE = looked_for(r"\b(?:bottles?|phials?|vials?|flasks?|from|out of)[ :=]+(?:(?:an?|the|my|is|are|was|of|holds|has|only|about) +)*$", re.IGNORECASE)
BOTTLE_BEHIND = looked_for(r"^\W*(?:(?:dropper|amber|glass|little|small)\W+)?(?:bottles?|phials?|vials?|flasks?)\b", re.IGNORECASE)
DOSED = frozenset({"dose", "dose_drops", "daily", "dropperfuls", "per_cup", "herb_per_dose", "adult_dose"})
OTHERWISE = frozenset({"tea", "decoction", "child_dose", "child_rule", "young", "fried", "regimen", "year", "orders", "ledger"})
OUNCES = looked_for(
    r"^\W*(?:(?:and|or|what|about|if|its|it|is|was|make|a|an|the|from|with|in|say|then|but|only)\W+)*\d+(?:[.,]\d+)? ?(?:oz"
    r"|ounces?)\b(?: bottle| one| instead| then)?\W*$",
    re.IGNORECASE,
)
SPOON_ALONE = looked_for(
    r"^\W*(?:(?:and|or|what|about|if|its|it|is|was|make|made|that|a|an|in|with|say|but|no|i|meant|one|change|to|on)\W+)*"
    r"(?P<spoon>tsps?|teaspoons?|tbsps?|tablespoons?)\W*(?:instead|then|each|a|time)*\W*$",
    re.IGNORECASE,
)
BY_TIMES = looked_for(r"\b(?P<n>\d{1,2}) ?[x×] ?(?P<size>\d{2,4}) ?(?:ml|mls)\b", re.IGNORECASE)
ASKED = frozenset({"days", "bottles_needed", "daily", "supply", "bottles", "doses", "menstruum"})


COMES = looked_for(r"\b(?:come|comes|coming|visits?|post|sees?|calls?|market|delivers?|shop|drives?|here|in town|there)\b[^.;?]{0,24}$", re.IGNORECASE)


def _seldom(reading: Reading, batch: Batch | None) -> None:
    """ "She comes once a month": how often somebody comes, where something is taken every day. Changes the reading."""
    daily = batch is not None and "times_a_day" in batch.facts and batch.facts["times_a_day"].value > SELDOM
    for s in [s for s in reading.said if s.quantity == "times_a_day" and s.value < SELDOM]:
        if daily and COMES.search(reading.heard[: s.start]):
            reading.only_points(s, "time")


def so_often(reading: Reading, batch: Batch | None) -> None:
    """Read a small measure right before "three times" or "twice", beside a bottle, as a dose. Changes the reading."""
    _seldom(reading, batch)
    if reading.ingredients or reading.liquids or reading.named or (batch is not None and batch.members) or not FROM.search(reading.heard):
        return
    if {a.quantity for a in reading.asked} - ASKED or any(s.quantity == "times_a_day" for s in reading.said):
        return
    act, bare = reading.act("scale_n"), next((f for f in reading.loose if f.kind == "times"), None)
    times = act or bare
    often = act.figures[0] if act is not None and len(act.figures) == 1 else bare.value if bare is not None else 0.0
    if times is None or often != int(often) or not 1 <= often <= MOST_TIMES:
        return
    figures: list[Said | Loose] = sorted([*reading.said, *(f for f in reading.loose if f is not bare)], key=lambda f: f.start)
    taken = [f for f in figures if f.end <= times.start and BETWEEN.match(reading.heard[f.end : times.start]) and _is_small(f)]
    others = [f for f in figures if f not in taken]
    if len(taken) != 1 or len(others) != 1 or not isinstance(others[0], Said):
        return
    size = not others[0].said_unit and BOTTLE_IS.search(reading.heard[: others[0].start]) is not None  # "bottle is 100": no spirit's strength
    if others[0].quantity not in BOTTLES and not (size and others[0].quantity == "stock_strength"):
        return
    dose, bottle = taken[0], others[0]
    in_drops = dose.quantity == "dose_drops" if isinstance(dose, Said) else dose.kind == "drop"
    take_as(reading, bottle, "bottle_size")
    take_as(reading, dose, "dose_drops" if in_drops else "dose")
    reading.said.append(Said("times_a_day", often, times.start, times.end))
    reading.loose.clear()
    if act is not None:
        reading.acts.remove(act)
    reading.references[:] = [r for r in reading.references if not (times.start <= r.start < times.end)]
    reading.asked[:] = [a for a in reading.asked if a.quantity not in ("bottles", "menstruum")] or [Asked("days", 0, len(reading.heard))]
    reading.frames.add("dose")


def only_dose(reading: Reading, batch: Batch | None) -> None:
    """ "Every other day 10 mL for 30 days", "3 times a day 5 ml, 100 ml bottle": with how often told, few millilitres are the dose, and no bottle.

    Changes the reading.
    """
    told = {s.quantity for s in reading.said} | (batch.facts.keys() if batch is not None else set())
    if "times_a_day" not in told or told & DOSED or reading.ingredients or reading.frames & OTHERWISE or (batch is not None and batch.members):
        return
    figures, heard = reading.figures, reading.heard
    small = [f for f in figures if _is_small(f) and not _is_bottle(f, heard) and not (isinstance(f, Said) and f.quantity == "bottle_size" and not f.weak)]
    if len(small) != 1 or any(not isinstance(f, Said) and f.kind == "dropperful" for f in figures):
        return
    if "course" not in told and not any(s.quantity == "times_a_day" for s in reading.said):
        return
    dose = small[0]
    bottles = [f for f in figures if f is not dose and (f.kind == "mL" if not isinstance(f, Said) else f.quantity in BOTTLES) and f.value > dose.value]
    take_as(reading, dose, "dose_drops" if "drop" in (getattr(dose, "kind", ""), dose.said_unit) else "dose")
    if len(bottles) == 1 and "bottle_size" not in told:
        take_as(reading, bottles[0], "bottle_size")
    if "course" in told and not bottles and "bottle_size" not in told and not {a.quantity for a in reading.asked} - {"menstruum", "bottles"}:
        reading.asked[:] = [Asked("supply", 0, len(heard))]


def _is_bottle(figure: Said | Loose, heard: str) -> bool:
    """Whether the words beside a measure call it a bottle's."""
    return OF_A_BOTTLE.search(heard[: figure.start]) is not None or BOTTLE_BEHIND.match(heard[figure.end :]) is not None


def bottles_by_times(reading: Reading, batch: Batch | None) -> None:
    """ "How long would 2 x 100 mL last at 2.5 mL tds": so many bottles of that size. Changes the reading."""
    hit = BY_TIMES.search(reading.heard)
    told = {s.quantity for s in reading.said}
    if hit is None or "dose" not in told | (batch.facts.keys() if batch is not None else set()) or "days" not in {a.quantity for a in reading.asked}:
        return
    if reading.ingredients or reading.named or told & {"bottles", "bottle_size"} or (batch is not None and batch.members):
        return
    reading.said[:] = [s for s in reading.said if not hit.start() <= s.start < hit.end()]
    reading.loose[:] = [f for f in reading.loose if not hit.start() <= f.start < hit.end()]
    reading.said.append(Said("bottles", float(hit["n"]), hit.start("n"), hit.end("n")))
    reading.said.append(Said("bottle_size", float(hit["size"]), hit.start("size"), hit.end()))
    reading.let_go("scale_n")
    reading.frames.add("dose")


def another_measure(reading: Reading, batch: Batch | None) -> None:
    """Of a dose and its bottle in hand: "and a 4 oz" is another bottle, "make it tbsp" another spoon. Changes the reading."""
    facts = batch.facts if batch is not None else {}
    if not {"dose", "bottle_size"} <= facts.keys() or reading.asked or reading.ingredients or (batch is not None and batch.members) or "herb" in facts:
        return
    figures = reading.figures
    if len(figures) == 1 and OUNCES.match(reading.heard) and isinstance(figures[0], Said) and figures[0].said_unit.startswith(("oz", "ounce")):
        if figures[0].quantity in ("herb", "batch", "picked", "dried") and figures[0].weak:
            take_as(reading, figures[0], "bottle_size", of_liquid(figures[0].value, reading.measures))
        return
    spoon = SPOON_ALONE.match(reading.heard) if not figures else None
    said = facts["dose"].said_unit.lower()
    if spoon is None or not said.startswith(("tsp", "teaspoon", "tbsp", "tablespoon", "spoon")):
        return
    size, now = (spoon_of(word, reading.measures) for word in (said, spoon["spoon"]))
    reading.said.append(Said("dose", facts["dose"].value / size * now, spoon.start("spoon"), spoon.end("spoon"), "", spoon["spoon"].lower()))
    reading.let_go("in_unit", "correct")


def _is_small(figure: Said | Loose) -> bool:
    if isinstance(figure, Loose):
        return (figure.kind == "drop" and figure.value <= MOST_DROPS) or (figure.kind == "mL" and figure.value <= LARGEST_DOSE)
    return figure.quantity in TAKEN and figure.value <= (MOST_DROPS if figure.quantity == "dose_drops" else LARGEST_DOSE)
