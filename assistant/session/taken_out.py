"""An ingredient dropped or swapped: "without the hops", "the mallow's run out, do it without", "half of the echinacea swapped for elderberry"."""

from __future__ import annotations

import re
from collections.abc import Iterable, MutableSequence, Sequence
from itertools import pairwise

from assistant.listening.ingredients import called
from assistant.listening.statements import Loose, Named, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base, key_for
from assistant.session.batch import Fact
from assistant.session.left_out import SAME_BOTTLE

DROP = looked_for(
    r"\b(?:drop|leave out|without|skip|omit|minus|lose|take out|no|leave off|cut out|ditch|out of|no more)\b(?: the| any| all the)? *$", re.IGNORECASE
)
LEAVE = looked_for(r"\b(?:leave|left|leaving|take|took|taking|drop|dropped|cut)\b(?: the| any| all the)? *$", re.IGNORECASE)
TO_A_FIGURE = looked_for(r"^ (?:tincture )?(?:down |up |back )?(?:to|by)\b", re.IGNORECASE)  # "drop the hops to 20 mL"
OUT = looked_for(r"^(?: tincture| one)? (?:out|off)\b", re.IGNORECASE)
# Dropped where the clause ends with the name: "cut calendula" of a list, and no way to cut it.
SCRAP = looked_for(
    r"(?:\b(?:cut|remove|forget(?: about)?|exclude|scrap|bin|out with|sans|take away|leaving out|get rid of|drop out|not|ran out of|run out of)|\bw/o)"
    r"(?: the| any| all the)? *$",
    re.IGNORECASE,
)
AVERSE = looked_for(
    r"\b(?:allergic to|reacts?(?: badly)? to|can(?:not|['’]?t) (?:have|take|stand)|hates?|does(?:n['’]?t| not) (?:like|want)|won['’]?t (?:have|take))"
    r"(?: the| any| more)* *$",
    re.IGNORECASE,
)
ENDS = looked_for(r"^(?: tincture| then| now| please| only| this time| in it| for her| for him)*\W*(?:$|[.,;?!] )", re.IGNORECASE)
BEHIND = looked_for(
    r"^[^.?!\d]{0,30}\b(?:(?:leave|take|took|cut|keep) (?:it|that|them|that one) (?:out|off)|(?:drop|skip|lose|omit|scrap) (?:it|that|them)\b"
    r"|(?:do|make|mix|made) (?:it |that |this )?without\b(?! the| any)|without (?:it|that|them)\b)"
    r"|^(?: tincture)? (?:out|off)(?: then| now| please| of it)?\W*$",
    re.IGNORECASE,
)
INSTEAD = looked_for(r"(?: tincture)?,? (?:instead|in its place|in place)\b", re.IGNORECASE)
AND = looked_for(r"\s*(?:,|and|or|nor|&|\+)\s*(?:and |or |the |no |any )*", re.IGNORECASE)
JUST = looked_for(r"^\W*(?:(?:and|so|then|ok|okay|what about|make it|do|with|if it['’]?s)\W+)*(?:just|only)\s+(?:the )?(?:with )?$", re.IGNORECASE)
EQUAL = looked_for(
    r"\b(?:equal|even) (?:parts?|amounts?|volumes?|measures?|weights?|quantit\w+)\b|\bequally\b|\b(?:one|1) part each\b|\bone of each\b", re.IGNORECASE
)
SWAP = looked_for(r"\b(?:swap|swapped|swaps|replace|replaced|substitute|exchange|traded|instead of|change|switch)\b", re.IGNORECASE)


