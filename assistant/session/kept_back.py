"""Some of what there is kept back before the rest is bottled: "640 into 50s, keep 100 back for me"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

FIGURE = r"(?P<n>\d+(?:[.,]\d+)?)\s*(?:ml|mls|millilit(?:re|er)s?|cl|l|lit(?:re|er)s?)?\b"
FOR_WHOM = (
    r"(?:back|aside|by\b|for (?:me|myself|us|ourselves|home|the (?:shop|house|kitchen|shelf|archive)|test(?:ing|s)?|tasting|samples?"
    r"|the family)|here|with me|unbottled|in reserve)"
)
KEPT = looked_for(
    rf"\b(?:keep(?:ing)?|kept|hold(?:ing)?|held|put(?:ting)?|set(?:ting)?|sav(?:e|ing)|leav(?:e|ing)|reserv(?:e|ing)|minus|less)\s+"
    rf"(?:(?P<behind>back|aside|by)\s+)?(?:about |only |just )?{FIGURE}(?P<after>\s*(?:of (?:it|that) )?{FOR_WHOM})?",
    re.IGNORECASE,
)
STAYS = looked_for(rf"{FIGURE}\s*(?:of (?:it|that) )?(?:stays?|is kept|kept|held|is for me|to be kept|set|put)\s*(?P<after>{FOR_WHOM})?", re.IGNORECASE)
AGAIN = looked_for(
    r"^\W*(?:(?:and|but|or|no|so|what|if|i|we|then|actually|say)\W+)*(?:keep|kept|hold|held|set aside|keep back)\s+" + FIGURE + r"\W*(?:back"
    r"|instead|aside|then)?\W*$",
    re.IGNORECASE,
)
SIZE = looked_for(r"\b(?P<size>\d+)(?: ?(?:ml)?s\b(?! *(?:%|g\b))| ?(?:ml|mls)? bottles?\b)", re.IGNORECASE)
MARC = looked_for(r"\bmarc\b|\bper\b|\b(?:a|each|every) (?:dry )?g(?:ram)?\b|\bpress\b|\bcloth\b|\bricer\b", re.IGNORECASE)
POOLS = frozenset({"menstruum", "pressed", "racked", "blend", "to_bottle", "in_jar", "stock", "spirit_in_hand", "syrup"})
HEARD_AS = {*POOLS, "held_per_gram", "bottle_size", "strength", "stock_strength", "kept_back"}  # what other phrases may have taken it for
LEAST = 5.0  # mL: nobody keeps less back


def kept_back(reading: Reading, batch: Batch | None) -> None:
    """The millilitres that are not bottled are kept back: nothing is told of the marc. Changes the reading."""
    if MARC.search(reading.heard) or reading.ingredients:
        return
    facts = batch.facts if batch is not None else {}
    hit = KEPT.search(reading.heard) or STAYS.search(reading.heard)
    told_where = hit is not None and (hit["after"] or ("behind" in hit.re.groupindex and hit["behind"]) or hit.re is STAYS)
    if "kept_back" in facts and not told_where:
        hit = AGAIN.match(reading.heard)
        told_where = hit is not None
    if hit is None or not told_where:
        return
    if reading.sizes:  # "in 50s, 100 stays with me": no second size
        others = [f for f in reading.sizes if not f.start <= hit.start("n") < f.end]
        if len(others) != 1 or len(reading.sizes) != 2:
            return
        reading.sizes = ()
        reading.loose[:] = [*reading.loose, *others]
        take_as(reading, others[0], "bottle_size")
    figure = next((f for f in reading.figures if f.start <= hit.start("n") < f.end), None)
    size = SIZE.search(reading.heard)
    sizes = [s for s in reading.said if s.quantity == "bottle_size" and s is not figure]
    start, end = hit.span("n")
    unit = figure.kind if isinstance(figure, Loose) else "mL"
    if unit not in ("mL", "#", "n") or (figure is None and size is None) or not (sizes or size is not None or "bottle_size" in facts):
        return
    value = abs(figure.value) if figure is not None else float(hit["n"].replace(",", "."))
    if value < LEAST or (isinstance(figure, Said) and figure.quantity not in HEARD_AS):
        return
    if figure is None:
        reading.said.append(Said("kept_back", value, start, end))
    else:
        take_as(reading, figure, "kept_back", value)
    if not sizes and size is not None and "bottle_size" not in facts:
        there = next((f for f in reading.figures if f.start <= size.start("size") < f.end), None)
        if there is None:
            reading.said.append(Said("bottle_size", float(size["size"]), size.start("size"), size.end("size")))
        else:
            take_as(reading, there, "bottle_size")
    volumes = [s for s in reading.said if s.quantity in POOLS and s.value > value]
    if len(sizes) > 1 and max(s.value for s in sizes) > value:  # "bottle 2 L in 100s": what there is, and no second size
        volumes.append(take_as(reading, max(sizes, key=lambda s: s.value), "menstruum"))
    elif [s.quantity for s in volumes] == ["spirit_in_hand"]:
        take_as(reading, volumes[0], "menstruum")
    bare = [f for f in reading.loose if f.kind in ("#", "mL") and f.value > value]
    if not volumes and len(bare) == 1:
        take_as(reading, bare[0], "menstruum")
    reading.let_go("undo", "right", "aside", "claim", "whatif")
    if not reading.asked or {a.quantity for a in reading.asked} <= {"bottles", "rest", "held_back", "bottles_needed"}:
        reading.asked[:] = [Asked("bottles", 0, len(reading.heard)), Asked("rest", 0, len(reading.heard))]
        if batch is not None and "filled" in batch.frames:
            del reading.asked[0]  # so many bottles were told: only what is left is looked for
