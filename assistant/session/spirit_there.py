"""A spirit that is there: how strong it is in a few bare words, and how much of it is brought down. Changes the reading."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Reference, Said, forget
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.conversation import Session

HAVE_A = looked_for(
    r"(?:\b(?:have|got|i've|ive|we've|there's|theres|there is|own|it's|its|it is|is|spirit|vodka|alcohol|everclear|stock|bottle)\b)"
    r"(?:\s+(?:got|is|a|an|the|only|just|some|of|here|was|at|nothing but|my|this|in|stuff|one|about))*\s*$",
    re.IGNORECASE,
)
NO_COUNT = looked_for(
    r"^\s*(?:$|[.,;?!%-]|(?:percent|per cent|proof|spirits?|stuff|alcohol|vodka|here|on the shelf|in the|at home|to hand|so|and|only|left|what|how|though"
    r"|stock|to work|to use|to go|to pour|to cut|as)\b)",
    re.IGNORECASE,
)
SPIRITS = r"(?:spirits?|alcohol|ethanol|vodka|brandy|rum|gin|whisk(?:e?)y|everclear|hooch|moonshine|grain|booze|tipple|proof|port|sherry|wine)"
BY_NAME = looked_for(rf"\b{SPIRITS}\b|\bof (?:the |my |a )?\d", re.IGNORECASE)
IT_AT = looked_for(
    r"\b(?:want|wants|need|needs|like|get|bring|take|make|let|cut|water|dilute|drop|thin|knock|have|turn)\b[^.;?]*?"
    r"\b(?:it|this|that|them|the lot|all of it)\b\s*"
    r"(?:right |all )?(?:brought |cut |let |watered |thinned )?(?:down |back |up )?(?:at|to|down to|around|about)\s*(?:about |around |a )?$",
    re.IGNORECASE,
)
IT_ALONE = looked_for(r"\b(?:want|need|needs|like|make|get|needed|wanted)\s+(?:it|this|that)(?: to be)?\s*$", re.IGNORECASE)
IS_AT = looked_for(
    r"\b(?:is|it'?s|its|was|at|of|reads|got|have"
    r"|came out|comes out|tincture|mine|stuff)(?:\s+(?:at|about|of|a|an|the|only|just|out|now|up))*\s*$",
    re.IGNORECASE,
)
WANTED = looked_for(r"\b(?:want|need|make|wanted|needed|after|for|making)\b[\w\s']*$", re.IGNORECASE)
DIGITS = looked_for(r"\d+(?:\.\d+)?")
OF_A = looked_for(r"^\s*of (?:the |my |a |some )?$", re.IGNORECASE)
ON_THE_SHELF = looked_for(
    r"^\s*%?\s*(?:(?:in|on) (?:the |my |our )?(?:cupboard|shelf|house|pantry|shed|larder|bottle|stock|stores?)|to hand|at home|on hand)\b",
    re.IGNORECASE,
)
TO = looked_for(r"\b(?:to|at|down to)\s+(?:about |around )?$", re.IGNORECASE)
OF_IT = looked_for(r"^\s*(?:m[lL]s?|litres?|l)?\s*(?:of|from) (?:it|that|this|them|the same|the stuff)\b", re.IGNORECASE)
IN_THE_END = looked_for(
    r"\b(?:what(?:'ll|ll|'d|s|'s| will| would| do| does)?|how much)\b[^.;?]*\b(?:have|get|end up with|left with|makes?|come to|comes to|got)\b", re.IGNORECASE
)
POURED = looked_for(
    r"\bhow (?:much|many ml)(?: of)?(?: the| my| that)? (\d+(?:\.\d+)?) ?%?(?: spirit| vodka| alcohol)?"
    r"(?: do| should| must| shall| to| will| would| can)?(?: i| we)? pour\b",
    re.IGNORECASE,
)
LEAST, MOST = 20.0, 100.0
PLANTED = frozenset({"herb", "planned_herb", "ratio", "dry_ratio", "ratio_by_weight", "water_content"})
AIMS = frozenset({"strength", "finished_strength"})


def settle_spirit_there(reading: Reading, batch: Batch) -> None:
    """Give the figures of a sentence about the spirit on the shelf their place."""
    _bottles_of_it(reading)
    _poured_at_most(reading, batch)
    _less_what_was_used(reading)
    _both_by_proof(reading)
    _of_that_proof(reading, batch)
    _there_beside_the_plant(reading, batch)
    _needed_so_strong(reading, batch)
    _so_strong(reading, batch)
    _all_of_it_down(reading, batch)
    _another_as_it_is(reading, batch)
    _of_it_down(reading, batch)
    _what_it_makes(reading, batch)
    _poured_neat(reading, batch)


USED = looked_for(r"\b(?:used|poured|spilt|spilled|sold|gave away|gone|went|lost|drank)\b[^.;?]{0,20}$", re.IGNORECASE)
OF_MY = looked_for(r"^\s*(?:of it |)(?:of|from|out of) (?:my|the|our|a|that|those|these)\s*$", re.IGNORECASE)
LIQUIDS = frozenset({"menstruum", "pressed", "stock", "spirit_in_hand"})


def _less_what_was_used(reading: Reading) -> None:
    """ "Used 2 L of my 5 L of 96": what is left of it is what there is. Changes the reading."""
    volumes = sorted((s for s in reading.said if s.quantity in LIQUIDS and s.said_unit), key=lambda s: s.start)
    if len(volumes) != 2 or not USED.search(reading.heard[: volumes[0].start]) or not OF_MY.match(reading.heard[volumes[0].end : volumes[1].start]):
        return
    used, whole = volumes
    strong = [s for s in reading.said if s.quantity in ("strength", "stock_strength") and OF_SO_STRONG.match(reading.heard[whole.end : s.start])]
    if not 0 < used.value < whole.value or len(strong) != 1:
        return
    for other in [s for s in reading.said if s.quantity == "stock_strength" and s is not strong[0]]:
        take_as(reading, other, "strength")
    take_as(reading, strong[0], "stock_strength")
    reading.only_points(used, "stock")
    take_as(reading, whole, "stock", whole.value - used.value)
    reading.asked[:] = [a for a in reading.asked if a.quantity not in ("stock", "menstruum")] or [Asked("menstruum", 0, len(reading.heard))]
    reading.frames |= {"dilution"}


SHELF = looked_for(r"\b(?:shelf|cupboard|have|got|i've|ive|there'?s|there are|stock|left)\b", re.IGNORECASE)
OF_IT_IS = looked_for(r"^\s*(?:(?:of|at|the|each|,)\s*)*$", re.IGNORECASE)
WEAKEST = 30.0  # percent: what is weaker in so many bottles was made here


def _poured_at_most(reading: Reading, batch: Batch) -> None:
    """ "1:1 with the 95, what's the highest it can finish": the spirit told is the strongest there is. Changes the reading."""
    if any(a.quantity == "ceiling" for a in reading.asked) and "stock_strength" not in {*batch.facts, *(s.quantity for s in reading.said)}:
        for strong in [s for s in reading.said if s.quantity == "strength" and s.value >= WEAKEST][:1]:
            take_as(reading, strong, "stock_strength")


def _bottles_of_it(reading: Reading) -> None:
    """ "Shelf is 2 bottles of 700 ml 96": so much spirit there is, in bottles as it was bought, and none that are filled."""
    counts, sizes = ([s for s in reading.said if s.quantity == q and not s.member] for q in ("bottles", "bottle_size"))
    if len(counts) != 1 or len(sizes) != 1 or not SHELF.search(reading.heard) or any(s.quantity in ("spirit_in_hand", "stock") for s in reading.said):
        return
    behind = [f for f in reading.figures if f.start >= sizes[0].end and OF_IT_IS.match(reading.heard[sizes[0].end : f.start])]
    strong = behind[0] if len(behind) == 1 and WEAKEST <= behind[0].value <= MOST else None
    if strong is None or not (strong.quantity in ("strength", "stock_strength") if isinstance(strong, Said) else strong.kind in ("#", "%")):
        return
    taken = (take_as(reading, strong, "stock_strength"), take_as(reading, sizes[0], "spirit_in_hand", counts[0].value * sizes[0].value))
    reading.said[:] = [replace(s, words=frozenset()) if s in taken else s for s in reading.said]  # a bottle spoken of later is another
    forget(counts[0], reading.said, reading.loose)
    reading.references.append(Reference("stock_bottles", counts[0].start, counts[0].end, counts[0].value))


HAVE = looked_for(r"\b(?:have|i've|ive|we've|got|there's|theres|there is|on the shelf|in the house|left)\b", re.IGNORECASE)
OF_SO_STRONG = looked_for(r"^\s*(?:m[lL]s?|litres?|liters?|l|pints?|quarts?)?\s*(?:of|at)?\s*(?:the|my|a)?\s*$", re.IGNORECASE)
ASKS_IF = looked_for(r"\b(?:can i|could i|will it|will that|would it|does it|does that|is it|is that|enough|reach|do it|do them|make it|all)\b", re.IGNORECASE)


def _there_beside_the_plant(reading: Reading, batch: Batch) -> None:
    """ "I've 3.2 kg plantain and 1.5 L of 95, can I make it 1:2": more of the spirit is asked for than there is, so it is what there is."""
    given = {s.quantity: s for s in reading.said if not s.member}
    volume, herb, ratio = given.get("menstruum"), given.get("herb"), given.get("ratio")
    if volume is None or herb is None or ratio is None or batch.facts or reading.ingredients or not ratio.value or "spirit_in_hand" in given:
        return
    needed = herb.value * ratio.value
    if abs(needed - volume.value) <= 0.02 * needed or not HAVE.search(reading.heard[: volume.start]) or not ASKS_IF.search(reading.heard):
        return
    percents = sorted((s for s in reading.said if s.quantity in ("strength", "stock_strength") and s.value >= WEAKEST), key=lambda s: s.start)
    own = [s for s in percents if s.start >= volume.end and OF_SO_STRONG.match(reading.heard[volume.end : s.start])]
    if len(own) != 1 or len(percents) > 2:
        return
    take_as(reading, volume, "spirit_in_hand")
    taken = take_as(reading, own[0], "stock_strength")
    for other in [s for s in reading.said if s.quantity == "stock_strength" and s is not taken]:
        take_as(reading, other, "strength")


IT_IS = looked_for(
    r"\b(?:it|that|mine|the spirit|the stuff|the bottle)(?:'?s| is| was| were)(?:\s+(?:only|really|just|a|an|about|american|british|us|uk))*\s*$",
    re.IGNORECASE,
)


DOWN_TO = looked_for(
    r"^\s*(?:proof\s*)?(?:(?:cut|brought|bring|let|taken|take|thin\w*|water\w*|dilut\w+|go\w*|down|knock\w*|it|that|spirit|vodka|into|,)\s*)*"
    r"(?:down )?to\s*$",
    re.IGNORECASE,
)
PROOFS = (60.0, 200.0)


def _both_by_proof(reading: Reading) -> None:
    """ "A gallon of 190 down to 100 proof": the one is told by its proof like the other. Changes the reading."""
    aims = [s for s in reading.said if s.quantity == "strength" and "proof" in s.said_unit]
    digits = DIGITS.search(reading.heard[aims[0].start : aims[0].end]) if len(aims) == 1 else None
    if digits is None or any(s.quantity == "stock_strength" for s in reading.said):
        return
    told = float(digits.group())
    bare = [f for f in reading.loose if f.kind == "#" and PROOFS[0] <= f.value <= PROOFS[1] and DOWN_TO.match(reading.heard[f.end : aims[0].start])]
    if len(bare) != 1 or bare[0].value <= told:
        return
    take_as(reading, bare[0], "stock_strength", bare[0].value * aims[0].value / told)
    volume = next((s for s in reading.said if s.quantity == "menstruum" and s.end <= bare[0].start), None)
    if volume is not None and OF_A.match(reading.heard[volume.end : bare[0].start]):
        take_as(reading, volume, "stock")
    reading.frames |= {"dilution"}


def _of_that_proof(reading: Reading, batch: Batch) -> None:
    """ "What if it's 80 proof" of a spirit that was told by its proof: another spirit, and no other strength to be made of it."""
    stock, aim = batch.facts.get("stock_strength"), batch.facts.get("strength")
    if stock is None or aim is None or "proof" not in stock.said_unit or "proof" in aim.said_unit:
        return
    told = [s for s in reading.said if s.quantity == "strength" and "proof" in s.said_unit]
    if len(told) == 1 and len(reading.figures) == 1 and IT_IS.search(reading.heard[: told[0].start]):
        take_as(reading, told[0], "stock_strength")


NEEDED = looked_for(
    r"\b(?:need|needs|want|wants|needed|wanted|after|require|must be|has to be|should be)"
    r"(?:\s+(?:it|that|this|them|at|a|to|be|about|around|only))*\s*$", re.IGNORECASE
)
WEAKEST_MADE = 10.0  # percent


def _needed_so_strong(reading: Reading, batch: Batch) -> None:
    """ "400 ml of 96 on the shelf, need 45, enough for a litre?": beside a spirit that is there a bare number needed is a strength."""
    stock = next((s.value for s in reading.said if s.quantity == "stock_strength"), None) or batch.value("stock_strength")
    there = any(s.quantity in ("spirit_in_hand", "stock") for s in reading.said) or batch.facts.keys() & {"spirit_in_hand", "stock"}
    if stock is None or not there or any(s.quantity in AIMS for s in reading.said) or AIMS & batch.facts.keys():
        return
    heard = reading.heard
    bare = [f for f in reading.loose if f.kind == "#" and NEEDED.search(heard[: f.start]) and NO_COUNT.match(heard[f.end :])]
    if len(bare) == 1 and WEAKEST_MADE <= bare[0].value < stock:
        take_as(reading, bare[0], "strength")


def _so_strong(reading: Reading, batch: Batch) -> None:
    """ "All I've got is 95", "i've 95", "it's the 70": where a strength is aimed at, a bare number as high is that of the spirit there is."""
    given = {s.quantity: s for s in reading.said}
    if "stock_strength" in given or "stock_strength" in batch.facts:
        return
    aim = next((given[q].value for q in AIMS if q in given), None) or next((batch.facts[q].value for q in AIMS if q in batch.facts), None)
    if aim is None:
        return
    bare: list[Said | Loose] = [f for f in reading.loose if f.kind in ("#", "%")]
    bare += [s for s in reading.said if s.quantity == "pressed" and not s.said_unit]  # "i've got 95"
    for f in bare:
        there = ON_THE_SHELF.match(reading.heard[f.end :]) or (HAVE_A.search(reading.heard[: f.start]) and NO_COUNT.match(reading.heard[f.end :]))
        if max(LEAST, aim) <= f.value <= MOST and there:
            take_as(reading, f, "stock_strength")
            reading.acts[:] = [a for a in reading.acts if a.name not in ("claim", "is_it", "right") or not a.start <= f.start < a.end]
            return


def _all_of_it_down(reading: Reading, batch: Batch) -> None:
    """ "700 ml of vodka, want it at 30": the volume is the spirit that is brought down, not what is to be made."""
    given = {s.quantity: s for s in reading.said}
    volume, target = given.get("menstruum") or given.get("spirit_in_hand"), given.get("strength")
    if volume is None or target is None or "stock" in given or (given.keys() | batch.facts.keys()) & PLANTED or not volume.end <= target.start:
        return
    between = reading.heard[volume.end : target.start]
    stock = given.get("stock_strength")
    of_the_stock = stock is not None and volume.end <= stock.start < target.start and OF_A.match(reading.heard[volume.end : stock.start])
    if of_the_stock and WANTED.search(reading.heard[: volume.start]) is None:
        reading.said[:] = [replace(s, quantity="stock", weak=False) if s is volume else s for s in reading.said]  # "a cup of 95, want 40 %"
        return
    ahead = stock is not None and IS_AT.search(reading.heard[: stock.start]) and stock.end <= volume.start  # "tincture is at 48, 380 mL, need it 30"
    if WANTED.search(reading.heard[: volume.start]) or not (ahead or BY_NAME.search(reading.heard[: target.start])):
        return
    if not IT_AT.search(between) and not (ahead and IT_ALONE.search(between)):
        return
    reading.said[:] = [replace(s, quantity="stock", weak=False) if s is volume else s for s in reading.said]
    reading.frames |= {"dilution"}


def _of_it_down(reading: Reading, batch: Batch) -> None:
    """ "Half a litre of it to 40", where nothing but the spirit's strength was told: so much of it is brought down to that."""
    stock = batch.facts.get("stock_strength")
    if stock is None or batch.facts.keys() & (PLANTED | {"strength", "stock"}) or any(s.quantity in PLANTED for s in reading.said):
        return
    volumes = [s for s in reading.said if s.quantity in ("menstruum", "spirit_in_hand", "pressed") and OF_IT.match(reading.heard[s.end :])]
    aims: list[Said | Loose] = [f for f in reading.loose if f.kind in ("#", "%") and f.value < stock.value and TO.search(reading.heard[: f.start])]
    aims += [s for s in reading.said if s.quantity == "strength" and s.value < stock.value]
    if len(volumes) != 1 or len(aims) != 1:
        return
    forget(aims[0], reading.said, reading.loose)
    reading.said[:] = [replace(s, quantity="stock", weak=False) if s is volumes[0] else s for s in reading.said]
    reading.said.append(Said("strength", aims[0].value, aims[0].start, aims[0].end))
    reading.frames |= {"dilution"}


