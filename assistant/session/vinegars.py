"""Figures in the talk of vinegar: a strong vinegar cut down with water, an oxymel by its parts and jars.

"Got 10 % spirit vinegar, need a litre at 5": the stronger is as sold, the weaker is what is wanted. No plant is spoken of, else it is the pour.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Said
from assistant.patterns import looked_for
from assistant.session.work import Work

OF_THE_PRESS = looked_for(r"\b(?:marc|press\w*|cloth|ricer|grams?|g|mls?)\b", re.IGNORECASE)
KIND = r"(?:\s+(?:strength|acidity|percent|percentage|grade|kind|sort|of|in|a|an|the|my|cider|wine|apple|malt|rice|white|weakest|mildest|lowest|least|strong))*"
WHICH = looked_for(
    rf"\b(?:what|which)(?:'?s|\s+is|\s+would be)?{KIND}\s+vinegar\b|\b(?:weakest|mildest|lowest)\s+(?:cider\s+|wine\s+)?vinegar\b"
    r"|\b(?:what|which)\s+(?:%|percent|strength|acidity)\s+(?:(?:should|must|would|do|did|ought)\s+(?:i|we)|to\b)"
    r"|\bhow (?:strong|sour|acid)\s+(?:a|an|must|should|would|does|do|has|had)\b",
    re.IGNORECASE,
)
# So much of it, and not how weak.
LEAST = looked_for(r"\b(?:least|minimum|smallest|fewest)\b[^.;?]*\bvinegar\b[^.;?]*\b(?:pour|use|get away|put|add|go with|need)\b", re.IGNORECASE)
ACIDS = ("acidity", "strength", "stock_strength", "finished_acidity", "finished_strength")
CUT = looked_for(r"\b(?:water(?:ed)?|dilut\w+|thin\w*|cut|let down|bring|make|need|want|get|out of|from)\b", re.IGNORECASE)
DOWN_TO = looked_for(r"^\W*(?:vinegar\W+)?(?:down )?to\W+$", re.IGNORECASE)
FROM = looked_for(r"\b(?:out of|from|got|have|with|using|the|my|of)\s*(?:the|my|some|a)?\s*$", re.IGNORECASE)
OF = looked_for(r"\s*(?:of|at)?\s*(?:the|my|a|some|this|that|neat|strong)*\s*", re.IGNORECASE)
LIQUIDS = frozenset({"menstruum", "pressed", "spirit_in_hand", "stock", "liquid", "in_jar"})
MOST_ACID = 30.0  # percent: no vinegar for the bench is stronger


def settle_vinegar(said: list[Said], loose: list[Loose], work: Work) -> None:
    """Give the figures of a sentence about vinegar their quantity. Changes `said` in place, and the reading's asked."""
    del loose
    if "vinegar" not in work.frames or work.members:
        return
    _two_acidities(said, work)
    _stays_at(said, work)
    _which_vinegar(said, work)
    _as_much_as_keeps(said, work)
    if "syrup" in work.frames:
        _other_parts(said, work)
        _jars(said, work)
    elif not work.reading.ingredients:
        _cut_down(said, work)


def _two_acidities(said: list[Said], work: Work) -> None:
    """ "How much of the 6 % must I pour so it stays at 5 %": the greater is the vinegar's, the lesser what the jar keeps; how much is asked anew."""
    strong = sorted((s for s in said if s.quantity in ("stock_strength", "strength", "finished_strength")), key=lambda s: -s.value)
    if len(strong) != 2 or strong[0].value == strong[1].value or strong[0].value > STRONGEST_ACID or any(s.quantity == "acidity" for s in said):
        return
    for s, quantity in zip(strong, ("acidity", "finished_acidity"), strict=True):
        said[said.index(s)] = replace(s, quantity=quantity, weak=False)
    reading = work.reading
    if any(a.quantity in ("stock", "menstruum") for a in reading.asked):
        reading.asked[:] = [replace(a, quantity="menstruum") if a.quantity in ("stock", "menstruum") else a for a in reading.asked]
        reading.freed |= {"menstruum", "ratio"} - {s.quantity for s in said}


STRONGEST_ACID = 30.0  # percent


def _stays_at(said: list[Said], work: Work) -> None:
    """ "And to hold 5?": of a vinegar that is what it keeps in the jar, where nobody speaks of a press or a gram."""
    if not work.facts.keys() & {"acidity", "finished_acidity"} or OF_THE_PRESS.search(work.reading.heard):
        return
    for i, s in enumerate(said):
        if s.quantity == "held_per_gram" and not any(o.quantity == "finished_acidity" for o in said):
            said[i] = replace(s, quantity="finished_acidity", weak=False)


def _which_vinegar(said: list[Said], work: Work) -> None:
    """ "What vinegar would I need so it stays at 5", "what % should I have used": how strong, not how much of it, to what was poured."""
    reading, told = work.reading, {s.quantity for s in said}
    poured = told & {"menstruum", "ratio"} or work.facts.keys() & {"menstruum", "ratio"}
    aimed = told & {"finished_acidity", "finished_strength", "strength"} or "finished_acidity" in work.facts
    if not poured or not aimed or "acidity" in told or not WHICH.search(reading.heard) or LEAST.search(reading.heard):
        return
    said[:] = [replace(s, quantity="finished_acidity", weak=False) if s.quantity in ("strength", "finished_strength") else s for s in said]
    reading.freed.add("acidity")
    reading.asked[:] = [Asked("acidity", 0, len(reading.heard))]


