"""What is made beside tinctures: the figures of a sentence given their places before anything is done with it.

Pots boiled down, syrups, oils and salves have rooms of their own; here stand the short ways of speaking that go from one to the next.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.session.as_sweet import as_sweet
from assistant.session.batch import Batch
from assistant.session.boiled_down import boiled_down
from assistant.session.infusions import JOINED
from assistant.session.oil_strained import oil_strained
from assistant.session.renumbering import size_said
from assistant.session.sweets import WATERY
from assistant.session.syrups import SPIRITS
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.conversation import Session


def stillroom(session: Session, reading: Reading) -> None:
    """Give the figures of a sentence about a decoction, syrup, oxymel, vinegar, oil, salve, glycerite or pot of tea their places. Changes the reading."""
    batch = session.batch or Batch()
    boiled_down(session, reading)
    as_sweet(session, reading)
    oil_strained(reading, batch.frames)
    _water_of_the_plant(reading)
    _sugar_to_so_much(reading)
    _more_sweet(reading, batch)
    _spirit_to_so_much(reading, batch)
    _vinegar_after_all(reading, batch)
    _stays_above(reading, batch)
    _a_pot_by_the_cup(reading, batch)


# ── the plant's own water ────────────────────────────────────────────────────────────────────────────────────────────────


POURED = {"vinegar": ("menstruum", "acidity"), "glycerine": ("glycerine_volume", "glycerine_stock"), "honey": ("honey_volume", "honey_sugar")}


def _water_of_the_plant(reading: Reading) -> None:
    """ "Glycerite of fresh lemon balm 200 g at 80 % water, 500 ml glycerine": the weight and its water are the plant's, and no water is weighed out."""
    lines = {one.name.split()[-1]: one for one in reading.ingredients}
    water = lines.pop("water", None)
    if water is None or {q for q, *_ in water.figures} != {"weight", "strength_of"} or not reading.named or len(reading.ingredients) != 2:
        return
    ((stuff, poured),) = lines.items()
    if stuff not in POURED or {q for q, *_ in poured.figures} - {"volume", "strength_of"}:
        return
    names = {"weight": "herb", "strength_of": "water_content"}
    reading.said += [Said(names[q], v, a, b) for q, v, a, b in water.figures]
    names = dict(zip(("volume", "strength_of"), POURED[stuff], strict=True))
    reading.said += [Said(names[q], v, a, b, said_unit="mL" if q == "volume" else "") for q, v, a, b in poured.figures]
    reading.ingredients.clear()
    reading.frames -= {"listed", "written", "formula"}


# ── syrups ───────────────────────────────────────────────────────────────────────────────────────────────────────────────


LEAST_BRIX, MOST_BRIX = 20.0, 90.0
MORE_SWEET = looked_for(
    r"\b(?:how much|how many (?:g|grams)|what) (?:more|extra|further)\b(?:\s+(?P<sweet>sugar|honey))?[^.;?]*\b(?:to|for|till|until|makes?)\b", re.IGNORECASE
)


def _sugar_to_so_much(reading: Reading) -> None:
    """ "500 ml rosehip decoction. sugar to get it to 65": the sweetness aimed at, and no strength of a mix."""
    strength = next((s for s in reading.said if s.quantity == "blend_strength"), None)
    watery = [one for one in reading.liquids if one.name.split()[0] in WATERY]
    sweet = any(a.quantity in ("sugar", "honey") for a in reading.asked)
    if strength is None or not sweet or not watery or len(watery) != len(reading.liquids) or not LEAST_BRIX <= strength.value <= MOST_BRIX:
        return
    volumes = [f for one in watery for f in one.figures if f[0] == "volume"]
    if len(volumes) != 1:
        return
    _, value, start, end = volumes[0]
    reading.liquids.clear()
    reading.said.append(Said("decoction", value, start, end, said_unit="mL"))
    take_as(reading, strength, "brix")
    reading.frames -= {"mix"}


def _more_sweet(reading: Reading, batch: Batch) -> None:
    """ "How much more to get to 65" of a syrup: more of the sweet that is in it."""
    hit = MORE_SWEET.search(reading.heard)
    sweets = [s for s in ("sugar", "honey") if s in batch.facts]
    if hit is None or "syrup" not in batch.frames or batch.members or len(sweets) != 1 or hit.group("sweet") not in (None, *sweets):
        return
    figures = [f for f in reading.figures if LEAST_BRIX <= f.value <= MOST_BRIX and not (f.said_unit and _unit_is_amount(f))]
    if len(figures) != 1:
        return
    take_as(reading, figures[0], "brix")
    if not any(a.quantity == f"{sweets[0]}_more" for a in reading.asked):
        reading.asked[:] = [Asked(f"{sweets[0]}_more", 0, len(reading.heard))]
    reading.let_go("gap")


