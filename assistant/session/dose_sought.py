"""The dose that a volume makes over its days, what is left in the bottle, and a dose of a formula: "240 mL over 30 days bd, what's the dose"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Ingredient, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

DOSE_ASKED = looked_for(
    r"\b(?:what(?:['’]?s| is| will be)?|how (?:big|much)|which)\b[^.;]{0,25}\bdose\b(?! strength)|\bdose\W*\?|[,.;:] ?dose\W*$", re.IGNORECASE
)
VOLUMES = frozenset({"dose", "menstruum", "pressed", "blend", "bottle_size", "stock", "spirit_in_hand", "supply"})
LARGEST_DOSE = 30.0  # mL
LEFT = looked_for(r"(?P<n>\d+(?:[.,]\d+)?) ?(?:ml|mls)? ?(?:is |are |'s )?(?:still )?(?:left|remaining|remain|to go)\b|\bleft:? (?P<m>\d+) ?ml", re.IGNORECASE)
OF_EACH = looked_for(r"\bof (?:each|every one|both|all of them)\b[^.;\d]{0,20}\bin (?:a |an |each |every |one )?(?P<n>\d+(?:[.,]\d+)?) ?ml\b", re.IGNORECASE)
BY_WEIGHT = looked_for(r"\b(?:herb|plant|grams?|g)\b", re.IGNORECASE)
TARGET = looked_for(r"\b(?:from|using|out of|to (?:get|make|reach)|with what|how much of)\b", re.IGNORECASE)


def dose_sought(reading: Reading, batch: Batch | None) -> None:
    """Give such figures their quantities. Changes the reading."""
    told = {s.quantity for s in reading.said}
    facts = batch.facts.keys() if batch is not None else set()
    _all_are_parts(reading)
    each = OF_EACH.search(reading.heard)
    of_herb = any(a.quantity.startswith("herb") for a in reading.asked) or BY_WEIGHT.search(reading.heard) is not None
    formula = len(reading.ingredients) >= 2 or (batch is not None and len(batch.members) >= 2 and bool(batch.frames & {"formula", "mix"}))
    if each is not None and formula and not of_herb:
        _in_a_dose(reading, each)
    elif reading.ingredients or reading.liquids or (batch is not None and batch.members):
        return
    elif {"course", "times_a_day"} <= told and DOSE_ASKED.search(reading.heard):
        volumes = [f for f in reading.figures if (f.quantity in VOLUMES if isinstance(f, Said) else f.kind == "mL")]
        if len(volumes) == 1 and volumes[0].value > LARGEST_DOSE:
            take_as(reading, volumes[0], "bottle_size")
            reading.asked[:] = [Asked("dose", 0, len(reading.heard))]
    elif "bottle_size" in told | facts and told & {"dose", "daily", "dose_drops"} | (facts & {"dose", "daily", "dose_drops"}):
        _left_in_it(reading)


def _left_in_it(reading: Reading) -> None:
    """ "90 mL bottle, 30 mL left, 5 mL bd": it is taken from what is left."""
    hit = LEFT.search(reading.heard)
    if hit is None or {a.quantity for a in reading.asked} - {"days"}:
        return
    start = hit.start("n") if hit["n"] else hit.start("m")
    figure = next((f for f in reading.figures if f.start <= start < f.end), None)
    size = next((s for s in reading.said if s.quantity == "bottle_size" and s is not figure), None)
    if figure is None or (size is not None and size.value <= figure.value):
        return
    if isinstance(figure, Loose) and figure.kind not in ("mL", "#"):
        return
    if isinstance(figure, Said) and figure.quantity not in VOLUMES - {"dose"}:
        return
    if size is not None:
        reading.said[:] = [s for s in reading.said if s is not size]
        reading.references.append(Reference("reference", size.start, size.end, size.value))
    take_as(reading, figure, "bottle_size")
    reading.asked[:] = reading.asked or [Asked("days", 0, len(reading.heard))]


def _in_a_dose(reading: Reading, each: re.Match[str]) -> None:
    figure = next((f for f in reading.figures if f.start <= each.start("n") < f.end), None)
    if figure is None or figure.value > LARGEST_DOSE:
        return
    take_as(reading, figure, "dose")
    reading.asked[:] = [Asked("volume_a_dose", 0, len(reading.heard))]
    reading.frames |= {"dose", "formula"}


def _all_are_parts(reading: Reading) -> None:
    """ "Mix 50 mL of 25 %, 30 mL of 45 %, 20 mL of 60 %": the first is one of them, where all have a volume and a strength."""
    whole = {s.quantity: s for s in reading.said if s.quantity in ("blend", "blend_strength")}
    full = [i for i in reading.liquids if {f[0] for f in i.figures} >= {"volume", "strength_of"}]
    if len(whole) != 2 or len(full) < 2 or len(full) != len(reading.liquids) or TARGET.search(reading.heard):
        return
    volume, strength = whole["blend"], whole["blend_strength"]
    if not volume.start < strength.start < full[0].start or volume.value >= sum(f[1] for i in full for f in i.figures if f[0] == "volume") * 20:
        return
    figures = (("volume", volume.value, volume.start, volume.end), ("strength_of", strength.value, strength.start, strength.end))
    reading.liquids.insert(0, Ingredient(f"{strength.value:g} %", figures, volume.start, strength.end))
    reading.said[:] = [s for s in reading.said if s is not volume and s is not strength]