def _another_as_it_is(reading: Reading, batch: Batch) -> None:
    """ "Vodka 40, where does it finish?", then "better with 50?": another spirit poured as it is."""
    stock = batch.facts.get("stock_strength")
    if stock is None or batch.facts.keys() & AIMS or not batch.facts.keys() & PLANTED or "finished_strength" not in batch.wanted:
        return
    if [s.quantity for s in reading.said] == ["strength"]:
        reading.said[:] = [replace(s, quantity="stock_strength", weak=False) for s in reading.said]


def _what_it_makes(reading: Reading, batch: Batch) -> None:
    """ "What'll I have in the end?" of a spirit that was cut down: so much, since how strong was said."""
    if {"stock_strength", "strength"} <= batch.facts.keys() and not batch.facts.keys() & PLANTED and not reading.said:
        reading.asked[:] = [replace(a, quantity="water") if a.quantity in ("wilted_water", "water_content") else a for a in reading.asked]
    if not {"stock", "stock_strength", "strength"} <= batch.facts.keys() or batch.facts.keys() & PLANTED or reading.said or reading.loose:
        return
    some = {"finished_strength", "pressed", "in_jar", "menstruum", "stock_bottles"}
    if {a.quantity for a in reading.asked} <= some and IN_THE_END.search(reading.heard) and "strong" not in reading.heard:
        reading.asked[:] = [Asked("menstruum", 0, len(reading.heard))]


