"""Two and more sides at once: "1:4 wax to oil", "3:2:1 mullein / plantain / mallow", "2:1:1 in that order", equal parts and shared figures."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from assistant.listening.ingredients import Name
from assistant.listening.pieces import Piece
from assistant.listening.statements import Loose

JOINERS = frozenset("a an my , ; and & + plus / with n : of the in to ( ) - . all tinctures tincture dried fresh <%>".split())
SLASHED = re.compile(r"^\d+(?:\.\d+)?(?:/\d+(?:\.\d+)?)+$")  # "40/35/25 echinacea, elder, ginger"
IN_ROWS = frozenset({"<#>", "<per>", "<money>", "<%>", "<:>"})
EQUALLY = ("equal", "even", "same", "equally")


def _sides_of(piece: Piece) -> tuple[float, ...]:
    item = piece.item
    return tuple(float(s) for s in item.alt) if item is not None and isinstance(item.alt, tuple) else ()


def two_sided(pieces: Sequence[Piece], tokens: Sequence[str], names: Mapping[int, Name]) -> tuple[int, Name, Name, tuple[float, float]] | None:
    """Two names joined by "to" (or "and", "/") with a two-sided ratio near; or "1 part wax to 5 of oil". Gives the place of the figure."""
    for one in names.values():
        behind = one.last
        if (
            behind + 1 in names
            and behind < len(tokens)
            and tokens[behind] in ("to", ":", "/", "-", "and")
            and not (tokens[behind] == "and" and "<g>" in tokens)
            and one.known
            and names[behind + 1].known
        ):
            two = names[behind + 1]
            places = (*range(two.last, min(two.last + 5, len(tokens))), *range(one.first - 1, max(-1, one.first - 5), -1))
            for at in places:
                if tokens[at] in (".", ";", "@"):
                    if at >= two.last:
                        continue
                    break
                sides = _sides_of(pieces[at])
                if tokens[at] == "<:>" and len(sides) == 2:
                    return at, one, two, (sides[0], sides[1])
    for at, token in enumerate(tokens):
        if token not in ("<part>", "<#>", "<g>"):
            continue
        one = names.get(at + 1) or (names.get(at + 2) if at + 1 < len(tokens) and tokens[at + 1] == "of" else None)
        if one is None or one.last >= len(tokens) or tokens[one.last] not in ("to", "per", "for") or (at > 0 and tokens[at - 1] == "to"):
            continue
        look = one.last + 1
        if look < len(tokens) and tokens[look] == "every":
            look += 1
        if look >= len(tokens) or tokens[look] not in ("<part>", "<#>", "<g>"):
            continue
        step = look + 1
        if step < len(tokens) and tokens[step] == "of":
            step += 1
        two = names.get(step)
        more = two is not None and two.last < len(tokens) and tokens[two.last] == "to"
        values = (pieces[at].item, pieces[look].item)
        if two is None or more or values[0] is None or values[1] is None or values[0].value is None or values[1].value is None:
            continue
        if "<part>" in (token, tokens[look]) or tokens[one.last] in ("per",):
            return None if token == "<g>" and tokens[one.last] == "to" else (look, one, two, (values[0].value, values[1].value))
    return None


def given_sides(
    pieces: Sequence[Piece], tokens: Sequence[str], names: Mapping[int, Name], run: Sequence[tuple[str, int, int]]
) -> tuple[int, list[tuple[str, int, int]], tuple[float, ...]] | None:
    """A row of sides with the names it belongs to: those beside it, else the list already found ("in that order")."""
    for at, token in enumerate(tokens):
        slashed = SLASHED.match(pieces[at].text.replace(" ", "")) if token == "<label>" else None
        if token not in ("<parts>", "<:>") and slashed is None:
            continue
        sides = _sides_of(pieces[at]) if slashed is None else tuple(float(s) for s in pieces[at].text.replace(" ", "").split("/"))
        if len(sides) < 2:
            continue
        if token == "<:>" and ("<g>" in tokens or "<oz>" in tokens):
            continue  # beside a weight a ratio is the plant's
        for owners in (_after(tokens, names, at + 1), _before(tokens, names, at)):
            if len(owners) == len(sides) and (token in ("<parts>", "<label>") or _close(tokens, at, owners)):
                return at, [(n.text, n.first, n.last) for n in owners], sides
        if len(run) == len(sides) and (token == "<parts>" or "order" in tokens):
            return at, list(run), sides
    return None


def _close(tokens: Sequence[str], at: int, owners: Sequence[Name]) -> bool:
    """Two names right beside a two-sided ratio, joined as a pair."""
    first, last = owners
    apart = first.first - at if first.first > at else at - last.last + 1
    return apart <= 3 and set(tokens[first.last : last.first]) & {"/", "and", "&", "n", "to"} != set() and "water" not in (first.text, last.text)


def rows_of(pieces: Sequence[Piece], tokens: Sequence[str], taken: set[int]) -> list[tuple[Loose, ...]]:
    """Rows of like figures without names: "0.14, 0.10 and 0.08 per mL", "40, 60 and 25 %"; the last one's unit is that of all."""
    rows: list[tuple[Loose, ...]] = []
    i = 0
    while i < len(tokens):
        run: list[int] = []
        at = i
        while at < len(tokens) and tokens[at] in IN_ROWS and at not in taken:
            run.append(at)
            step = at + 1
            while step < len(tokens) and step < at + 3 and tokens[step] in (",", "and", "&", "/", "n"):
                step += 1
            if step == at + 1:
                break
            at = step
        if len(run) >= 2 and len({tokens[r] for r in run} - {"<#>"}) <= 1:
            kind = next((tokens[r] for r in reversed(run) if tokens[r] != "<#>"), "<#>")[1:-1]
            rows.append(tuple(_figure(pieces[r], kind) for r in run))
            i = run[-1] + 1
        else:
            i += 1
    return rows


