"""Two and more sides at once: "1:4 wax to oil", "3:2:1 mullein / plantain / mallow", "2:1:1 in that order", equal parts and shared figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from assistant.listening.ingredients import Name
from assistant.listening.pieces import Piece
from assistant.listening.statements import Loose
from assistant.patterns import looked_for

JOINERS = frozenset("a an my , ; and & + plus / with n : of the in to ( ) - . all tinctures tincture dried fresh <%>".split())
SLASHED = looked_for(r"^\d+(?:\.\d+)?(?:/\d+(?:\.\d+)?)+$")  # "40/35/25 echinacea, elder, ginger"
COUNTED = frozenset("tin tins jar jars bottle bottles pot pots tub tubs tube tubes stick sticks cup cups bag bags".split())
IN_ROWS = frozenset({"<#>", "<per>", "<money>", "<%>", "<:>"})
MEASURES = ("part", "volume", "amount", "weight", "measure", "quantit")
SHARED = frozenset({"<mL>", "<g>", "<oz>", "<part>", "<drop>"})  # figures that each of several may take
BEHIND_EQUAL = frozenset("in for to into , . ; :".split())  # "cleavers, nettle and calendula equal in a 120 mL bottle"
EQUALLY = ("equal", "even", "same", "equally")


def _sides_of(piece: Piece) -> tuple[float, ...]:
    item = piece.item
    return tuple(float(s) for s in item.alt) if item is not None and isinstance(item.alt, tuple) else ()


Sided = tuple[int, Name, Name, tuple[float, float]]  # place of the figure, both names, both sides


def two_sided(pieces: Sequence[Piece], tokens: Sequence[str], names: Mapping[int, Name]) -> Sided | None:
    """Two names joined by "to" (or "and", "/") with a two-sided ratio near; or "1 part wax to 5 of oil"."""
    return _ratio_near(pieces, tokens, names) or _part_to_part(pieces, tokens, names)


def _ratio_near(pieces: Sequence[Piece], tokens: Sequence[str], names: Mapping[int, Name]) -> Sided | None:
    for one in names.values():
        behind = one.last
        two = names.get(behind + 1)
        if (
            two is None
            or not one.known
            or not two.known
            or two.text.startswith("lot ")
            or tokens[behind] not in ("to", ":", "/", "-", "and")
            or (tokens[behind] == "and" and "<g>" in tokens)
        ):
            continue
        before = one.first - 1
        if before >= 0 and tokens[before] == "<:>" and len(right := _sides_of(pieces[before])) == 2:
            return before, one, two, (right[0], right[1])  # "made 1 to 8 beeswax to oil, I want it 1 to 5"
        for at in (*range(two.last, min(two.last + 5, len(tokens))), *range(one.first - 1, max(-1, one.first - 5), -1)):
            if tokens[at] in (".", ";", "@") and at < one.first:
                break
            sides = _sides_of(pieces[at])
            if tokens[at] == "<:>" and len(sides) == 2:
                if tokens[behind] in ("and", "/") and "wax" in two.text and "wax" not in one.text and sides[0] < sides[1]:
                    return at, one, two, (sides[1], sides[0])  # "oil and beeswax 1 to 6": it is wax to oil
                return at, one, two, (sides[0], sides[1])
    return None


def _part_to_part(pieces: Sequence[Piece], tokens: Sequence[str], names: Mapping[int, Name]) -> Sided | None:
    for at, token in enumerate(tokens):
        if token not in ("<part>", "<#>") or (at > 0 and tokens[at - 1] == "to"):
            continue
        one = _named_behind(tokens, names, at + 1)
        if one is None or one.last + 1 >= len(tokens) or tokens[one.last] not in ("to", "per", "for"):
            continue
        look = one.last + (2 if tokens[one.last + 1] == "every" else 1)
        if look >= len(tokens) or tokens[look] not in ("<part>", "<#>"):
            continue
        two = _named_behind(tokens, names, look + 1)
        first, second = pieces[at].item, pieces[look].item
        if two is None or first is None or second is None or first.value is None or second.value is None:
            continue
        goes_on = two.last < len(tokens) and tokens[two.last] == "to"
        if not goes_on and ("<part>" in (token, tokens[look]) or tokens[one.last] == "per"):
            return look, one, two, (first.value, second.value)
    return None


def _named_behind(tokens: Sequence[str], names: Mapping[int, Name], at: int) -> Name | None:
    """The name at a place, or behind an "of" there."""
    return names.get(at) or (names.get(at + 1) if at < len(tokens) and tokens[at] == "of" else None)


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
        if token == "<:>" and ("<g>" in tokens or "<oz>" in tokens) and (len(sides) != 2 or sides[0] <= sides[1]):
            continue  # beside a weight a ratio is the plant's; but no more plant than is poured on it: "marshmallow and liquorice 3:1, 200 g"
        for owners in (_after(tokens, names, at + 1), _before(tokens, names, at)):
            if len(owners) == len(sides) and (token in ("<parts>", "<label>") or _close(tokens, at, owners)):
                return at, [(n.text, n.first, n.last) for n in owners], sides
        if len(run) == len(sides) and (token == "<parts>" or "order" in tokens or _of_what_is_there(tokens, at, run)):
            return at, list(run), sides
    return None


WANTS = frozenset("want wanted need make making mix mixed blend at in as formula recipe parts them it ratio".split())
THERE = frozenset("have got shelf hand i've there's stock left".split())


def _of_what_is_there(tokens: Sequence[str], at: int, run: Sequence[tuple[str, int, int]]) -> bool:
    """ "Have 300 mL hawthorn 200 mL linden, want 2:1": the amounts are the shelf's, so the one ratio behind them tells the parts."""
    first, last = run[0][1], run[-1][2]
    return last <= at and tokens.count("<:>") == 1 and tokens[at - 1] in WANTS and bool(set(tokens[max(0, first - 5) : first]) & THERE)