def _as_much_as_keeps(said: list[Said], work: Work) -> None:
    """ "Mustn't go under 5, what's the least I can pour?": so much of the same vinegar, whatever was poured before."""
    told = {s.quantity for s in said}
    asks = any(a.quantity == "menstruum" for a in work.reading.asked)
    if asks and "finished_acidity" in told and "acidity" in work.facts and "acidity" not in told and not told & {"menstruum", "ratio"}:
        work.reading.freed |= {"menstruum", "ratio"}


def _cut_down(said: list[Said], work: Work) -> None:
    heard = work.reading.heard
    acids = [s for s in said if s.quantity in ACIDS and s.value <= MOST_ACID]
    known = {s.quantity for s in said} | work.facts.keys()
    if known & {"herb", "ratio", "water_content", "herb_served"} or not acids:
        return
    if "acidity_stock" in work.facts and len(acids) == 1:
        stocked = FROM.search(heard[: acids[0].start]) is not None and not re.search(
            r"\b(?:to|at|make|make it|make that)\s*(?:it|about)?\s*$", heard[: acids[0].start]
        )
        said[said.index(acids[0])] = replace(acids[0], quantity="acidity_stock" if stocked else "acidity", weak=False)
    elif len(acids) == 2 and (CUT.search(heard) or DOWN_TO.search(heard[min(s.end for s in acids) : max(s.start for s in acids)])):
        low, high = sorted(acids, key=lambda s: s.value)
        stock = next((s for s in acids if s.quantity == "stock_strength"), high)
        wanted = low if stock is high else high
        said[said.index(stock)] = replace(stock, quantity="acidity_stock", weak=False)
        said[said.index(wanted)] = replace(wanted, quantity="acidity", weak=False)
    else:
        return
    sold = next((s for s in said if s.quantity == "acidity_stock"), None)
    if sold is not None:  # "500 mL of 10 %": what there is of the strong one
        said[:] = [replace(s, quantity="vinegar_stock", weak=False) if _is_of(s, sold, heard) else s for s in said]
    if any(s.quantity == "vinegar_stock" for s in said):
        work.reading.freed.add("menstruum")
        work.reading.asked[:] = [Asked("water", 0, len(heard)), Asked("menstruum", 0, len(heard))]
    elif not any(a.quantity in ("water", "acidity") for a in work.reading.asked):
        work.reading.asked[:] = [Asked("vinegar_stock", 0, len(heard))]


def _is_of(s: Said, sold: Said, heard: str) -> bool:
    return s.quantity in LIQUIDS and s.end <= sold.start and OF.fullmatch(heard[s.end : sold.start]) is not None


SWEETER = looked_for(r"\b(?:sweeter|more honey|less (?:vinegar|sour|sharp)|not so sour)\b", re.IGNORECASE)
SOURER = looked_for(r"\b(?:sourer|sharper|less (?:honey|sweet)|more vinegar|not so sweet)\b", re.IGNORECASE)


def _other_parts(said: list[Said], work: Work) -> None:
    """ "Sweeter, 2 to 1" of an oxymel told by its parts: other parts of vinegar and honey, with more of the same one unless it is said otherwise."""
    now = work.batch.facts.get("honey_to_vinegar")
    planted = work.facts.keys() & {"herb", "ratio"} or work.reading.named or any(s.quantity == "herb" for s in said)
    if now is None or not now.value or planted or work.reading.ingredients:
        return
    for i, s in enumerate(said):
        if s.quantity != "ratio" or s.value <= 0:
            continue
        less, more = sorted((s.value, 1 / s.value))
        value = less if now.value <= 1 else more
        if SWEETER.search(work.reading.heard) and value < now.value:
            value = more
        if SOURER.search(work.reading.heard) and value > now.value:
            value = less
        said[i] = replace(s, quantity="honey_to_vinegar", value=value, weak=False, said_unit="")


def _jars(said: list[Said], work: Work) -> None:
    """ "24 jars of 60 mL": the size of each, not what is in one."""
    told = {s.quantity for s in said}
    if {"honey_to_vinegar", "in_jar"} <= work.facts.keys() and told & {"honey", "honey_volume"} and not told & {"in_jar", "menstruum", "ratio"}:
        work.reading.freed.add("in_jar")  # "only 400 g honey left": the honey sets the batch, the parts stay
    if {"honey_to_vinegar", "jars"} <= work.facts.keys() and not told & {"jars", "bottle_size"}:  # "make that 8 bottles" of those filled like jars
        said[:] = [replace(s, quantity="jars", weak=False) if s.quantity == "bottles" else s for s in said]
    if any(s.quantity == "jars" for s in said) and not any(s.quantity == "jar_size" for s in said):
        said[:] = [replace(s, quantity="jar_size", weak=False) if s.quantity in ("in_jar", "tin_size") else s for s in said]
        work.reading.asked[:] = [a for a in work.reading.asked if a.quantity != "herb_served"]  # "enough for 24 jars" asks for no plant