def _poured_neat(reading: Reading, batch: Batch) -> None:
    """ "How much 95 do I pour", where no other strength was ever said: it is poured as it is."""
    hit = POURED.search(reading.heard)
    given = {s.quantity: s for s in reading.said}
    known = given.keys() | batch.facts.keys()
    stock = given.get("stock_strength") or given.get("strength")
    if hit is None or stock is None or abs(stock.value - float(hit.group(1))) > 1e-9 or not known & PLANTED:
        return
    if "strength" in batch.facts or "finished_strength" in known or ("strength" in given and "stock_strength" in given):
        return
    reading.said[:] = [replace(s, quantity="strength", weak=False) if s is stock else s for s in reading.said]
    reading.asked[:] = [Asked("menstruum", hit.start(), hit.end()), *(a for a in reading.asked if a.quantity not in ("menstruum", "stock"))]


def of_what_was_converted(session: Session, reading: Reading) -> None:
    """ "151 proof is what percent?", then "500 ml of it down to 40": the spirit whose label was read is the one that is cut."""
    before = session.conversion
    if before is None or before.unit != "percent" or session.turn - before.turn > 2 or reading.named or reading.ingredients or reading.liquids:
        return
    told = {s.quantity: s for s in reading.said}
    target = told.get("strength") or told.get("finished_strength")
    if target is None or told.keys() & (PLANTED | {"stock_strength"}) or not 0 < target.value < before.value <= MOST:
        return
    volumes: list[Said | Loose] = [s for s in reading.said if s.quantity in ("menstruum", "stock", "spirit_in_hand", "pressed", "bottle_size")]
    volumes += [f for f in reading.loose if f.kind == "mL"]
    volume = volumes[0] if len(volumes) == 1 else None
    if volume is None or not OF_IT.match(reading.heard[volume.end :]):
        return
    forget(volume, reading.said, reading.loose)
    reading.said[:] = [replace(s, quantity="strength", weak=False) if s is target else s for s in reading.said]
    reading.said.append(Said("stock", volume.value, volume.start, volume.end))
    reading.said.append(Said("stock_strength", before.value, 0, 0))
    reading.frames |= {"dilution"}
