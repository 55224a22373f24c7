"""Going on about a jar: all of it thrown in, what the marc keeps per gram, what comes back, a mix that is poured on a plant."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.session.as_planned import settle_plan
from assistant.session.batch import Batch, Fact
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.conversation import Session
    from assistant.session.merging import Merged

PER_GRAM = looked_for(r"\bper (?:dry )?(?:g|gram|gramme)\s*[?.!]*\s*$", re.IGNORECASE)
AS_PERCENT = looked_for(r"^\W*(?:and |so |or |what'?s that |that's )*(?:in|as)(?: a)? (?:percent\w*|%)\W*$", re.IGNORECASE)
PER_ML = frozenset({"herb_per_ml", "herb_per_ml_jar", "dried_equivalent"})
A_POUR = frozenset({"menstruum", "stock", "spirit_in_hand", "dose"})
IN_EACH = looked_for(r"\b(?:how much|how many|what\w*)\b.*\b(?:in|to|for|per)?\s*(?:a|an|one|each|every|1)\s*(?:ml|millilit\w+)$", re.IGNORECASE)
FRESH_FROM = 45.0  # percent of water: no plant that was dried holds as much
HOW_MUCH = looked_for(r"\b(?:how much|how many|what'?s that|what is that|what do i get)\b", re.IGNORECASE)
PLANNED = ("planned_herb", "planned_menstruum")
FIRST_RATIO = looked_for(r"\b(?:at|by|with|keep|to) (?:the|my|our) (?:proper|original|planned|right|first|old|intended|usual) ratio\b", re.IGNORECASE)
POURED = ("planned_menstruum", "spirit_in_hand")  # what all the plant may be thrown into, the plan's pour first


def settle_jar(reading: Reading, batch: Batch, first: Batch | None) -> None:
    """Give the words of a sentence about the jar in hand their meaning; `first` is the batch as it was begun. Changes the reading."""
    settle_plan(reading, batch)
    if "fresh" in batch.tags and any(a.quantity == "dried_equivalent" for a in reading.asked):
        reading.tags.discard("dried")  # "what is that as dried herb": what it is told in; the plant in the jar stays fresh
    if any(a.quantity in PER_ML for a in reading.asked):  # "how much herb in a mL": the mL it is told of, which nobody pours
        each = [s for s in reading.said if s.quantity in A_POUR and s.value == 1.0 and IN_EACH.search(reading.heard[: s.end])]
        reading.said[:] = [s for s in reading.said if s not in each]
        reading.references += [Reference("reference", s.start, s.end) for s in each]
    if first is not None and FIRST_RATIO.search(reading.heard) and "herb" in batch.facts and not any(s.quantity == "ratio" for s in reading.said):
        told = first.facts.get("ratio")
        herb, poured = (first.facts.get(k) for k in PLANNED)
        ratio = told.value if told is not None else poured.value / herb.value if herb is not None and poured is not None else None
        if ratio is not None:
            reading.said.append(Said("ratio", ratio, 0, 0))
            reading.freed.add("menstruum")
            reading.asked[:] = [a for a in reading.asked if a.quantity != "ratio"]
    _ends_at_what(reading, batch)
    _how_much_fits(reading, batch)
    given = {s.quantity for s in reading.said}
    if {"spirit_in_hand", "pressed", "herb"} <= given and not (given | batch.facts.keys()) & {"menstruum", "ratio", "strength"}:
        was = {"spirit_in_hand": "menstruum", "stock_strength": "strength"}  # "I have 2 L of 50 %, pressed it …, got 1.4 L back": it was poured
        reading.said[:] = [replace(s, quantity=was.get(s.quantity, s.quantity)) for s in reading.said]
        given = {s.quantity for s in reading.said}
    known = given | batch.facts.keys()
    if any(a.quantity == "percolate" for a in reading.asked):
        reading.asked[:] = [a for a in reading.asked if a.quantity != "to_gather"]  # what is collected under the percolator grows nowhere
    if AS_PERCENT.match(reading.heard) and not reading.said and {"pressed", "herb"} <= batch.facts.keys():
        reading.asked[:] = [Asked("yield_share", 0, len(reading.heard))]
    too_wet = next((s for s in reading.said if s.quantity == "dried_water" and s.value >= FRESH_FROM), None)
    if too_wet is not None and "water_content" not in known and known & {"herb", "picked"}:
        reading.said[:] = [replace(s, quantity="water_content") if s is too_wet else s for s in reading.said]  # "then dried at 83 % water"
        reading.asked[:] = [Asked("dried", 0, len(reading.heard))]
    if {"herb", "dried"} <= given and not known & {"menstruum", "ratio"} and any(a.quantity == "ratio" for a in reading.asked):
        reading.asked[:] = [Asked("drying_ratio", 0, len(reading.heard))]  # "dried 300 g from 1.5 kg, ratio?"
    _poured_on_top(reading, batch)
    dries = "drying_ratio" in given or {"water_content", "dried_water"} <= given
    if "herb" in given and dries and not reading.asked and not known & {"ratio", "menstruum", "dried"}:
        reading.asked.append(Asked("dried", 0, len(reading.heard)))  # "if I dry 3 kg at 4:1"
    if {"pressed", "menstruum"} <= given and {a.quantity for a in reading.asked} <= {"strength", "hydrometer"} and PERCENT.search(reading.heard):
        reading.asked[:] = [Asked("yield_share", 0, len(reading.heard))]  # "got 680 of the 900 poured, what percent"
    _over_so_many_jars(reading, batch)
    _bottles_of_them(reading, batch)
    _as_many_bottles(reading, known, batch)
    _into_bottles(reading, given, batch)
    _all_there_is(reading, known)
    if {a.quantity for a in reading.asked} == {"dried"} and not known & {"ratio", "menstruum", "water_content", "drying_ratio"} and "fresh" in reading.tags:
        reading.said[:] = [replace(s, quantity="water_content", weak=False) if s.quantity == "strength" and s.weak else s for s in reading.said]
    if PER_GRAM.search(reading.heard) and known & {"pressed", "held_back"} and known & {"menstruum", "in_jar", "held_back"}:
        reading.asked[:] = [Asked("held_per_gram", 0, len(reading.heard))]
    if "yield_share" in given and not reading.asked and "pressed" not in given and HOW_MUCH.search(reading.heard) and known & {"menstruum", "in_jar", "herb"}:
        reading.let_go("gap", "claim")
        reading.asked.append(Asked("pressed", 0, len(reading.heard)))  # "I get 75 % of it back, how much is that"
    if given == {"yield_share"} and not reading.asked and "pressed" not in known and known & {"menstruum", "ratio", "ratio_by_weight"}:
        reading.asked.append(Asked("pressed", 0, len(reading.heard)))  # "get 85 % back", of a jar in hand
    if reading.has("all_in"):
        for figure in [f for f in reading.loose if any(k in batch.facts and abs(batch.facts[k].value - f.value) < 1e-9 for k in POURED)]:
            reading.only_points(figure)  # "shove it all in the 1200"


def _how_much_fits(reading: Reading, batch: Batch) -> None:
    """ "I've a 2 L demijohn, dried root 1:5, how much root fits": the plant that it takes, with the room the plant needs where its state is told."""
    volumes = [s for s in reading.said if s.quantity in ("spirit_in_hand", "menstruum", "jar_size") and s.said_unit]
    known = {*batch.facts, *(s.quantity for s in reading.said)}
    if len(volumes) != 1 or known & {"herb", "jars"} or not known & {"ratio"} or not FITS.search(reading.heard):
        return
    ahead = VESSELS_OF.search(reading.heard[: volumes[0].start])
    if not (ahead or A_VESSEL.search(reading.heard[volumes[0].end :])) or {a.quantity for a in reading.asked} - {"herb", "contents", "dried_equivalent"}:
        return
    take_as(reading, volumes[0], "jar_size")
    for count in [f for f in reading.loose if ahead and f.kind in ("#", "n") and f.end <= ahead.start() + 1]:
        take_as(reading, count, "jars")
    reading.asked[:] = [Asked("herb", 0, len(reading.heard))]
    if (reading.tags | batch.tags) & {"fresh", "dried"}:
        reading.tags.add("takes_room")


FITS = looked_for(
    r"\bhow (?:much|many (?:g\w*|kilos?|kg|lbs?|pounds|oz|ounces))\b[^.;?]*"
    r"\b(?:fits?|(?:can|could|will|do) (?:i|we) (?:get|fit|put|cram|stuff|pack)|(?:can|will|does) it (?:take|hold))\b",
    re.IGNORECASE,
)
VESSEL = r"(?:jars?|crocks?|demijohns?|carboys?|vessels?|kilners?|flasks?|fermenters?)"
A_VESSEL = looked_for(rf"^\s*(?:\w+\s+)?{VESSEL}\b", re.IGNORECASE)
VESSELS_OF = looked_for(rf"\b{VESSEL}(?:\s+(?:of|holding|that hold|each|at|is|are|,))*\s*$", re.IGNORECASE)


def _ends_at_what(reading: Reading, batch: Batch) -> None:
    """ "What will the jar end at with 70 %": the end is asked for, and the figure is what is poured."""
    poured = {"finished_strength"} if "stock_strength" in batch.facts else {"finished_strength", "stock_strength"}
    ends: list[Said | Loose] = [s for s in reading.said if s.quantity in poured and not s.member]
    ends += [f for f in reading.loose if f.kind in ("#", "%") and LEAST_POURED <= f.value <= 100]
    if len(ends) != 1 or any(s.quantity == "strength" for s in reading.said) or not ENDS_AT_WHAT.search(reading.heard[: ends[0].start]):
        return
    if not {"herb", "ratio", "menstruum"} & {*batch.facts, *(s.quantity for s in reading.said)}:
        return
    take_as(reading, ends[0], "strength")
    others = [a for a in reading.asked if a.quantity not in ("finished_strength", "strength", "stock_strength", "blend_strength")]
    reading.asked[:] = [Asked("finished_strength", 0, len(reading.heard)), *others]
    reading.let_go("right", "claim")


LEAST_POURED = 15.0  # percent
ENDS_AT_WHAT = looked_for(
    r"\b(?:what|where|how strong)\b[^.;?]*\b(?:end|ends|finish(?:es)?|lands?|come|comes|settles?|be|get|gets)\b[^.;?]*"
    r"\b(?:with|using|if (?:i|we) (?:use|pour|take|used|poured|took)|from|pouring|in)(?: (?:a|the|my|some|about))*\s*$",
    re.IGNORECASE,
)


def _as_many_bottles(reading: Reading, known: set[str], batch: Batch) -> None:
    """ "24 bottles of 50 mL, dried 1:4: how much berry?": what is filled has to come out of the press, or out of the racking first."""
    given = {s.quantity: s for s in reading.said}
    count, size = given.get("bottles"), given.get("bottle_size")
    if count is None or size is None or batch.members or reading.ingredients or reading.liquids or known & {"pressed", "racked", "menstruum", "herb", "blend"}:
        return
    asked = {a.quantity for a in reading.asked}
    if "rack_loss" in known and "pressed" in asked:
        reading.said.append(Said("racked", count.value * size.value, 0, 0))
        reading.asked[:] = [Asked("pressed", 0, len(reading.heard))]
        reading.said[:] = [s for s in reading.said if s not in (count, size)]
        reading.references += [Reference(s.quantity, s.start, s.end, s.value) for s in (count, size)]
    elif "ratio" in known and asked & {"herb", "menstruum", "stock", "water"}:
        reading.said.append(Said("racked" if "rack_loss" in known else "pressed", count.value * size.value, 0, 0))


def as_many_as_they_hold(merged: Merged, before: Batch) -> None:
    """ "Make that 30 mL bottles", "no, 15", where what has to come out was told by its bottles: as much as those hold now. Changes the batch merged."""
    facts, was = merged.batch.facts, before.facts
    out = next((k for k in ("pressed", "racked") if k in was and k in facts and k not in merged.new_keys), "")
    if not out or not merged.new_keys & {"bottles", "bottle_size"} or not {"bottles", "bottle_size"} <= facts.keys() & was.keys():
        return
    if abs(was[out].value - was["bottles"].value * was["bottle_size"].value) <= 1e-6:
        merged.batch = merged.batch.with_facts({out: replace(was[out], value=facts["bottles"].value * facts["bottle_size"].value)})
        merged.new_keys.add(out)


def _over_so_many_jars(reading: Reading, batch: Batch) -> None:
    """ "Split it over 4 jars", of a plan in hand: what each of them gets."""
    if [s.quantity for s in reading.said] != ["jars"] or reading.asked or reading.loose or "jar_size" in batch.facts or batch.frames:
        return
    if batch.facts.keys() & {"herb", "menstruum"} and batch.facts.keys() & {"ratio", "menstruum"}:
        reading.asked += [Asked("in_each", 0, 0), Asked("herb_in_each", 0, 0)]


def _bottles_of_them(reading: Reading, batch: Batch) -> None:
    """ "And 20 of them", of the bottles that are to be filled: so many of those, and no plants of a stand."""
    if not {"bottles", "bottle_size"} <= batch.facts.keys() or len(reading.figures) != 1:
        return
    figure = reading.figures[0]
    counted = figure.quantity in ("plants_taken", "stand_plants", "count_wanted") if isinstance(figure, Said) else figure.kind in ("#", "n")
    if counted and OF_THEM.match(reading.heard[figure.end :]):
        take_as(reading, figure, "bottles")


OF_THEM = looked_for(r"^\s*(?:of (?:them|those|these)|bottles?|ones)\b\W*(?:of them|instead|then|please|actually|in all)?\W*$", re.IGNORECASE)


def _into_bottles(reading: Reading, given: set[str], batch: Batch) -> None:
    """ "Bottle it in 100s" of a jar in hand: how many that makes goes with it."""
    if given == {"bottle_size"} and not (reading.asked or reading.acts or batch.members or batch.frames & OF_THE_DISPENSARY) and batch.facts.keys() & IN_A_JAR:
        reading.asked.append(Asked("bottles", 0, 0))


OF_THE_DISPENSARY = frozenset({"dose", "formula", "cost", "year", "orders", "tea", "salve", "child_rule", "dilution", "mix"})
IN_A_JAR = frozenset({"ratio", "menstruum", "pressed"})


def _poured_on_top(reading: Reading, batch: Batch) -> None:
    """ "N if I add another 300 mL", where what was poured followed from the ratio: so much more is poured, and the ratio follows."""
    more = next((s for s in reading.said if s.quantity == "menstruum" and s.said_unit and ANOTHER.search(reading.heard[: s.start])), None)
    if more is None or len(reading.said) != 1 or "menstruum" in batch.facts or not {"herb", "ratio"} <= batch.facts.keys():
        return
    poured = batch.facts["herb"].value * batch.facts["ratio"].value
    reading.said[:] = [replace(more, value=poured + more.value, weak=False)]
    reading.freed.add("ratio")


ANOTHER = looked_for(r"\b(?:another|add\w*|extra|a further|top (?:it )?up with)\s+(?:another |a |about |like )*$", re.IGNORECASE)
PERCENT = looked_for(r"\bpercent|%\s*\??$", re.IGNORECASE)


def _all_there_is(reading: Reading, known: set[str]) -> None:
    """ "900 g fresh and only 1.5 L of 95. Ratio?": all that is there is poured. "2 bottles of vodka 700 mL": twice as much is there."""
    asked = {a.quantity for a in reading.asked}
    given = {s.quantity: s for s in reading.said}
    if {"spirit_in_hand", "herb"} <= given.keys() and asked & {"ratio", "finished_strength"} and not known & {"ratio", "menstruum", "strength"}:
        was = {"spirit_in_hand": "menstruum", "stock_strength": "strength"}
        reading.said[:] = [replace(s, quantity=was.get(s.quantity, s.quantity), weak=False) for s in reading.said]
    count, volume = given.get("bottles"), given.get("menstruum") or given.get("spirit_in_hand") or given.get("stock")
    if count is None or volume is None or "bottle_size" in known or not volume.said_unit or not count.end <= volume.start:
        return
    if OF_SPIRIT.match(reading.heard[count.end : volume.start]):
        reading.said[:] = [replace(s, value=s.value * count.value) if s is volume else s for s in reading.said if s is not count]
        reading.references.append(Reference("bottles", count.start, count.end, count.value))


OF_SPIRIT = looked_for(
    r"^\s*(?:full )?bottles? of (?:the |my )?(?:vodka|brandy|rum|gin|spirit|alcohol|everclear|whisk\w+|grain)[ ,]*(?:of |at |each |a )*$", re.IGNORECASE
)


def all_thrown_in(batch: Batch, turn: int) -> tuple[Batch, str]:
    """All the plant in what there is to pour, whatever ratio that makes; the key of what is poured, "" where nothing was told of it."""
    key = next((k for k in POURED if k in batch.facts), "")
    if not key or (key == "planned_menstruum" and "herb" not in batch.facts):
        return batch, ""
    there = replace(batch.facts[key], turn=turn)
    if key == "planned_menstruum":
        return batch.without("ratio", "menstruum", *PLANNED).with_facts({"menstruum": there}), "menstruum"
    poured = "menstruum" if "neat" in batch.tags or "strength" not in batch.facts else "stock"
    gone = ("ratio",) if poured == "menstruum" else ("ratio", key)
    return batch.without(*gone).with_facts({poured: there}), poured


def from_blend(session: Session, reading: Reading) -> Batch | None:
    """ "Enough for how much dried thyme at 1:5?" after two spirits were tipped together: the mix is the menstruum of a new plan."""
    batch, worked = session.batch, session.last
    if batch is None or worked is None or session.draft is not None or "mix" not in batch.frames or reading.ingredients or reading.liquids:
        return None
    given = {s.quantity for s in reading.said}
    if not given & {"ratio", "herb"} or given - {"ratio", "herb", "water_content"} or "ratio" in batch.facts:
        return None
    blend, strength = worked.value("blend"), worked.value("blend_strength")
    if blend is None or strength is None:
        return None
    if "ratio" in given and "herb" not in given:
        reading.asked[:] = [Asked("herb", 0, len(reading.heard))]
    return Batch().with_facts({"menstruum": Fact(blend, "said", session.turn), "strength": Fact(strength, "said", session.turn)})