def _unit_is_amount(figure: Said | Loose) -> bool:
    return size_said(figure.said_unit, "us") != 1.0 or figure.said_unit.lower() in ("g", "ml", "grams", "gram")


def _spirit_to_so_much(reading: Reading, batch: Batch) -> None:
    """ "With vodka to 20 %, 40 % vodka" of a syrup: spirit into it, and no dilution of its own."""
    ours = "syrup" in batch.frames and "vinegar" not in batch.frames and not batch.members and bool(batch.facts.keys() & {"brix", "sugar", "honey", "syrup"})
    others = any(s.quantity not in ("strength", "stock_strength", "finished_strength", "blend_strength") for s in reading.said)
    if ours and not others and SPIRITS.search(reading.heard) and not (reading.ingredients or reading.liquids or reading.named):
        reading.frames -= {"dilution", "mix", "maybe_dilution"}


# ── vinegars ─────────────────────────────────────────────────────────────────────────────────────────────────────────────


I_MEAN = looked_for(r"\b(?:i (?:mean|meant)|not (?:an? )?oxymel|no honey|just|only|plain|without (?:the )?honey|instead)\b", re.IGNORECASE)
SWEET_WORD = looked_for(r"(?<!no )(?<!without )(?<!without the )\bhoney\b|(?<!not an )(?<!not )\boxymel\b", re.IGNORECASE)
STAYS = looked_for(r"\b(?:will|does|would|is|did|has|can|do)\b[^.;?]*\b(?:stay|keep|hold|still|above|over|at least|remain|enough)\b", re.IGNORECASE)


def _vinegar_after_all(reading: Reading, batch: Batch) -> None:
    """ "No I mean vinegar 5 % on 400 g": no honey is in it any more."""
    if "oxymel" not in batch.tags or "vinegar" not in reading.frames or batch.members:
        return
    if I_MEAN.search(reading.heard) and not SWEET_WORD.search(reading.heard) and any(s.quantity in ("herb", "acidity") for s in reading.said):
        reading.freed |= {"honey", "honey_volume", "honey_to_vinegar", "honey_times", "honey_volumes", "honey_to_herb", "brix", "sugar"}
        reading.denied |= {"oxymel", "honey"}
        reading.frames.discard("syrup")


def _stays_above(reading: Reading, batch: Batch) -> None:
    """ "Will it stay above 4" of a vinegar whose pour is told: how acid it ends."""
    told = [s for s in reading.said if s.quantity == "finished_acidity"]
    known = "acidity" in batch.facts and batch.facts.keys() & {"menstruum", "ratio"} and "herb" in batch.facts
    if len(told) == len(reading.said) == 1 and known and STAYS.search(reading.heard) and not reading.asked:
        reading.said.clear()
        reading.references.append(Reference("reference", told[0].start, told[0].end, told[0].value))
        reading.asked.append(Asked("finished_acidity", 0, len(reading.heard)))


# ── tea by the pot ───────────────────────────────────────────────────────────────────────────────────────────────────────


CUP = 236.588  # mL
POTS = frozenset({"menstruum", "water", "bottle_size", "jar_size", "decoction", "blend"})
PLANT = frozenset({"herb", "batch", "per_cup"})


def _a_pot_by_the_cup(reading: Reading, batch: Batch) -> None:
    """ "30 g in a quart, drink 3 cups a day": the grams of each cup follow from the pot."""
    cups = "cups_a_day" in {s.quantity for s in reading.said}
    if not cups or "decoction" in reading.frames | batch.frames or "ratio" in {s.quantity for s in reading.said}:
        return
    weights = [s for s in reading.said if s.quantity in PLANT and s.said_unit]
    volumes = [s for s in reading.said if s.quantity in POTS and s.said_unit]
    cup = next((s.value for s in reading.said if s.quantity == "cup_size"), batch.facts["cup_size"].value if "cup_size" in batch.facts else CUP)
    cup = 250.0 if reading.measures == "metric" and cup == CUP else cup
    if len(weights) == len(volumes) == 1 and JOINED.match(reading.heard[weights[0].end : volumes[0].start]):
        herb, pot = weights[0], volumes[0]
        if herb.value <= 0 or pot.value < cup:
            return
        take_as(reading, herb, "per_cup", herb.value * cup / pot.value)
        reading.said[:] = [s for s in reading.said if s is not pot]
        reading.references.append(Reference("reference", pot.start, pot.end, pot.value))
        reading.frames = (reading.frames | {"tea"}) - {"dose", "plain_water"}


__all__ = ["stillroom"]
