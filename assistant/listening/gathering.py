"""Whether a sentence is about what is still to be gathered, and which weight is what was picked."""

from __future__ import annotations

from assistant.dataclass import replace
from assistant.listening.statements import Reading

GATHER = frozenset("gather pick cut dig harvest collect forage strip snip".split())
WANTS = frozenset("want wants need needs after".split())
LOST = frozenset("lost lose off scrubbing stalks stalk trimmed waste".split())
BRINGS = (("bring", "home"), ("carry", "home"), ("bring", "back"), ("basket",))


def asks_to_gather(tokens: list[str], reading: Reading) -> bool:
    """Whether "how much" in this sentence means how much to pick: a verb of gathering in the asking clause, or a margin and nothing asked."""
    for i, t in enumerate(tokens):
        if t not in ("how", "what", "whats", "what's") or (i and tokens[i - 1] in ("of", "than")):  # "a quarter of what I pick is woody"
            continue
        clause: list[str] = []
        for word in tokens[i:]:
            if word in (".", ";", "?", "!") or (clause and word in ("how", "what")):
                break
            clause.append(word)
        verbs = [k for k, word in enumerate(clause) if word in GATHER or any(tuple(clause[k : k + len(b)]) == b for b in BRINGS)]
        diluting = any(clause[k] == "cut" and clause[k + 1 : k + 2] in (["it"], ["with"], ["my"], ["the"]) for k in verbs)
        if verbs and not diluting and not set(clause) & {"picked", "share", "proportion", "plants"}:
            return True
    if tokens[:1] and tokens[0] in GATHER and tokens[1:2] == ["for"]:
        return True  # "gather for 500 g dried, dries 5 to 1"
    quantities = {s.quantity for s in reading.said}
    open_work = quantities & {"ratio", "menstruum", "strength", "stock_strength", "pressed"}
    if reading.asked or open_work or "herb" not in quantities:
        return False
    return "margin" in quantities or ("trim_loss" in quantities and bool(set(tokens) & (GATHER | WANTS)))


def sort_picked(tokens: list[str], reading: Reading) -> None:
    """A weight said to be picked, where a loss is taken off and the clean weight is asked, is what was picked and not what goes in."""
    said = {s.quantity for s in reading.said}
    asked = {a.quantity for a in reading.asked}
    lost_and_dried = "dried" in asked and bool(set(tokens) & LOST)  # "900 g, lost 12 % picking over, what do I get dry?"
    if "trim_loss" not in said or not (asked & {"herb", "picked", "held_back", "rest"} or lost_and_dried) or said & {"gross", "to_gather", "picked"}:
        return
    done = {"pick", "picked", "gathered", "cut", "harvested", "brought", "basket", "dug", "got", "lifted", "foraged", "collected"}
    to_come = {"should", "must", "need", "needed"} | (set() if lost_and_dried else {"to"})
    if (set(tokens) & done or lost_and_dried) and not set(tokens) & to_come:
        reading.said = [replace(s, quantity="picked") if s.quantity == "herb" else s for s in reading.said]
