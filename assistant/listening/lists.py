"""Recipes: runs of ingredients with their parts, percents, weights or volumes, in either order.

"thyme three parts, elecampane two", "3 parts hawthorn 2 parts linden", "oil 70, wax 15", "3:2:1 mullein / plantain / mallow", "1 part wax to
5 oil", "half valerian, half hops", "equal parts of thyme and sage", "40 mL of each". Behind an ingredient may stand its strength, its ratio
or its price. Several runs in one breath belong to one recipe: what is on the shelf, and the parts.
"""

from __future__ import annotations

from assistant.listening.common import COMMON
from assistant.listening.ingredients import POURED, STUFF, Name, called, names_in
from assistant.listening.lines import JOINS, QUANTITY_OF, Line, Row, amount_first, extras_behind, following, name_first
from assistant.listening.list_strengths import bare_strengths, given_back
from assistant.listening.no_recipe import is_a_jar, is_a_pour
from assistant.listening.pieces import Piece
from assistant.listening.sides import counted_sizes, equal_shares, given_sides, rows_of, said_equal, shared_figure, two_sided
from assistant.listening.statements import Ingredient, Loose, Named, Reading, Reference, Said

# Words before a run by which it tells what is there to use, not what goes in.
ON_HAND = frozenset("shelf have have_got i've got left stock hand cupboard own pantry there's remaining we've".split())
ADDING = frozenset("add added adding chuck chucked throw threw toss tossed tip tipped put stir stirred bung plus mix".split())
FIXED_KINDS = frozenset({"<mL>", "<%>", "<cup>", "<g>", "<oz>"})
WEAKEST = 20.0  # percent: no tincture is weaker
# Words between a list and the one that takes the rest of the bottle.
LEADS_TO_REST = frozenset("the rest remainder balance of it is top topped up fill filled made bottle just a an my that phial flask".split())
BEFORE_A_VESSEL = frozenset("to a an the my that in".split())
IN_HAND = frozenset({"formula", "mix", "salve", "tea", "written", "bought"})