def _close(tokens: Sequence[str], at: int, owners: Sequence[Name]) -> bool:
    """Two names right beside a two-sided ratio, joined as a pair."""
    first, last = owners
    apart = first.first - at if first.first > at else at - last.last + 1
    return apart <= 3 and set(tokens[first.last : last.first]) & {"/", "and", "&", "n", "to"} != set() and "water" not in (first.text, last.text)


def counts_vessels(tokens: Sequence[str], at: int) -> bool:
    """Whether a bare number counts vessels: "1 to 4, and 20 tins", "22 %, ten 30 mL tins"."""
    behind = tokens[at + 2 : at + 3] if tokens[at + 1 : at + 2] in (["<mL>"], ["<g>"]) else tokens[at + 1 : at + 2]
    return tokens[at] == "<#>" and bool(COUNTED.intersection(behind))


def rows_of(pieces: Sequence[Piece], tokens: Sequence[str], taken: set[int]) -> list[tuple[Loose, ...]]:
    """Rows of like figures without names: "0.14, 0.10 and 0.08 per mL", "40, 60 and 25 %"; the last one's unit is that of all."""
    rows: list[tuple[Loose, ...]] = []
    i = 0
    while i < len(tokens):
        run: list[int] = []
        at = i
        while at < len(tokens) and tokens[at] in IN_ROWS and at not in taken and not (run and counts_vessels(tokens, at)):
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


def _value(piece: Piece) -> float:
    return 0.0 if piece.item is None or piece.item.value is None else piece.item.value


def counted_sizes(pieces: Sequence[Piece], tokens: Sequence[str], taken: set[int]) -> tuple[float, int, int] | None:
    """ "two 100s and three 50s": the mL they hold together, with their place; the figures are taken."""
    pairs = [i for i in range(len(tokens) - 1) if tokens[i] == "<#>" and tokens[i + 1] == "<n>" and not {i, i + 1} & taken]
    if len(pairs) < 2:
        return None
    total = sum(_value(pieces[i]) * _value(pieces[i + 1]) for i in pairs)
    taken.update(j for i in pairs for j in (i, i + 1))
    return total, pieces[pairs[0]].start, pieces[pairs[-1] + 1].end


