"""Recipes: runs of ingredients with their parts, percents, weights or volumes, in either order.

"thyme three parts, elecampane two", "3 parts hawthorn 2 parts linden", "oil 70, wax 15", "3:2:1 mullein / plantain / mallow",
"1 part wax to 5 oil". Behind an ingredient may stand its strength, its ratio or its price.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from assistant.listening.pieces import Piece
from assistant.listening.statements import Ingredient, Reading

# Things that go into a recipe and are no plants.
STUFF = frozenset(
    """oil wax beeswax shea lanolin cocoa butter sugar honey decoction glycerine glycerin vinegar water brandy vodka rum clay starch candelilla carnauba jojoba coconut
    olive sunflower almond castor resin propolis salt borax aloe emulsifier preservative vitamin cream infusion tincture syrup spirit alcohol essential""".split()
)
SPIRIT_NAMES = frozenset("brandy vodka rum gin whisky whiskey spirit alcohol".split())
DESCRIBES = frozenset(
    """root roots leaf leaves flower flowers peel bark berry berries seed seeds petals herb tops tincture extract oil wax butter essential infused powder powdered rind
    juice bud buds fruit fluid dried fresh""".split()
)
JOINS = frozenset(", ; and & + plus / then with also n to . :".split())
BETWEEN_FIRST = frozenset("of the a an my our fresh dried dry".split())
BETWEEN_NAME = frozenset("at is are goes gets with - : = being only just about = takes in part".split())
KIND_TO_QUANTITY = {"<part>": "part", "<%>": "share", "<mL>": "volume", "<g>": "weight", "<oz>": "weight", "<#>": "part", "<drop>": "eo_drops_of", "<share>": "fraction"}
FILLERS_OF_A_NAME = frozenset("made on in from with using a the".split())


@dataclass
class Line:
    """One pair of a name and its figure, with the places it covers."""

    name: str
    kind: str
    at: int
    first: int
    last: int
    extras: list[tuple[str, int]]


def read_list(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """Find the longest run of ingredients and put it into `reading.ingredients`, its figures marked as taken."""
    names = dict(_names(pieces, reading))
    lines = _ratio_of_names(pieces, tokens, names) or _parts_of_names(pieces, tokens, names) or _best_run(pieces, tokens, names, taken)
    if not lines:
        return
    _keep(lines, pieces, taken, reading)


def _names(pieces: list[Piece], reading: Reading) -> Iterator[tuple[int, tuple[int, str]]]:
    """Where names stand: first place → (place behind, name)."""
    from assistant.listening.reading import COMMON

    i = 0
    while i < len(pieces):
        code = pieces[i].code
        if code == "@":
            last = i + 1
            while last < len(pieces) and pieces[last].code in DESCRIBES and pieces[last].code not in ("oil", "wax"):
                last += 1
            yield i, (last, pieces[i].name)
            i = last
            continue
        if code in STUFF or code in DESCRIBES and i + 1 < len(pieces) and pieces[i + 1].code in STUFF:
            last = i + 1
            words = [code]
            while last < len(pieces) and (pieces[last].code in STUFF or pieces[last].code in DESCRIBES):
                words.append(pieces[last].code)
                last += 1
            yield i, (last, " ".join(words))
            i = last
            continue
        if code.isalpha() and len(code) > 2 and code not in COMMON and code not in _trade_words():
            last = i + 1
            words = [code]
            while last < len(pieces) and (pieces[last].code in DESCRIBES or (pieces[last].code.isalpha() and pieces[last].code not in COMMON and pieces[last].code not in _trade_words())):
                words.append(pieces[last].code)
                last += 1
                if len(words) == 3:
                    break
            yield i, (last, " ".join(w for w in words))
            i = last
            continue
        i += 1


def _trade_words() -> set[str]:
    from assistant.listening.phrases import phrase_book

    return phrase_book().words


def _fits(code: str) -> bool:
    return code in KIND_TO_QUANTITY


def _best_run(pieces: list[Piece], tokens: list[str], names: dict[int, tuple[int, str]], taken: set[int]) -> list[Line]:
    best: list[Line] = []
    for build in (_amount_first, _name_first):
        i = 0
        while i < len(pieces):
            line = build(pieces, tokens, names, i)
            if line is None:
                i += 1
                continue
            run = [line]
            at = line.last
            while True:
                steps = 0
                while at < len(pieces) and tokens[at] in JOINS and steps < 3:
                    at += 1
                    steps += 1
                following = build(pieces, tokens, names, at) if at < len(pieces) else None
                if following is None or not _alike(run[0], following):
                    break
                run.append(following)
                at = following.last
            if len(run) > len(best) and len({r.name for r in run}) == len(run):
                best = run
            i = run[-1].last if len(run) > 1 else i + 1
    if len(best) < 2 or all(line.kind == "<%>" and line.name in SPIRIT_NAMES for line in best):
        return []  # "151 proof rum plus 80 proof vodka" are strengths, not shares
    _rest_line(pieces, tokens, names, best)
    return best


def _alike(one: Line, other: Line) -> bool:
    """A list keeps to one kind of figure; bare numbers go on behind parts, and grams and millilitres may stand in one recipe."""
    return one.kind == other.kind or {one.kind, other.kind} <= {"<part>", "<#>"} or {one.kind, other.kind} <= {"<g>", "<oz>", "<mL>"}


def _extras(pieces: list[Piece], tokens: list[str], at: int, kind: str) -> tuple[int, list[tuple[str, int]]]:
    """What is said of an ingredient behind it: strength, ratio, price, density."""
    extras: list[tuple[str, int]] = []
    while at < len(pieces):
        look = at
        skipped = 0
        while look < len(pieces) and skipped < 3 and tokens[look] in ("(", "at", "of", "is", "made", "on", "in", "-", "for", "tincture", "which"):
            look += 1
            skipped += 1
        if look >= len(pieces):
            break
        code = tokens[look]
        if code == "<%>" and (kind != "<%>" or (look > at and tokens[look - 1] == "(")):
            extras.append(("strength_of", look))
        elif code == "<:>":
            extras.append(("ratio_of", look))
        elif code in ("<per>", "<money>") or (code == "<#>" and look > at and tokens[look - 1] == "at" and kind in ("<mL>", "<g>")):
            extras.append(("price_of", look))
        elif code == "<g/mL>":
            extras.append(("density_of", look))
        else:
            break
        at = look + 1
        while at < len(pieces) and tokens[at] in (")", "vodka", "spirit", "us", "tincture", "rum", "brandy"):
            at += 1
    return at, extras


def _amount_first(pieces: list[Piece], tokens: list[str], names: dict[int, tuple[int, str]], at: int) -> Line | None:
    if at >= len(pieces) or not _fits(tokens[at]):
        return None
    look = at + 1
    steps = 0
    while look < len(pieces) and tokens[look] in BETWEEN_FIRST and look not in names and steps < 4:
        look += 1
        steps += 1
    if look not in names:
        return None
    last, name = names[look]
    last, extras = _extras(pieces, tokens, last, tokens[at])
    return Line(name, tokens[at], at, at, last, extras)


def _name_first(pieces: list[Piece], tokens: list[str], names: dict[int, tuple[int, str]], at: int) -> Line | None:
    if at not in names:
        return None
    look, name = names[at]
    extras: list[tuple[str, int]] = []
    if look < len(pieces) and tokens[look] == "(":
        look, extras = _extras(pieces, tokens, look, "<%>")
    steps = 0
    while look < len(pieces) and tokens[look] in BETWEEN_NAME and steps < 2:
        look += 1
        steps += 1
    if look >= len(pieces) or not _fits(tokens[look]):
        return None
    last, more = _extras(pieces, tokens, look + 1, tokens[look])
    return Line(name, tokens[look], look, at, last, extras + more)


def _ratio_of_names(pieces: list[Piece], tokens: list[str], names: dict[int, tuple[int, str]]) -> list[Line]:
    """"1:4 wax to oil", "wax to oil one to six", "1 part wax to 5 oil": two names and a two-sided ratio."""
    for i in range(len(pieces)):
        if i in names:
            behind, first = names[i]
            if behind < len(pieces) and tokens[behind] in ("to", ":") and behind + 1 in names and _known(tokens, i) and _known(tokens, behind + 1):
                last, second = names[behind + 1]
                for at in (*range(last, min(last + 4, len(pieces))), *range(max(0, i - 3), i)):
                    item = pieces[at].item
                    if tokens[at] == "<:>" and item is not None and isinstance(item.alt, tuple):
                        low, high = min(i, at), max(last, at + 1)
                        return [Line(first, "left", at, low, high, []), Line(second, "right", at, low, high, [])]
        if tokens[i] == "<part>":
            one = _amount_first(pieces, tokens, names, i)
            if one is not None and one.last < len(pieces) and tokens[one.last] == "to":
                two = _amount_first(pieces, tokens, names, one.last + 1)
                if two is not None and two.kind in ("<part>", "<#>"):
                    return [one, two]
    return []


def _known(tokens: list[str], at: int) -> bool:
    return tokens[at] == "@" or tokens[at] in STUFF


def _parts_of_names(pieces: list[Piece], tokens: list[str], names: dict[int, tuple[int, str]]) -> list[Line]:
    """"3:2:1 mullein / plantain / mallow", or the names first."""
    for i, code in enumerate(tokens):
        if code not in ("<parts>", "<:>"):
            continue
        item = pieces[i].item
        sides = item.alt if item is not None and isinstance(item.alt, tuple) else ()
        if len(sides) < 2 or (code == "<:>" and len(sides) != 2):
            continue
        for run in (_names_after(tokens, names, i + 1), _names_before(tokens, names, i)):
            if len(run) == len(sides) and (code == "<parts>" or any(t in ("/", "&", "and") for t in tokens[i + 1 : i + 5])):
                return [Line(name, f"side{n}", i, first, last, []) for n, (first, last, name) in enumerate(run)]
    return []


def _names_after(tokens: list[str], names: dict[int, tuple[int, str]], at: int) -> list[tuple[int, int, str]]:
    run: list[tuple[int, int, str]] = []
    steps = 0
    while at < len(tokens) and steps < 4:
        if at in names:
            last, name = names[at]
            run.append((at, last, name))
            at, steps = last, 0
        elif tokens[at] in JOINS or tokens[at] in ("of", "the", "in"):
            at += 1
            steps += 1
        else:
            break
    return run


def _names_before(tokens: list[str], names: dict[int, tuple[int, str]], at: int) -> list[tuple[int, int, str]]:
    places = sorted(p for p in names if names[p][0] <= at)
    run: list[tuple[int, int, str]] = []
    for place in reversed(places):
        last, name = names[place]
        edge = run[0][0] if run else at
        if edge - last > 6 or (run and not all(t in JOINS or t in ("of", "the") for t in tokens[last:edge])):
            break
        run.insert(0, (place, last, name))
    return run


def _rest_line(pieces: list[Piece], tokens: list[str], names: dict[int, tuple[int, str]], run: list[Line]) -> None:
    """"… and peppermint for the rest": the last ingredient takes what is left."""
    at = run[-1].last
    while at < len(pieces) and tokens[at] in JOINS:
        at += 1
    if at in names:
        last, name = names[at]
        ahead = tokens[last : last + 3]
        if "rest" in ahead or "remainder" in ahead or ahead[:2] == ["to", "fill"]:
            run.append(Line(name, "rest", at, at, last, []))


def _keep(lines: list[Line], pieces: list[Piece], taken: set[int], reading: Reading) -> None:
    numbers = [pieces[l.at].item.value for l in lines if l.kind == "<#>" and pieces[l.at].item is not None]
    as_shares = bool(numbers) and len(numbers) == len(lines) and abs(sum(numbers) - 100) < 0.5 and any(p.code in ("%", "percent") for p in pieces)
    for line in lines:
        item = pieces[line.at].item
        figures: list[tuple[str, float, int, int]] = []
        piece = pieces[line.at]
        if line.kind == "rest":
            figures.append(("rest", 0.0, piece.start, piece.end))
        elif item is not None and item.value is not None:
            if line.kind in ("left", "right"):
                sides = item.alt if isinstance(item.alt, tuple) else (1.0, item.value)
                figures.append(("part", float(sides[0 if line.kind == "left" else 1]), piece.start, piece.end))
            elif line.kind.startswith("side"):
                figures.append(("part", float(item.alt[int(line.kind[4:])]), piece.start, piece.end))  # type: ignore[index]
            else:
                quantity = KIND_TO_QUANTITY[line.kind]
                value = item.value
                if line.kind == "<#>" and as_shares:
                    quantity = "share"
                if line.kind == "<share>":
                    quantity, value = "share", item.value * (100 if item.value <= 1 else 1)
                figures.append((quantity, value, piece.start, piece.end))
            taken.add(line.at)
        for quantity, at in line.extras:
            extra = pieces[at].item
            if extra is not None and extra.value is not None:
                figures.append((quantity, extra.value, pieces[at].start, pieces[at].end))
                taken.add(at)
        reading.ingredients.append(Ingredient(line.name, tuple(figures), pieces[line.first].start, pieces[line.last - 1].end))
