"""Amounts of a recipe moved about: "20 more valerian", "10 mL less hops", "give the difference to the passionflower"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.listening.ingredients import called
from assistant.listening.statements import Loose, Named, Reading, Reference, Said, forget
from assistant.patterns import looked_for
from assistant.quantities.spelt import number_of
from assistant.quantities.vocabulary import VOCABULARY, about, base, key_for
from assistant.session.batch import Batch, Fact

if TYPE_CHECKING:
    from assistant.session.conversation import Session

ALL_AGAIN = looked_for(
    r"\b(?:all|with all|back to all)\s+(?:of\s+)?(?:the\s+)?(?P<many>two|three|four|five|six|[2-9])\b(?:\s+of them)?|\b(?P<both>both)\b", re.IGNORECASE
)
MORE_BEHIND = looked_for(r"^\s*(?:of\s+)?(?P<way>more|extra|additional|further|less|fewer)\s+(?:parts?\s+)?(?:of\s+)?(?:the\s+|my\s+)?$", re.IGNORECASE)
MORE_AFTER = looked_for(r"^\s*(?:mls?|grams?|g|parts?)?\s*(?P<way>more|extra|less|fewer)\b(?! than| like| of)", re.IGNORECASE)
BESIDE = looked_for(r"(?: tincture)?(?:,| by| up| down|:)?\s+", re.IGNORECASE)
MORE_BEFORE = looked_for(r"\b(?P<way>another|an? extra|an? additional|a further|extra|more)\s+(?:like\s+)?$", re.IGNORECASE)
ANOTHER_PART = looked_for(r"\b(?:another|an? extra|an? additional|a further) part (?:of )?(?:the |my )?$", re.IGNORECASE)
PLAIN = looked_for(r"^\s*(?:of\s+)?(?:the\s+|my\s+)?$", re.IGNORECASE)
DOWN = frozenset({"less", "fewer"})
# What "20 more" is more of: the first of these that was said of the ingredient; a figure in mL is never a part.
AMOUNTS = {"": ("volume", "poured", "weight", "part", "once_volume", "once_weight"), "mL": ("volume", "poured", "once_volume"), "g": ("weight", "once_weight")}
SHIFTED = ("share", "part", "volume", "weight", "once_volume", "once_weight", "poured")
OTHER_WAY = looked_for(r"\bother way (?:round|around|about)\b|\bswap (?:them|those|the two)(?: round| over| about)?\b", re.IGNORECASE)
THE_DIFFERENCE = r"(?:the )?(?:difference|rest|balance|remainder|slack|gap|shortfall|what's left|that)"
GIVEN = looked_for(
    rf"\b(?:giv\w+|put\w*|add\w*|mov\w+|shift\w*|and|with|let)\b[^.;,]*\b{THE_DIFFERENCE}\b (?:goes |going |go )?(?:over )?(?:to|on|onto|in|into) (?:the )?$",
    re.IGNORECASE,
)
TAKEN = looked_for(
    rf"^ (?:tincture )?(?:takes?|taking|gets?|getting|has|makes? up|making up|picks? up|picking up|fills?) (?:up )?{THE_DIFFERENCE}\b", re.IGNORECASE
)


def more_of(reading: Reading, facts: dict[str, Fact], members: Sequence[str], new: set[str], turn: int) -> None:
    """ "Put 20 more valerian", "another 10 mL of hops": so much on top of what is in it. The figures used are taken from the reading."""
    one_more = re.search(r"\bpart\b", reading.heard, re.IGNORECASE) is not None  # else no place of the sentence need be looked at for it
    for mention in reading.mentions:
        member = called(mention.name, members)
        part = key_for("part", member)
        if one_more and member and part in facts and ANOTHER_PART.search(reading.heard[: mention.start]):
            facts[part] = Fact(facts[part].value + 1.0, "said", turn)
            new.add(part)
            continue
        figures: list[Said | Loose] = [*reading.loose, *reading.said] if member else []
        for figure in figures:
            way = _way(figure, mention, reading.heard)
            key = _amount(figure, member, facts) if way else ""
            if way and not key and _grams(figure):
                key = _in_weights(facts, members, member)
            if not key:
                continue
            sign = -1.0 if way.lower() in DOWN else 1.0
            facts[key] = Fact(max(0.0, facts[key].value + sign * figure.value), "said", turn)
            new.add(key)
            forget(figure, reading.said, reading.loose)
            reading.references.append(Reference(base(key), figure.start, figure.end, figure.value))
            for whole in ("blend", "batch"):
                if base(key) not in ("part",):
                    facts.pop(whole, None)  # what is made follows from what goes in
            break


def _grams(figure: Said | Loose) -> bool:
    return figure.kind == "g" if isinstance(figure, Loose) else bool(figure.said_unit) and VOCABULARY[figure.quantity].unit == "g"


def _in_weights(facts: dict[str, Fact], members: Sequence[str], member: str) -> str:
    """ "20 g more wax" in a recipe by parts of so many grams: what is in the pot is weights from here on. The key of the member's, "" where it is not known."""
    parts = {m: facts[key_for("part", m)] for m in members if key_for("part", m) in facts}
    if len(parts) != len(members) or "batch" not in facts:
        return ""
    whole = facts["batch"].value / sum(p.value for p in parts.values())
    for name, part in parts.items():
        del facts[key_for("part", name)]
        facts[key_for("weight", name)] = Fact(part.value * whole, "said", part.turn)
    return key_for("weight", member)


