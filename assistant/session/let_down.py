"""A tincture that came out too strong: "800 ml at 68, want it 45, how much water", and then "how much will I have after"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.spirit_there import SPIRITS
from assistant.session.work import take_as

WATER = looked_for(r"\bwater\b", re.IGNORECASE)
ALL_OF_IT = looked_for(
    r"\b(?:bring|take|get|cut|let|thin|dilute|knock|drop)\s+(?:it|this|that|them|the lot|it all|all of it|all this)\b(?:\s+(?:all|right|back))?"
    r"\s+(?:down )?to\b",
    re.IGNORECASE,
)
NO_WATER_OF_PLANT = looked_for(r"\b(?:fresh|leaf|root|herb|plant|juicy|dried|dry|decoction|honey|sugar|syrup|vinegar|glycerine?)\b", re.IGNORECASE)
OF_IT_IS = looked_for(
    r"^\s*(?:mls?|l|lit(?:re|er)s?|of it|of that|tinctures?|stuff|pressed|strained|the|it|is"
    r"|it['’]?s|its|at|reads?|reading|tests?|tested|measures?|comes? (?:out )?at"
    r"|came (?:out )?at|which|and|about|of|around|a|,|:|-|\s)*$",
    re.IGNORECASE,
)
WANTED = looked_for(
    r"\b(?:want|wanted|need|needs|should|shd|bring|take|get|cut|let|drop|down|to|for|like|meant|supposed|after|aim\w*|water)\b[^\d.;?]{0,24}$", re.IGNORECASE
)
MADE_FROM = looked_for(r"\b(?:make|making|from|need|want|for|fill)\s+(?:me |up |about |a |an )*$", re.IGNORECASE)
AFTER = looked_for(
    r"\b(?:how much|what|what['’]?ll|whatll|total|volume)\b[^\d]{0,40}"
    r"\b(?:after(?:wards)?|then|in the end|end up with|all told|in all|altogether|have|make|be|make it)\b[^\d]{0,16}\W*$"
    r"|^\W*(?:and )?(?:the )?total(?: (?:after|then|volume))?\W*$",
    re.IGNORECASE,
)
CUT_TO = looked_for(
    rf"^[^\d.;?]{{0,16}}\b{SPIRITS}\b[^\d.;?]{{0,30}}\b(?:bring|brought|take|taken|get|cut|let|water|watered|dilut\w+|thin|thinned|knock\w*|drop|down)\b"
    r"[^\d.;?]{0,16}\b(?:to|at)\s+(?:about |around )?$",
    re.IGNORECASE,
)
DIGIT = looked_for(r"\d")
VOLUMES = frozenset({"menstruum", "stock", "pressed", "in_jar", "spirit_in_hand", "blend"})
STRENGTHS = frozenset({"strength", "stock_strength", "finished_strength", "water_content"})
PLANTED = frozenset({"herb", "ratio", "water_content", "bottle_size", "dose"})
OF_THE_WHOLE = frozenset({"pressed", "in_jar", "menstruum", "blend", "finished_strength"})
LEAST, MOST = 15.0, 97.0  # percent
OTHERWISE = frozenset({"to_gather", "herb", "pressed"})  # what "what do I get" asks beside a plant
LEAST_MADE = 20.0  # mL: so many are made of it, and it is no strength of its own
OF = looked_for(r"\s*(?:mls? )?(?:of|at|@)\s*(?:about )?", re.IGNORECASE)
MAKES = looked_for(r"\b(?:what|how much)\b[^.;?]*\b(?:get|have|make|makes|come|end up)\b", re.IGNORECASE)


def let_down(reading: Reading, batch: Batch | None) -> None:
    """Give these sentences their meaning. Changes the reading."""
    if reading.ingredients or reading.liquids or (batch is not None and batch.members):
        return
    if reading.figures:
        _so_much_of_it(reading)
        _so_much_so_strong(reading)
    elif batch is not None and _is_cut(batch) and _asks_for_the_whole(reading):
        reading.asked[:] = [Asked("menstruum", 0, len(reading.heard))]


def _asks_for_the_whole(reading: Reading) -> bool:
    others = reading.named or {a.quantity for a in reading.asked} - OF_THE_WHOLE or WATER.search(reading.heard)
    return not others and AFTER.search(reading.heard) is not None


def _is_cut(batch: Batch) -> bool:
    return {"stock", "stock_strength", "strength"} <= batch.facts.keys() and not batch.facts.keys() & PLANTED


def _so_much_of_it(reading: Reading) -> None:
    """ "Make 750 of 25 % from 96", "what do I get from 3 L of 96 cut to 45": the bare number is how much, and what is asked is what it makes."""
    told = {s.quantity: s for s in reading.said}
    if told.keys() == {"strength", "stock_strength"} and len(reading.loose) == 1:
        (number,) = reading.loose
        between = reading.heard[number.end : min(s.start for s in told.values())]
        if number.kind == "#" and number.value > LEAST_MADE and OF.fullmatch(between) and MADE_FROM.search(reading.heard[: number.start]):
            take_as(reading, number, "menstruum")
            reading.frames.add("dilution")
    elif told.keys() == {"strength", "stock_strength", "stock"} and {a.quantity for a in reading.asked} <= OTHERWISE and MAKES.search(reading.heard):
        reading.asked[:] = [Asked("menstruum", 0, len(reading.heard))]


def _so_much_so_strong(reading: Reading) -> None:
    """So much of it, perhaps how strong, and a lower strength wanted: all of it is let down with water. Changes the reading."""
    if NO_WATER_OF_PLANT.search(reading.heard) or {a.quantity for a in reading.asked} - {"water", "menstruum", "stock", "pressed"}:
        return
    figures, act = reading.figures, _target_of_act(reading)
    if act is not None and figures and figures[-1].end <= act.start:
        figures = [*figures, act]
    done = _spirit_by_name(reading, *figures) if len(figures) == 2 else _all_of_it(reading, *figures) if len(figures) == 3 else False
    if not done:
        return
    reading.let_go("top_up_water")
    if not any(a.quantity in ("water", "stock") for a in reading.asked):
        reading.asked[:] = [Asked("water", 0, len(reading.heard))]
    reading.frames.add("dilution")


def _target_of_act(reading: Reading) -> Loose | None:
    """The strength that "let it down to 45" bears."""
    act = reading.act("top_up_water")
    digit = DIGIT.search(reading.heard, act.start, act.end) if act is not None and len(act.figures) == 1 else None
    return Loose("#", act.figures[0], "", digit.start(), act.end, reading.heard[digit.start() : act.end]) if act is not None and digit is not None else None


def _all_of_it(reading: Reading, volume: Said | Loose, strong: Said | Loose, target: Said | Loose) -> bool:
    """ "900 ml of yarrow tincture at 62, bring it down to 45"."""
    heard = reading.heard
    if not (WATER.search(heard) or ALL_OF_IT.search(heard)):
        return False
    if not (volume.quantity in VOLUMES if isinstance(volume, Said) else volume.kind == "mL") or not (_is_strength(strong) and _is_strength(target)):
        return False
    for plant in reading.named:  # "900 ml of yarrow at 62"
        heard = heard[: plant.start] + " " * (plant.end - plant.start) + heard[plant.end :]
    if MADE_FROM.search(heard[: volume.start]) or not OF_IT_IS.match(heard[volume.end : strong.start]) or not WANTED.search(heard[strong.end : target.start]):
        return False
    if not target.value < strong.value:
        return False
    take_as(reading, volume, "stock")
    take_as(reading, strong, "stock_strength")
    _aim(reading, target)
    return True


def _spirit_by_name(reading: Reading, volume: Said | Loose, target: Said | Loose) -> bool:
    """Whether it is "1 L brandy to bring down to 30": all of it is cut, or so much is to come of it; how strong it is is asked where it is not known."""
    heard = reading.heard
    told = volume.quantity in VOLUMES and volume.said_unit if isinstance(volume, Said) else volume.kind == "mL"
    if not told or not _is_strength(target) or not CUT_TO.match(heard[volume.end : target.start]):
        return False
    wanted = MADE_FROM.search(heard[: volume.start]) is not None
    take_as(reading, volume, "menstruum" if wanted else "stock")
    _aim(reading, target)
    if wanted:
        reading.asked[:] = [Asked("stock", 0, len(heard))]
    return True


def _aim(reading: Reading, target: Said | Loose) -> None:
    if isinstance(target, Said) or target in reading.loose:
        take_as(reading, target, "strength")
    else:
        reading.said.append(Said("strength", target.value, target.start, target.end))


def _is_strength(figure: Said | Loose) -> bool:
    kind = figure.quantity in STRENGTHS if isinstance(figure, Said) else figure.kind in ("#", "%")
    return kind and LEAST <= figure.value <= MOST