def read_list(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """Put the ingredients of a sentence into `reading.ingredients`; the figures used are marked as taken.

    context   frames of the batch in hand and of the sentence: where a recipe is in hand a single line may add to it
    """
    from assistant.listening.phrases import phrase_book

    row = Row(pieces, tokens, names_in(pieces, frozenset(phrase_book().words), COMMON), taken)
    counted = counted_sizes(pieces, tokens, taken)
    if counted is not None:
        total, start, end = counted
        reading.said.append(Said("blend", total, start, end, phrase=0))
    reading.mentions = [Named(n.text, pieces[n.first].start, pieces[n.last - 1].end) for n in row.names.values() if n.known]
    if "vinegar" in context and tokens.count("<g>") == 1 and any(tokens[i : i + 3] == ["<g>", "<%>", "water"] for i in range(len(tokens))):
        return  # "nettle 300 g 85 % water, 900 mL cider vinegar": the plant's own water, and what is poured on it
    runs = _runs(row, context)
    lines = [line for run in runs for line in run]
    if lines or context & IN_HAND:
        reading.rows.extend(rows_of(row.pieces, row.tokens, taken | {line.at for line in lines} | {at for line in lines for _, at in line.extras}))
        taken.update(i for figures in reading.rows for i in _places(figures, pieces))
    if not lines or is_a_pour(lines, tokens) or is_a_jar(lines, tokens):
        return
    _keep(runs, row, reading)
    for i in row.cues:
        taken.add(i)
        reading.references.append(Reference("reference", pieces[i].start, pieces[i].end))
    reading.frames.add("listed")
    if len(reading.ingredients) > 1 and any("wax" in i.name.split() or "beeswax" in i.name for i in reading.ingredients):
        reading.frames.add("salve")


def _places(figures: tuple[Loose, ...], pieces: list[Piece]) -> list[int]:
    starts = {f.start for f in figures}
    return [i for i, p in enumerate(pieces) if p.start in starts]


def _runs(row: Row, context: frozenset[str]) -> list[list[Line]]:
    first = _two(row) or _equal(row) or _best_run(row)
    sides = _sides(row, first) if not any(line.kind == "side" for line in first) else []
    found = [run for run in (first, sides) if run]
    if first:
        used = {line.at for line in first} | {at for line in first for _, at in line.extras} | set(row.cues)
        row.own = frozenset(line.name for line in first)
        second = _best_run(row, skip=used, among=set(row.own))
        into_it = any(line.kind in FIXED_KINDS and line.at and row.tokens[line.at - 1] in ("in", "into") for line in second)
        if second and not (into_it and any(line.kind == "<%>" for line in first)):  # "10 % cayenne in 60 mL, rest sage": the whole
            found.insert(1, second)
    if len(found) == 1 and first and {line.kind for line in first} <= {"<mL>", "<g>"} and _on_hand(row, first) and said_equal(row.tokens):
        found.append([Line(line.name, "equal", -1, line.first, line.last, value=1.0) for line in first])  # "200 g nettle, 150 g oat on hand. equal parts"
    if first and first[0].kind in FIXED_KINDS | {"<part>"}:
        first += _joined_later(row, first)
    if not found and context & IN_HAND:
        found += _added(row)
    if any(line.kind in ("side", "equal", "rest") for run in found for line in run):
        found += _alone(row, found)
    return found


def _on_hand(row: Row, run: list[Line]) -> bool:
    """Whether the words around a run say that it tells what there is."""
    return bool({*row.tokens[max(0, run[0].first - 6) : run[0].first], *_behind(row, run[-1].last)} & ON_HAND)


def _added(row: Row) -> list[list[Line]]:
    """One line more for the recipe in hand: "add 1 part ginger", "and two parts mint"."""
    for at in range(len(row.pieces)):
        line = amount_first(row, at)
        added = line is not None and (bool(ADDING & set(row.tokens[:at])) or _into_it(row.tokens[line.last :]))
        if line is not None and line.known and (line.kind == "<part>" or (added and line.kind in FIXED_KINDS)):
            return [[line]]
    return []


def _into_it(behind: list[str]) -> bool:
    """ "… and 50 mL of water in that": behind the line, what is in hand."""
    words = [t for t in behind[:5] if t not in ("of", "the", "a", "all")]
    return len(words) >= 2 and words[0] in ("in", "into", "to") and words[1] in ("that", "it", "them", "this", "mix", "blend", "lot")


def _joined_later(row: Row, run: list[Line]) -> list[Line]:
    """ "… rosehip 45 g. add 20 g ginger": one more of the list, said behind it with a verb."""
    for at in range(run[-1].last + 1, len(row.pieces)):
        line = amount_first(row, at) if row.tokens[at - 1] in ADDING else None
        if line is not None and line.known and line.kind == run[0].kind and not called(line.name, [r.name for r in run]):
            return [line]
    return []


def _alone(row: Row, found: list[list[Line]]) -> list[list[Line]]:
    """One fixed amount beside a run of parts: "10 mL goldenseal, the rest echinacea and elder 2:1"."""
    names, used = {line.name for run in found for line in run}, {line.at for run in found for line in run}
    for build in (amount_first, name_first):
        for at in range(len(row.pieces)):
            line = build(row, at)
            if line is None or line.at in used or not line.known or line.kind not in FIXED_KINDS:
                continue
            if not called(line.name, list(names)) and line.name not in ("water", "moisture", "tea"):
                return [[line]]
    return []


# ── shapes ───────────────────────────────────────────────────────────────────────────────────────────────────────────────


def _two(row: Row) -> list[Line]:
    """ "1:4 wax to oil", "wax to oil one to six", "1 part wax to 5 oil"."""
    found = two_sided(row.pieces, row.tokens, row.names)
    if found is None:
        return []
    at, one, two, values = found
    return [Line(n.text, "side", at, n.first, n.last, value=v) for n, v in zip((one, two), values, strict=True)]


def _equal(row: Row) -> list[Line]:
    """ "equal parts of thyme, sage and mint", "50 mL each of thyme and sage", "half and half valerian and hops"."""
    same, cues = equal_shares(row.tokens, row.names)
    same = _without_its_own_percent(row, same)
    if len(same) >= 2:
        row.cues = cues
        lines = [Line(n.text, "equal", -1, n.first, n.last, _before(row, n), value=1.0) for n in same]
        each = shared_figure(row.tokens)
        if each is not None:
            for line in lines:
                line.at, line.kind, line.value = each, row.tokens[each], None
        return lines
    return []


def _without_its_own_percent(row: Row, same: list[Name]) -> list[Name]:
    """ "Equal burdock, clover and cleavers, plus ginger at 5 %": weaker than any tincture, so it is how much of the whole, and no equal part."""
    percents = [i for i, t in enumerate(row.tokens) if t == "<%>" and i not in row.taken]
    item = row.pieces[percents[0]].item if len(percents) == 1 else None
    if item is None or item.value is None or item.value >= WEAKEST or len(same) < 3:
        return same
    at = percents[0]

    def own(name: Name) -> bool:
        if 0 < name.first - at <= 2:
            return set(row.tokens[at + 1 : name.first]) <= {"of"}
        return 0 <= at - name.last <= 2 and set(row.tokens[name.last : at]) <= {"at", "is", "only"}

    return [n for n in same if not own(n)]


def _before(row: Row, name: Name) -> list[tuple[str, int]]:
    """A strength right before a name: "equal volumes of a 40 % skullcap and a 90 proof hops"."""
    at = name.first - 1
    return [("strength_of", at)] if at >= 0 and row.tokens[at] == "<%>" and at not in row.taken else []


def _sides(row: Row, run: list[Line]) -> list[Line]:
    """ "3:2:1" beside as many names, or behind a list "in that order"."""
    names = [(line.name, line.first, line.last) for line in run]
    found = given_sides(row.pieces, row.tokens, row.names, names)
    if found is None:
        return []
    at, owners, values = found
    return [Line(name, "side", at, first, last, extras_behind(row, last, "side")[1], value=v) for (name, first, last), v in zip(owners, values, strict=True)]


def _best_run(row: Row, skip: set[int] = frozenset(), among: set[str] = frozenset()) -> list[Line]:  # type: ignore[assignment]
    needed = 2 if not among else max(2, len(among) - 1)
    figures = sum(token in QUANTITY_OF and at not in row.taken and at not in skip for at, token in enumerate(row.tokens))
    if figures + 1 < needed:  # each line has a figure of its own, but one that takes the rest
        return []
    best: list[Line] = []
    for build in (amount_first, name_first):
        i = 0
        while i < len(row.pieces):
            line = build(row, i)
            if line is None or line.at in skip or (among and not called(line.name, list(among))):
                i += 1
                continue
            run = [line]
            while (ahead := following(row, build, run)) is not None and ahead.at not in skip:
                run.append(ahead)
            if _is_the_whole(run):
                run.pop()
            elif _is_the_whole(run[::-1]) and all(r.kind == "<#>" for r in run[1:]):
                run.pop(0)
            _told_apart(run)
            if len({r.name for r in run}) == len(run) and _sound(run) and _worth(run, row) > _worth(best, row):
                best = run
            i = run[-1].last if len(run) > 3 else i + 1
    if best:
        _rest_line(row, best)
    return best if len(best) >= needed else []


def _told_apart(run: list[Line]) -> None:
    """ "60 mL of 1:5 elder into 90 mL of 1:3 elder": two of one plant, told apart by what is said of them."""
    seen: list[str] = []
    for line in run:
        if line.name in seen and line.kind == "<mL>" and line.extras:
            line.name += f" ({'second' if seen.count(line.name) == 1 else 'third'})"
        seen.append(line.name)


def _is_the_whole(run: list[Line]) -> bool:
    """ "… and 1 part calendula to 300 g of tea", "300 g tea, 3 nettle 2 mint": beside parts, a weight of tea is what they come to, not one more of them."""
    return run[-1].name == "tea" and run[-1].kind in ("<g>", "<oz>") and len(run) > 2 and all(r.kind in ("<part>", "<#>", "<share>", "<%>") for r in run[:-1])


def _worth(run: list[Line], row: Row) -> tuple[int, int, int]:
    """The longer run is meant; of two as long the one whose percents make a hundred, then the one of one kind of figure.

    "… of tea, 5 lemon balm 3 lime 1 rose": tea that stands before the figures of a list is what is made, and counts for nothing.
    """
    percents = [row.pieces[line.at].item.value or 0.0 for line in run if line.kind == "<%>" and row.pieces[line.at].item is not None]  # type: ignore[union-attr]
    made = bool(run) and run[0].name == "tea" and run[0].at > run[0].first and run[0].kind in ("<#>", "<part>")
    return len(run) - made, int(bool(percents) and abs(sum(percents) - 100) < 0.5), -len({line.kind for line in run})


def _sound(run: list[Line]) -> bool:
    """A list of strangers alone is none; a plant and what is poured on it are a batch, not a list; "80 % water" is the plant's."""
    if not any(line.known for line in run):
        return False
    if any(line.kind == "<%>" and line.name in ("water", "moisture") for line in run):
        return False
    poured = [line for line in run if line.name.split()[-1] in POURED and line.kind in ("<mL>", "<cup>", "<oz>", "<g>")]
    priced = any(q == "price_of" for line in run for q, _ in line.extras)
    return priced or not (
        len(run) == 2 and len(poured) == 1 and any(line.kind in ("<g>", "<oz>") and line not in poured and line.name.split()[-1] not in STUFF for line in run)
    )


def _rest_line(row: Row, run: list[Line]) -> None:
    """ "… and peppermint for the rest": the last ingredient takes what is left."""
    tokens, at = row.tokens, run[-1].last
    while at < len(tokens) and (tokens[at] in JOINS | LEADS_TO_REST or (tokens[at] in ("<mL>", "<#>") and tokens[at - 1] in BEFORE_A_VESSEL)):
        at += 1
    name = row.names.get(at)
    if name is None or name.text in {line.name for line in run}:
        return
    ahead, between = tokens[name.last : name.last + 4], tokens[run[-1].last : at]
    marks = {"rest", "remainder", "balance"}
    fills = {"fill", "fills", "tops", "filling"} & set(ahead[:3]) and "up" in ahead
    if (
        fills
        or marks & set(ahead[:3])
        or ahead[:2] in (["to", "fill"], ["to", "make"])
        or marks & set(between)
        or {"fill", "filled"} & set(between)
        or {"up", "top", "topped"} & set(between)
    ):
        end = name.last
        while (
            end < len(tokens)
            and end < name.last + 3
            and tokens[end] in ("for", "the", "as", "rest", "remainder", "balance", "to", "fill", "fills", "tops", "up", "just")
        ):
            end += 1
        run.append(Line(name.text, "rest", -1, at, end, known=name.known))


def _keep(runs: list[list[Line]], row: Row, reading: Reading) -> None:
    gathered: dict[str, list[tuple[str, float, int, int]]] = {}
    spans: dict[str, tuple[int, int]] = {}
    kinds = {line.kind for run in runs for line in run}
    several = len(runs) > 1
    bare_strengths(runs, row)
    for run in runs:
        numbers = [row.pieces[line.at].item.value for line in run if line.kind == "<#>"]  # type: ignore[union-attr]
        shares = len(numbers) == len(run) and abs(sum(n or 0 for n in numbers) - 100) < 0.5 and any(t in ("%", "percent") for t in row.tokens)
        shelf = _on_hand(row, run) and (several or "side" in kinds) and run[0].kind in ("<mL>", "<g>", "<oz>")
        first = run[0].kind
        carried = QUANTITY_OF[first] if first in ("<mL>", "<g>", "<%>") and all(line.kind in (first, "<#>") for line in run) else ""
        if carried == "share":
            _the_whole_before(run, row, reading)
        if first == "<#>" and run[-1].kind == "<%>":
            carried = "share"
        fluid = any(line.poured and line.kind == "<oz>" for line in run)
        for line in run:
            owner = called(line.name, list(gathered)) or line.name
            figures = gathered.setdefault(owner, [])
            piece = row.pieces[line.at] if line.at >= 0 else row.pieces[line.first]
            spans.setdefault(owner, (piece.start, row.pieces[line.last - 1].end))
            figures.extend(_figures(line, piece, shares, shelf, several and "side" in kinds, fluid and line.kind == "<oz>", carried))
            if line.at >= 0:
                row.taken.add(line.at)
            for quantity, at in line.extras:
                extra = row.pieces[at].item
                if line.kind in ("<share>", "<part>"):
                    given_back(row.pieces[at].start, at, row, reading)
                if extra is not None and extra.value is not None and at not in row.taken:
                    figures.append((quantity, extra.value, row.pieces[at].start, row.pieces[at].end))
                    row.taken.add(at)
    for name, figures in gathered.items():
        reading.ingredients.append(Ingredient(name, tuple(figures), *spans[name]))


def _the_whole_before(run: list[Line], row: Row, reading: Reading) -> None:
    """ "150 mL of nettle 35 %, dandelion 30, cleavers 35": percents of each behind its name, so what stands before the first is what it all comes to."""
    at = run[0].first - 1
    if at >= 0 and row.tokens[at] == "of":
        at -= 1
    named_first = all(line.at > line.first for line in run)
    percents = [item.value or 0.0 for line in run if (item := row.pieces[line.at].item) is not None]
    several = len(run) >= 3 or abs(sum(percents) - 100) < 0.5
    if at < 0 or not several or not named_first or at in row.taken or row.tokens[at] not in ("<mL>", "<g>"):
        return
    piece = row.pieces[at]
    if piece.item is not None and piece.item.value is not None:
        row.taken.add(at)
        whole = "blend" if row.tokens[at] == "<mL>" else "batch"
        reading.said.append(Said(whole, piece.item.value, piece.start, piece.end, said_unit=piece.item.said_unit, phrase=0))


def _behind(row: Row, at: int) -> list[str]:
    """The words of the clause behind a run."""
    words: list[str] = []
    while at < len(row.tokens) and row.tokens[at] not in (".", ";", "?", ",", "!") and len(words) < 6:
        words.append(row.tokens[at])
        at += 1
    return words


def _figures(line: Line, piece: Piece, shares: bool, shelf: bool, beside_parts: bool, fluid: bool, carried: str) -> list[tuple[str, float, int, int]]:
    if line.kind == "rest":
        return [("rest", 0.0, piece.start, piece.end)]
    if line.kind in ("side", "equal"):
        return [("part", float(line.value or 0.0), piece.start, piece.end if line.at >= 0 else piece.start)]
    item = piece.item
    if item is None or item.value is None:
        return []
    quantity, value = QUANTITY_OF[line.kind], item.value
    if fluid and isinstance(item.alt, (int, float)):
        quantity, value = "volume", float(item.alt)  # ounces of tincture are fluid ounces
    if line.kind == "<#>" and carried:
        quantity = carried  # "passionflower 35 mL, hops 15, valerian 50"
    if line.kind == "<#>" and shares:
        quantity = "share"
    if line.kind == "<share>":
        quantity, value = "share", value * (100 if value <= 1 else 1)
    if line.kind == "<%>" and beside_parts:
        quantity = "strength_of"  # "2:1:1, rosemary (70 %), skullcap (40 %)": the parts are said, the percents are strengths
    if shelf:
        quantity = {"volume": "have", "weight": "have_weight"}.get(quantity, quantity)  # "i have 400 g oil, 1 part wax to 5": the parts stay parts
    return [(quantity, value, piece.start, piece.end)]


__all__ = ["read_list"]