BOTTLES = frozenset("bottle bottles phial phials vial vials flask flasks tin tins jar jars".split())


def counted_sizes(pieces: Sequence[Piece], tokens: Sequence[str], taken: set[int]) -> tuple[float, int, int] | None:
    """ "two 100s and three 50s": the mL they hold together, with their place; the figures are taken."""
    pairs = [i for i in range(len(tokens) - 1) if tokens[i] == "<#>" and tokens[i + 1] == "<n>" and not {i, i + 1} & taken]
    if len(pairs) < 2:
        return None
    total = sum((pieces[i].item.value or 0.0) * (pieces[i + 1].item.value or 0.0) for i in pairs)  # type: ignore[union-attr]
    taken.update(j for i in pairs for j in (i, i + 1))
    return total, pieces[pairs[0]].start, pieces[pairs[-1] + 1].end


def sizes_of(pieces: Sequence[Piece], tokens: Sequence[str], taken: set[int]) -> tuple[Loose, ...]:
    """Bottles of several sizes: "100s, 50s and 30s", "250 and 100 mL bottles". Counted ones ("two 100s and a 50") are no choice of sizes."""
    i = 0
    while i < len(tokens):
        run: list[int] = []
        at = i
        while at < len(tokens) and tokens[at] in ("<n>", "<mL>", "<#>") and at not in taken:
            run.append(at)
            step = at + 1
            while step < len(tokens) and step < at + 3 and tokens[step] in (",", "and", "&", "/", "or", "n"):
                step += 1
            if step == at + 1:
                break
            at = step
        codes = [tokens[r] for r in run]
        end = run[-1] + 1 if run else i
        alike = all(c == "<n>" for c in codes) or (end < len(tokens) and tokens[end] in BOTTLES and "<mL>" in codes[-1:])
        if len(run) >= 2 and alike and not (run[0] > 0 and tokens[run[0] - 1] == "<#>"):
            taken.update(run)
            return tuple(_figure(pieces[r], "mL") for r in run)
        i = end if len(run) > 1 else i + 1
    return ()


def _figure(piece: Piece, kind: str) -> Loose:
    item = piece.item
    assert item is not None
    return Loose(kind, item.value or 0.0, item.unit, piece.start, piece.end, piece.text, frozenset(), item.low, item.high, item.said_unit, item.said)


def _after(tokens: Sequence[str], names: Mapping[int, Name], at: int) -> list[Name]:
    run: list[Name] = []
    steps = 0
    while at < len(tokens) and steps < 6:
        name = names.get(at)
        if name is not None and (name.known or run):
            run.append(name)
            at, steps = name.last, 0
        elif tokens[at] in JOINERS and not (tokens[at] == "." and run):
            at += 1
            steps += 1
        else:
            break
    return run


def _before(tokens: Sequence[str], names: Mapping[int, Name], at: int) -> list[Name]:
    run: list[Name] = []
    edge = at
    for name in sorted((n for n in names.values() if n.last <= at), key=lambda n: -n.first):
        between = tokens[name.last : edge]
        if len(between) > 6 or (run and not all(t in JOINERS for t in between)):
            break
        run.insert(0, name)
        edge = name.first
    return run


def equal_shares(tokens: Sequence[str], names: Mapping[int, Name]) -> tuple[list[Name], tuple[int, ...]]:
    """The names that are said to be equal, with the places of the shares that only say so.

    "equal parts of thyme and sage", "valerian and hops half and half", "40 mL each of …"
    """
    for at, token in enumerate(tokens):
        cue = token in EQUALLY and any(
            t.startswith(("part", "volume", "amount", "weight", "measure", "quantit")) or t in names for t in tokens[at + 1 : at + 3]
        )
        cue = (
            cue
            or token == "equally"
            or (token == "<share>" and tokens[at + 1 : at + 3] in (["and", "<share>"], ["n", "<share>"], ["/", "<share>"], ["-", "<share>"]))
        )
        each = token == "each" and at > 0 and tokens[at - 1] in ("<mL>", "<g>", "<oz>", "<part>") and (at + 1 in names or tokens[at + 1 : at + 2] == ["of"])
        of_each = token == "of" and tokens[at + 1 : at + 2] == ["each"] and at > 0 and tokens[at - 1] in ("<mL>", "<g>", "<oz>", "<part>")
        if not (cue or each or of_each):
            continue
        after = _after(tokens, names, min(at + (3 if token == "<share>" else 2), len(tokens)) if cue else at + 1)
        before = _before(tokens, names, at)
        for run in (after, before):
            if len(run) >= 2:
                return run, (at, at + 2) if token == "<share>" else ()
    return [], ()


def shared_figure(tokens: Sequence[str]) -> int | None:
    """The figure that each of them takes: "250 mL of each", "50 mL each of"; None where only their equality is said."""
    for at, token in enumerate(tokens):
        each = "each" in tokens[at + 1 : at + 3] or (at > 0 and tokens[at - 1] == "each")
        if token in ("<mL>", "<g>", "<oz>", "<part>") and each and not BOTTLES & set(tokens[max(0, at - 2) : at + 3]):
            return at
    return None