def taken_out(reading: Reading, facts: dict[str, Fact], members: MutableSequence[str], new: set[str], turn: int) -> None:
    """Ingredients dropped ("without the hops") or swapped ("half of the echinacea swapped for elderberry")."""
    if not reading.ingredients and "honey_to_vinegar" in facts and not members and EQUAL.search(reading.heard):
        facts["honey_to_vinegar"] = Fact(1.0, "said", turn)
        new.add("honey_to_vinegar")
        return
    if not reading.ingredients and {"honey_volume", "menstruum"} <= facts.keys() and not members and EQUAL.search(reading.heard):
        half = (facts["honey_volume"].value + facts["menstruum"].value) / 2
        facts |= {"honey_volume": Fact(half, "said", turn), "menstruum": Fact(half, "said", turn)}  # an oxymel keeps its volume
        new |= {"honey_volume", "menstruum"}
        return
    if not members or len(reading.ingredients) >= 2:
        return
    _by_its_strength(reading, facts, members, new)
    if len(members) > 1 and not reading.ingredients and EQUAL.search(reading.heard) and any(base(k) in ("part", "share") for k in facts):
        for key in [k for k in facts if base(k) in ("part", "share") and about(k) in members]:
            del facts[key]
        facts |= {key_for("part", m): Fact(1.0, "said", turn) for m in members}  # "equal parts then"
        new |= {key_for("part", m) for m in members}
        return
    mentioned = [(m, n) for n in reading.mentions if (m := called(n.name, members))]
    if len(reading.mentions) >= 2 and (SWAP.search(reading.heard) or _one_for_the_other(reading)):
        _swapped(reading, facts, members, new, turn)
        return
    whole = _same_bottle(reading, facts, members)
    gone = _dropped(reading, members, mentioned)
    if gone and not reading.figures:
        reading.asked[:] = [a for a in reading.asked if a.quantity not in ("picked", "herb_left", "rest")]  # "the mallow's run out, do it without"
    for member in gone:
        if len(members) > 1:
            if whole is not None:
                facts |= whole  # the others fill it in proportion
                for key in [k for k in facts if base(k) == "volume" and about(k) in members]:
                    facts[key_for("part", about(key))] = facts.pop(key)
                whole = None
            members.remove(member)
            for key in [k for k in facts if about(k) == member]:
                del facts[key]
            _shares_as_parts(facts, members)
            new.add(key_for("part", members[0]) if members else "blend")


def _one_for_the_other(reading: Reading) -> bool:
    """ "She hates valerian, hops instead": the first goes, and the second takes its place."""
    first, second = sorted(reading.mentions, key=lambda n: n.start)[:2]
    before = reading.heard[max(0, first.start - 32) : first.start]
    goes = DROP.search(before) or AVERSE.search(before) or SCRAP.search(before) or BEHIND.match(reading.heard[first.end : second.start])
    amount = any(first.end <= f.start < second.start for f in reading.figures)  # "leave out the goldenseal, 10 more of the elder instead"
    return goes is not None and not amount and INSTEAD.match(reading.heard, second.end) is not None


def _dropped(reading: Reading, members: Sequence[str], mentioned: Sequence[tuple[str, Named]]) -> list[str]:
    """The ingredients that a sentence leaves out: by a word before the name, by one behind it, or all that it does not pick."""
    heard, row = reading.heard, sorted(mentioned, key=lambda m: m[1].start)
    if not row:
        return []
    gone: list[str] = []
    last = -1  # where the name ends that was dropped last
    for member, name in row:
        if _figure_at(reading, name.start) or TO_A_FIGURE.match(heard[name.end :]):
            continue
        before, behind = heard[max(0, name.start - 32) : name.start], heard[name.end :]
        told = DROP.search(before) or AVERSE.search(before) or (SCRAP.search(before) and ENDS.match(behind)) or _left_out(heard, name.start, name.end)
        if told or BEHIND.match(behind) or (last >= 0 and AND.fullmatch(heard[last : name.start])):
            gone.append(member)
            last = name.end
    kept = {m for m, _ in row}
    between = [heard[a.end : b.start] for (_, a), (_, b) in pairwise(row)]
    if not gone and not reading.figures and not reading.asked and JUST.match(heard[: row[0][1].start]) and all(AND.fullmatch(b) for b in between):
        return [m for m in members if m not in kept] if ENDS.match(heard[row[-1][1].end :]) else []
    return list(dict.fromkeys(gone))


def _same_bottle(reading: Reading, facts: dict[str, Fact], members: Sequence[str]) -> dict[str, Fact] | None:
    """The whole that stays where one of several told by their volumes goes: "without the mullein, same bottle"; None where nothing of it is said."""
    volumes = [facts[k] for m in members if (k := key_for("volume", m)) in facts]
    if len(volumes) != len(members) or not SAME_BOTTLE.search(reading.heard) or facts.keys() & {"blend", "bottle_size"}:
        return None
    return {"blend": Fact(sum(f.value for f in volumes), "said", max(f.turn for f in volumes))}


