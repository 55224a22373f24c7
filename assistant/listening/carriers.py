"""What is carried home by the bag: what one holds, how many there are, how many it takes: "how many bin bags of fresh mint, a bag holds 900 g"."""

from __future__ import annotations

from assistant.listening.pieces import Piece, take_piece
from assistant.listening.statements import Asked, Reading, Reference

ALWAYS = frozenset(
    "basket baskets trug trugs sack sacks crate crates pail pails bucket buckets basketful basketfuls bagful bagfuls panniers pannier".split()
)
LEAST = 200.0  # g: a bag that holds less is filled with dried herb for somebody
BAGS = frozenset("bag bags box boxes".split())  # of fresh plant; else they may be what is sold
CARRIERS = ALWAYS | BAGS
SEVERAL = frozenset("baskets trugs sacks crates pails buckets basketfuls bagfuls panniers bags boxes".split())
HOLDS = frozenset("takes take holds hold fits fit carries carry gets bears good".split())
TAKES = HOLDS | frozenset("about around roughly only just will can full of fresh comfortably is for".split())
KIND = frozenset("bin big small large paper cloth plastic cotton wicker full".split())
FRESH = frozenset("fresh pick picked picking gather gathered cut harvest collect forage green undried tops".split())
SOLD = frozenset("tea teas sell label labels tin pouch packet packets blend price bottle bottles".split())
ON_THE_SCALE = frozenset("empty tare alone scale scales gross weighs weighed reads net with itself".split())
WEIGHTS = frozenset({"<g>", "<oz>"})


def read_carriers(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """Give what one bag or basket holds, and their number, their places. Does nothing where an empty one is weighed or where they are sold."""
    bag = set(tokens)
    if not bag & CARRIERS or bag & (SOLD | ON_THE_SCALE) or not (bag & (ALWAYS | FRESH) or "bin" in bag or "carried" in context):
        return
    load = next((i for i, t in enumerate(tokens) if t in WEIGHTS and i not in taken and _in_one(tokens, i)), None)
    if load is None and "carried" not in context:
        return
    held = pieces[load].item if load is not None else None
    if held is not None and (held.value or 0.0) < LEAST and not bag & ALWAYS:
        return
    reading.frames.add("carried")
    if load is not None:
        take_piece(pieces, taken, reading, "carrier_holds", load)
    count = next((i for i, t in enumerate(tokens) if t == "<#>" and i not in taken and _carrier_at(tokens, i + 1)), None)
    if count is not None and tokens[max(0, count - 1) : count] not in (["a"], ["per"], ["each"]):
        item = pieces[count].item
        if item is not None and item.value == 1 and load is not None and count < load and HOLDS & set(tokens[count:load]):
            taken.add(count)  # "one bag holds 900 g"
            reading.references.append(Reference("reference", pieces[count].start, pieces[count].end, 1.0))
        else:
            take_piece(pieces, taken, reading, "carriers_had", count)
    for i in range(len(tokens) - 2):
        if tokens[i : i + 2] == ["how", "many"] and _carrier_at(tokens, i + 2):
            reading.asked.append(Asked("carriers", pieces[i].start, pieces[i + 2].end))
            break


def carriers_asked(reading: Reading) -> None:
    """With how many there are told, it is what they hold; with a weight told, how many it takes. Changes the reading."""
    if "carried" not in reading.frames:
        return
    said = {s.quantity for s in reading.said}
    asked = [a for a in reading.asked if a.quantity == "carriers"]
    if asked:
        reading.asked = asked
        reading.let_go("right", "claim")
    elif "carriers_had" in said:
        wanted = [a for a in reading.asked if a.quantity in ("dried", "menstruum", "carriers", "water_lost")]
        dries = said & {"water_content", "drying_ratio", "drying_loss"} and not said & {"ratio", "menstruum"}
        reading.asked = wanted or [Asked("dried" if dries else "picked", 0, 0)]
    elif "carrier_holds" in said and said & {"herb", "dried"} and not reading.asked:
        reading.asked = [Asked("carriers", 0, 0)]
    if "dried" in said or any(a.quantity == "dried" for a in reading.asked):
        reading.in_state("fresh")


def _carrier_at(tokens: list[str], at: int) -> bool:
    while at < len(tokens) and tokens[at] in KIND:
        at += 1
    return at < len(tokens) and tokens[at] in CARRIERS


def _in_one(tokens: list[str], at: int) -> bool:
    """Whether a weight is what one of them holds: "a bag holds 900 g", "bags of 900 g", "900 g a bag", "each sack takes 1.5 kg"."""
    behind = tokens[at + 1 : at + 6]
    for n, word in enumerate(behind):
        if word in CARRIERS:
            return bool(set(behind[:n]) & {"a", "per", "each", "every", "to"}) and not set(behind[:n]) & {"in", "with", "for"}
        if word in (",", ".", ";", "?") or word.startswith("<"):
            break
    look = at - 1
    while look >= 0 and tokens[look] in TAKES | {"each"}:
        look -= 1
    if look < 0 or tokens[look] not in CARRIERS:
        led = set(tokens[look + 1 : at])  # "5 baskets, each holds 600 g"
        return "each" in led and bool(led & HOLDS and CARRIERS & set(tokens[:at]))
    between = set(tokens[look + 1 : at])
    if tokens[look] in SEVERAL:
        return bool(between & (HOLDS | {"of", "each"}))
    return bool(between & HOLDS)


__all__ = ["carriers_asked", "read_carriers"]
