"""Rules that can never speak, and rules that another always speaks over. Found from their conditions alone, before any sentence is spoken.

A condition is turned into the ways in which it can hold, each a row of claims that hold together. A way that contradicts itself is none; a
rule with no way left never fires. A rule is shadowed where another of its theme, as loud or louder, holds in each of its ways: it adds
nothing but a second line.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from assistant.cautions.conditions import And, Compare, Condition, Flagged, IsPart, IsPlant, Known, Not, OfKin, Or, Tagged
from assistant.cautions.fault import Fault
from assistant.cautions.plant import PlantList
from assistant.cautions.rules import LEVELS, Rule

Claim = tuple[Condition, bool]  # a claim, and whether it holds or is denied
Way = frozenset[Claim]
MOST_WAYS = 400  # of one condition; what has more is not looked into
_BELOW = ("under", "at most")
_ABOVE = ("over", "at least")
_AT_LIMIT = ("at least", "at most")


def ways(condition: Condition, holds: bool = True) -> list[Way]:
    """Every way in which a condition can hold (or, with `holds` False, fail to), as rows of claims; empty where there are too many to look into."""
    if isinstance(condition, Not):
        return ways(condition.part, not holds)
    if isinstance(condition, (And, Or)):
        every = [ways(part, holds) for part in condition.parts]
        if isinstance(condition, Or) == holds:
            return [way for some in every for way in some][: MOST_WAYS + 1]
        rows: list[Way] = [frozenset()]
        for some in every:
            rows = [row | way for row in rows for way in some]
            if len(rows) > MOST_WAYS:
                return []
        return rows
    return [frozenset({(condition, holds)})]


def never(rule: Rule, rivals: Mapping[str, frozenset[str]], plants: PlantList) -> str:
    """Why a rule can never speak; "" where it can."""
    all_ways = ways(rule.when)
    reasons = [contradiction(way, rivals, plants) for way in all_ways]
    if all_ways and all(reasons):
        return reasons[0]
    silencing = ways(rule.unless) if rule.unless is not None else []
    open_ways = [way for way, reason in zip(all_ways, reasons, strict=True) if not reason]
    if open_ways and all(any(_within(way, other) for other in silencing) for way in open_ways):
        return "its exception holds whenever it does"
    return ""


def contradiction(way: Way, rivals: Mapping[str, frozenset[str]], plants: PlantList) -> str:
    """What in a row of claims cannot hold together; "" where all can."""
    held = [claim for claim, holds in way if holds]
    for claim, holds in way:
        if not holds and any(implies(other, claim) for other in held):
            return "it wants a thing and its opposite"
    for n, one in enumerate(held):
        for other in held[n + 1 :]:
            reason = _apart(one, other, rivals)
            if reason:
                return reason
    return _no_such_plant(held, plants)


def _apart(one: Condition, other: Condition, rivals: Mapping[str, frozenset[str]]) -> str:
    if isinstance(one, Tagged) and isinstance(other, Tagged) and other.tag in rivals.get(one.tag, ()):
        return f"{one.tag} and {other.tag} exclude each other"
    if isinstance(one, Compare) and isinstance(other, Compare) and one.name == other.name:
        below, above = (one, other) if one.how in _BELOW else (other, one)
        if below.how in _BELOW and above.how in _ABOVE:
            touch = below.limit == above.limit and below.how in _AT_LIMIT and above.how in _AT_LIMIT
            if below.limit <= above.limit and not touch:
                return f"no {one.name.replace('_', ' ')} is {below.how} {below.limit:g} and {above.how} {above.limit:g}"
    for kind, names in ((IsPlant, "names"), (IsPart, "kinds")):
        if isinstance(one, kind) and isinstance(other, kind) and not set(getattr(one, names)) & set(getattr(other, names)):
            return "no plant is both" if kind is IsPlant else "no part is both"
    if isinstance(one, OfKin) and isinstance(other, OfKin) and one.rank == other.rank and not set(one.names) & set(other.names):
        return f"no plant is of both {'families' if one.rank == 'family' else 'genera'}"
    return ""


def _no_such_plant(held: Sequence[Condition], plants: PlantList) -> str:
    """The claims about one plant, held against every plant of the list."""
    named = [c for c in held if isinstance(c, IsPlant)]
    flags = [c.flag for c in held if isinstance(c, Flagged) and not c.other]
    kin = [c for c in held if isinstance(c, OfKin)]
    if (not named and len(flags) + len(kin) < 2) or (not flags and not kin):
        return ""
    for plant in plants:
        mine = all((plant.latin or plant.name.lower()) in c.names for c in named) and all(plant.flag(f) for f in flags)
        if mine and all((plant.family if c.rank == "family" else plant.genus) in c.names for c in kin):
            return ""
    return "no plant of the list is all of that"


def implies(one: Condition, other: Condition) -> bool:
    """Whether a claim that holds makes another hold."""
    if one == other:
        return True
    if isinstance(one, Compare):
        if isinstance(other, Known):
            return other.how == "known" and other.name == one.name
        if not isinstance(other, Compare) or one.name != other.name:
            return False
        for side, closer in ((_BELOW, -1), (_ABOVE, 1)):
            if one.how in side and other.how in side:
                gap = (one.limit - other.limit) * closer
                return gap > 0 or (gap == 0 and (other.how in _AT_LIMIT or one.how not in _AT_LIMIT))
        return False
    if isinstance(one, Known) and isinstance(other, Known):
        return one.name == other.name and other.how == "known"
    if isinstance(one, IsPlant) and isinstance(other, IsPlant):
        return set(one.names) <= set(other.names)
    if isinstance(one, IsPart) and isinstance(other, IsPart):
        return set(one.kinds) <= set(other.kinds)
    return isinstance(one, OfKin) and isinstance(other, OfKin) and one.rank == other.rank and set(one.names) <= set(other.names)


def _within(way: Way, wider: Way) -> bool:
    """Whether a way makes every claim of a wider one hold."""
    return all(any(holds == held and (implies(mine, claim) if holds else implies(claim, mine)) for mine, held in way) for claim, holds in wider)


def shadows(loud: Rule, rule: Rule) -> bool:
    """Whether `loud` speaks whenever `rule` does, as loudly, on the same theme."""
    if loud.id == rule.id or loud.theme != rule.theme or LEVELS.index(loud.level) > LEVELS.index(rule.level):
        return False
    mine, theirs = ways(rule.when), ways(loud.when)
    if not mine or not theirs or not all(any(_within(way, wider) for wider in theirs) for way in mine):
        return False
    silenced = ways(loud.unless) if loud.unless is not None else []
    my_silence = ways(rule.unless) if rule.unless is not None else []
    return all(any(_within(way, wider) for wider in my_silence) for way in silenced)


def shadowed(rules: Sequence[Rule]) -> list[tuple[Rule, Rule]]:
    """(a rule, the rule that always speaks over it)."""
    return [(rule, loud) for rule in rules for loud in rules if shadows(loud, rule)]


def faults_of(own: Iterable[Rule], everyone: Sequence[Rule], rivals: Mapping[str, frozenset[str]], plants: PlantList) -> list[Fault]:
    """What is unsound in some rules: those that never speak, and those that another rule of `everyone` always speaks over."""
    faults: list[Fault] = []
    for rule in own:
        reason = never(rule, rivals, plants)
        if reason:
            faults.append(Fault(f"{rule.id} can never speak: {reason}", rule.file, rule.line, 1, try_this="change what stands behind “when”"))
        for loud in everyone:
            if shadows(loud, rule):
                what = f"{rule.id} adds nothing: {loud.id} speaks whenever it does"
                faults.append(Fault(what, rule.file, rule.line, 1, try_this="make it narrower, or leave it out"))
                break
    return faults