def _by_its_strength(reading: Reading, facts: dict[str, Fact], members: MutableSequence[str], new: set[str]) -> None:
    """ "Without the 25 one": the ingredient of a mix that has this strength. Changes the reading: the figure only points."""
    forgotten = [a for a in reading.acts if a.name == "forget" and len(a.figures) == 1]
    for act in forgotten:
        owners = [m for m in members if (k := key_for("strength_of", m)) in facts and abs(facts[k].value - act.figures[0]) < 1e-9]
        if len(owners) == 1 and len(members) >= 3:
            reading.acts.remove(act)  # "drop the 90": out with it, and not its strength alone
            _gone(owners[0], facts, members, new)
    for figure in [f for f in reading.figures if not isinstance(f, Said) or VOCABULARY[f.quantity].unit == "percent"]:
        before = reading.heard[max(0, figure.start - 24) : figure.start]
        owners = [m for m in members if (k := key_for("strength_of", m)) in facts and abs(facts[k].value - figure.value) < 1e-9]
        if len(owners) != 1 or len(members) < 3 or not DROP.search(before):
            continue
        reading.only_points(figure)
        _gone(owners[0], facts, members, new)


def _gone(member: str, facts: dict[str, Fact], members: MutableSequence[str], new: set[str]) -> None:
    members.remove(member)
    for key in [k for k in facts if about(k) == member or k in ("blend", "made")]:
        del facts[key]
    new.add(key_for("volume", members[0]))


def _left_out(heard: str, start: int, end: int) -> bool:
    """ "What if I left the skullcap out?", "take the ginger out": the verb before the name, the "out" behind it."""
    return LEAVE.search(heard[max(0, start - 24) : start]) is not None and OUT.match(heard[end:]) is not None


def _figure_at(reading: Reading, at: int) -> bool:
    return any(0 <= at - s.end < 12 for s in reading.said) or any(0 <= at - f.end < 12 for f in reading.loose)


def _swapped(reading: Reading, facts: dict[str, Fact], members: MutableSequence[str], new: set[str], turn: int) -> None:
    names = [n.name for n in sorted(reading.mentions, key=lambda n: n.start)]
    gone, instead = names[0], names[1]
    if re.search(r"instead of|in place of|rather than", reading.heard, re.IGNORECASE):
        gone, instead = instead, gone
    source = called(gone, members)
    if not source:
        return
    target = called(instead, members) or instead
    if target == source:
        target = instead if instead != source else f"other {source}"  # "swap the oil for coconut oil"
    fraction = _fraction(reading)
    if target not in members:
        members.append(target)
    for quantity in ("part", "share", "volume", "weight", "once_volume", "once_weight", "poured"):
        key, other = key_for(quantity, source), key_for(quantity, target)
        if key not in facts:
            continue
        moved = facts[key].value * fraction
        facts[other] = Fact(moved + (facts[other].value if other in facts else 0.0), "said", turn)
        facts[key] = Fact(facts[key].value - moved, "said", turn)
        new |= {key, other}
    if fraction >= 1 - 1e-9:
        members.remove(source)
        for key in [k for k in facts if about(k) == source]:
            del facts[key]
            new.discard(key)


PLAIN_FRACTION = looked_for(r"\b(?:a |one |two |three )?(?:half|third|thirds|quarter|quarters|fifth)\b|%|percent", re.IGNORECASE)


def _fraction(reading: Reading) -> float:
    """How much of an ingredient is swapped: "half of the echinacea", "20 % of the linden"; all of it where nothing is said."""
    figures: list[Said | Loose] = [*reading.loose, *reading.said]
    for figure in figures:
        if not PLAIN_FRACTION.search(reading.heard[figure.start : figure.end + 2]):
            continue
        reading.loose[:] = [f for f in reading.loose if f != figure]
        reading.said[:] = [s for s in reading.said if s != figure]
        reading.references.append(Reference("reference", figure.start, figure.end, figure.value))
        return figure.value if figure.value <= 1 else figure.value / 100
    return 1.0


def _shares_as_parts(facts: dict[str, Fact], members: Iterable[str]) -> None:
    """With one gone the percents no longer make a hundred: they go on as parts."""
    for member in members:
        fact = facts.pop(key_for("share", member), None)
        if fact is not None:
            facts[key_for("part", member)] = fact