LEAST_BOTTLE = 5.0  # mL
LARGEST_DOSE = 15.0  # mL: a tablespoon


def sizes_of(pieces: Sequence[Piece], tokens: Sequence[str], taken: set[int]) -> tuple[Loose, ...]:
    """Bottles of several sizes: "100s, 50s and 30s", "250 and 100 mL bottles". Counted ones ("two 100s and a 50") are no choice of sizes."""
    i = 0
    dosed = "<x>" in tokens or "<aday>" in tokens
    while i < len(tokens):
        if i and tokens[i] == "<#>" and tokens[i - 1] in ("@", "at", "spirit", "<%>"):
            i += 1  # "ginger 20, 100 mL bottle": the ginger's; "gin at 37.5, 700 mL bottle": its strength
            continue
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
        if not run:
            i += 1
            continue
        codes = [tokens[r] for r in run]
        end = run[-1] + 1
        alike = all(c == "<n>" for c in codes) or (end < len(tokens) and tokens[end] in BOTTLES and "<mL>" in codes[-1:])
        led = run[0] - 1
        while led > 0 and tokens[led] in (":", "of", "in", "are"):
            led -= 1
        alike = alike and all(_value(pieces[r]) >= LEAST_BOTTLE for r in run)  # "lavender 2, 100 mL bottle": the 2 is a part
        alike = alike and not (dosed and min(_value(pieces[r]) for r in run) <= LARGEST_DOSE)  # "3 times a day 5 ml, 100 ml bottle": the 5 is a dose
        alike = alike or (len(run) >= 2 and led >= 0 and tokens[led] in BOTTLES and all(_value(pieces[r]) >= LEAST_BOTTLE for r in run))
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
        cue = (
            (token in EQUALLY and (at + 1 in names or at + 2 in names or any(t.startswith(MEASURES) for t in tokens[at + 1 : at + 3])))
            or token == "equally"
            or (token == "equal" and tokens[at + 1 : at + 2] != [] and tokens[at + 1] in BEHIND_EQUAL and any(n.last == at for n in names.values()))
            or (token == "<share>" and tokens[at + 1 : at + 3] in (["and", "<share>"], ["n", "<share>"], ["/", "<share>"], ["-", "<share>"]))
        )
        shared = token == "each" and at > 0 and tokens[at - 1] in SHARED
        each = shared and (at + 1 in names or tokens[at + 1 : at + 2] == ["of"] or _names_of_a_row(tokens, at + 1))
        of_each = token == "of" and tokens[at + 1 : at + 2] == ["each"] and at > 0 and tokens[at - 1] in SHARED
        if not (cue or each or of_each):
            continue
        step = 3 if token == "<share>" else 1 if not cue or (at + 1 in names and names[at + 1].known) else 2  # "equal burdock and cleavers", "equal parts of …"
        after = _after(tokens, names, min(at + step, len(tokens)))
        before = _before(tokens, names, at)
        for run in (after, before):
            if len(run) >= 2:
                return run, (at, at + 2) if token == "<share>" else ()
    return [], ()


def _names_of_a_row(tokens: Sequence[str], at: int) -> bool:
    """ "50 mL each: hawthorn, linden, motherwort": behind the colon stand names alone."""
    return tokens[at : at + 1] == [":"] and not any(t.startswith("<") for t in tokens[at + 1 : at + 5])


def said_equal(tokens: Sequence[str]) -> bool:
    """Whether the words say equal parts, whatever of."""
    return any(t == "equally" or (t in ("equal", "even") and tokens[i + 1 : i + 2] and tokens[i + 1].startswith(MEASURES)) for i, t in enumerate(tokens))


def shared_figure(tokens: Sequence[str]) -> int | None:
    """The figure that each of them takes: "250 mL of each", "50 mL each of"; None where only their equality is said."""
    for at, token in enumerate(tokens):
        each = "each" in tokens[at + 1 : at + 3] or (at > 0 and tokens[at - 1] == "each")
        if token in SHARED and each and not BOTTLES & set(tokens[max(0, at - 2) : at + 3]):
            return at
    return None