def _way(figure: Said | Loose, mention: Named, heard: str) -> str:
    if mention.end <= figure.start and BESIDE.fullmatch(heard[mention.end : figure.start]):
        after = MORE_AFTER.match(heard[figure.end :])  # "licorice 5 less"
        return after.group("way") if after is not None else ""
    if not figure.end <= mention.start:
        return ""
    behind = MORE_BEHIND.match(heard[figure.end : mention.start])
    before = MORE_BEFORE.search(heard[: figure.start]) if PLAIN.match(heard[figure.end : mention.start]) else None
    hit = behind or before
    return hit.group("way") if hit is not None else ""


def _amount(figure: Said | Loose, member: str, facts: dict[str, Fact]) -> str:
    if _grams(figure) and key_for("have_weight", member) in facts:
        return key_for("have_weight", member)  # "found 15 g more thyme": more of what was short, not one more part
    if isinstance(figure, Loose):
        kind = figure.kind if figure.kind in ("mL", "g") else "" if figure.kind in ("#", "n") else "?"
    else:
        unit = VOCABULARY[figure.quantity].unit if figure.said_unit else ""
        kind = unit if unit in ("mL", "g") else ""
    return next((k for q in AMOUNTS.get(kind, ()) if (k := key_for(q, member)) in facts), "")


def other_way_round(reading: Reading, facts: dict[str, Fact], members: Sequence[str], new: set[str], turn: int) -> None:
    """ "The other way round": two ingredients change places. The sentence asks for no rounding."""
    if not OTHER_WAY.search(reading.heard):
        return
    reading.let_go("round")
    if len(members) != 2 or reading.ingredients:
        return
    for quantity in SHIFTED:
        one, two = (key_for(quantity, m) for m in members)
        if one in facts and two in facts:
            facts[one], facts[two] = (Fact(facts[k].value, "said", turn) for k in (two, one))
            new |= {one, two}


def difference_to(reading: Reading, facts: dict[str, Fact], members: Sequence[str], new: set[str], replaced: dict[str, float], turn: int) -> None:
    """ "Take the hops down to 10 % and give the difference to the passionflower": what one loses the other gains, and the whole stays."""
    heir = _heir(reading, members) if replaced else ""
    if not heir:
        return
    for quantity in SHIFTED:
        changed = [k for k in replaced if base(k) == quantity and about(k) not in ("", heir)]
        own = key_for(quantity, heir)
        if not changed or own not in facts or own in new:
            continue
        gained = sum(replaced[k] - facts[k].value for k in changed if k in facts)
        if facts[own].value + gained >= 0:
            facts[own] = Fact(facts[own].value + gained, "said", turn)
            new.add(own)


def _heir(reading: Reading, members: Sequence[str]) -> str:
    for mention in reading.mentions:
        member = called(mention.name, members)
        if member and (GIVEN.search(reading.heard[: mention.start]) or TAKEN.match(reading.heard[mention.end :])):
            return member
    return ""


BACK = looked_for(r"^(?: tincture)? back\b(?: in)?", re.IGNORECASE)
PUT_BACK = looked_for(r"\b(?:put|add|bring|pop|want) back (?:in )?(?:the |my )?$", re.IGNORECASE)


def back_in(session: Session, reading: Reading) -> Batch | None:
    """ "Put the rose back in", "rose back at 1": an ingredient that was left out, as it was in the recipe at first."""
    batch = session.batch
    if batch is None or session.draft is not None or not batch.members or not 0 <= session.current < len(session.firsts):
        return None
    first = session.firsts[session.current]
    for mention in reading.named:
        member = called(mention.name, first.members)
        told = BACK.match(reading.heard[mention.end :]) or PUT_BACK.search(reading.heard[: mention.start])
        if not member or member in batch.members or told is None:
            continue
        own = {k: f for k, f in first.facts.items() if about(k) == member}
        if any(base(k) == "part" for k in batch.facts):  # what the others had of a hundred are parts since one was left out
            own = {(key_for("part", member) if base(k) == "share" else k): f for k, f in own.items()}
        members = tuple(m for m in first.members if m in batch.members or m == member) + tuple(m for m in batch.members if m not in first.members)
        return batch.with_facts(own).having(members=members)
    return None


def all_of_them(session: Session, reading: Reading) -> Batch | None:
    """ "OK, all three then": the recipe as it was before one of them was left out. Takes the count from the reading."""
    hit = ALL_AGAIN.search(reading.heard)
    batch = session.batch
    if hit is None or batch is None or session.draft is not None or not batch.members or not 0 <= session.current < len(session.firsts):
        return None
    many = 2 if hit.group("both") else int(number_of(hit.group("many")))
    first = session.firsts[session.current]
    if len(batch.members) >= many or len(first.members) != many or not set(batch.members) < set(first.members):
        return None
    figures: list[Said | Loose] = [*reading.loose, *reading.said]
    inside = [f for f in figures if hit.start() <= f.start < hit.end()]
    reading.loose[:] = [f for f in reading.loose if f not in inside]
    reading.said[:] = [s for s in reading.said if s not in inside]
    reading.references += [Reference("reference", f.start, f.end, f.value) for f in inside]
    return first.having(spoken=batch.spoken)
