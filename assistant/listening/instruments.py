"""Instruments described: "my spring scale goes to a kilo in 10 g steps", "the cylinder is 100 ml, class B", "my dropper makes 34 drops a ml of 50 %".

The figures that describe an instrument are claimed here, so that no step of a scale is taken for a weight of plant. An instrument is heard where
its noun stands with something that tells how well it reads; a weight on a scale ("the scale says 112 g") describes none.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.droppers import counted_drops, dropper
from assistant.listening.instrument_words import BARE, EACHES, UNIT, ways_of_telling
from assistant.listening.phrases import PhraseBook
from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference, Tool
from assistant.listening.token_row import TokenRow
from assistant.patterns import looked_for

#: What keeps a sentence from being about an instrument alone: then only what plainly describes one is claimed.
OTHER_TALK = frozenset({"@", "<:>"})
OWNED = looked_for(r"\b(?:my|our|i've|i have|i own|i use|i got|we have|we've|have got|i measure|measure with|i pour with|there's|only have)\b")
FINE = looked_for(r"tenth|hundredth|thousandth", re.IGNORECASE)
CLASS_OF_SCALE = {"i": "I", "ii": "II", "iii": "III", "iiii": "IIII", "iv": "IIII", "1": "I", "2": "II", "3": "III", "4": "IIII"}
SPEAKS_OF_IT = frozenset("reads goes weighs is has off out shows good accurate only does max maximum capacity :".split())
NOT_BEFORE_A_SCALE = frozenset(["", "to", ",", "and", "then", "can", "please", "let's"])
NOUNS = (("scale", "SCALENOUN"), ("glass", "GLASSNOUN"), ("dropper", "DROPPERNOUN"), ("hydrometer", "METERNOUN"))
CLASSED = ("class", "a", "b", "iso", "astm")
SIZES = frozenset({5.0, 10.0, 25.0, 50.0, 100.0, 250.0, 500.0, 1000.0, 2000.0})  # [mL] that cylinders come in
MOST_OF_A_KIND = 9
SHORT = 9  # words of a sentence that only says what one has
ASKS = frozenset("? what what's whats which how how's do does is".split())
MOST_STEPS = 100.0  # [g, mL] "weighs to 5 kg" is the most it takes, "weighs to 1 g" its step


def read_instruments(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, book: PhraseBook) -> None:
    """Hear the instruments a sentence describes, and claim the figures that describe them. Does nothing where it describes none."""
    if "round" in tokens or "rounded" in tokens or ("nearest" in tokens and "?" in tokens):
        return
    row = TokenRow(pieces, tokens)
    named = nouns(tokens, book)
    for n, (kind, name, first, last) in enumerate(named):
        if kind == "dropper":
            dropper(row, taken, reading, first)
            continue
        since = named[n - 1][3] if n else 0
        until = len(tokens)
        if n + 1 < len(named):
            until = named[n + 1][2]
            while until > last and tokens[until - 1] in (*UNIT[kind], "class", "a", "b", "iso", "astm"):
                until -= 1
        _described(row, taken, reading, book, kind, name, (since, first, last, until))
    counted_drops(row, taken, reading)


def nouns(tokens: list[str], book: PhraseBook) -> list[tuple[str, str, int, int]]:
    """The instruments named in a row of tokens: kind, name, first token (its adjectives with it) and the one behind the noun."""
    found: list[tuple[str, str, int, int]] = []
    classes = book.classes
    for n, token in enumerate(tokens):
        kind = next((k for k, words in NOUNS if token in classes[words]), "")
        if not kind:
            kind = "glass" if token == "one" and found and found[-1][0] == "glass" and _sized(tokens, n) else ""
            if kind:
                found.append((kind, found[-1][1], n, n + 1))
            continue
        adjectives = classes["SCALEKIND" if kind == "scale" else "GLASSKIND"]
        first = n
        while first and tokens[first - 1] in adjectives and not (first > 1 and tokens[first - 1] in ("good", "right")):
            first -= 1
        before = tokens[first - 1] if first else ""
        if token == "scale" and first == n and before in NOT_BEFORE_A_SCALE and not set(tokens[n + 1 : n + 2]) & SPEAKS_OF_IT:
            continue  # "scale it up"
        words = [w for w in tokens[first:n] if w not in ("hand", "new", "old", "little", "big", "small", "wee", "good", "cheap", "graduated")]
        noun = token[:-1] if token.endswith("s") and token not in ("glass",) else token
        found.append((kind, " ".join([*words, noun]), first, n + 1))
    return found


def _with(tool: Tool, what: str, value: float | None) -> Tool:
    if what == "plus_minus":
        return replace(tool, plus_minus=value)
    return replace(tool, capacity=value) if what == "capacity" else replace(tool, step=value)


def _sized(tokens: list[str], at: int) -> bool:
    """Whether a "one" has its capacity before it: "and a 100 mL class B one"."""
    return "<mL>" in tokens[max(0, at - 4) : at]


def _described(row: TokenRow, taken: set[int], reading: Reading, book: PhraseBook, kind: str, name: str, where: tuple[int, int, int, int]) -> None:
    """The properties told of one scale, glass or hydrometer, in the words from it on (and the capacity right before it).

    where   the end of the instrument before it, its first word, the end of its noun, and where the next one begins
    """
    since, first, last, until = where
    patterns = ways_of_telling(kind, book)
    tokens = row.tokens
    stop = next((n for n in range(last, until) if tokens[n] in (";", "?", "!") or (tokens[n] == "." and n > last)), until)
    tool = Tool(kind, name)
    claimed: set[int] = set()

    def free(n: int) -> bool:
        return n not in taken and n not in claimed and (row.value(n) or 0) > 0

    for field, what in (("error", "plus_minus"), ("capacity", "capacity"), ("step", "step"), ("reads_to", "step")):
        for _, a, b in row.find(patterns[field]):
            islands = [n for n in row.islands(a, b, (*UNIT[kind], BARE, EACHES)) if free(n)]
            if not (last <= a and b <= stop) or not islands or getattr(tool, what) is not None:
                continue
            value = row.value(islands[-1])
            told = "capacity" if field == "reads_to" and value is not None and value >= MOST_STEPS else what
            tool = _with(tool, told, value)
            claimed.update(islands)
    if kind == "scale" and tokens[last : last + 1] == ["to"] and tokens[last + 1 : last + 2] == ["<g>"] and tool.capacity is None and free(last + 1):
        tool, claimed = replace(tool, capacity=row.value(last + 1)), claimed | {last + 1}  # "kitchen scale to 3 kg"
    if tool.step is None and any(last <= a and b <= stop for _, a, b in row.find(patterns["one"])):
        tool = replace(tool, step=1.0)
    fine = [n for n in row.islands(last, stop, UNIT[kind]) if free(n) and FINE.search(row.pieces[n].text)]
    if tool.step is None and fine:  # "shows tenths of a gram"
        tool, claimed = replace(tool, step=row.value(fine[0])), claimed | {fine[0]}
    tool, claimed = _class_of(row, tool, claimed, max(since, first - 4), stop)
    tool, claimed = _slack_said(row, tool, claimed, taken, last, stop)
    capacities = [] if kind == "hydrometer" else _capacities(row, kind, claimed, taken, first, last, stop, tool)
    if kind == "scale" and tool.step is None and tool.capacity is None and len(capacities) == 2:  # "scale: 2 kg, 1 g"
        low, high = sorted(row.value(n) or 0.0 for n in capacities)
        tool = replace(tool, step=low, capacity=high)
    is_told = tool.step is not None or tool.capacity is not None or tool.accuracy or tool.plus_minus is not None
    bare = len(tokens) <= SHORT and not any(t.startswith("<") or t == "@" for t in tokens) and not ASKS & set(tokens)
    if kind == "scale" and bare and not is_told and _is_owned(tokens, first, []):
        reading.tools.append(replace(tool, start=row.pieces[first].start, end=row.pieces[last - 1].end))  # "I have a kitchen scale": how it reads is asked
        return
    owned = _is_owned(tokens, first, capacities)
    if not is_told and not (capacities and owned and kind == "glass"):
        return
    if tokens[:1] and set(tokens[:3]) & {"which", "what", "best"} and kind == "glass":
        return  # "which cylinder …": asked, not described
    if tool.capacity is None and len(capacities) == 1:
        tool = replace(tool, capacity=row.value(capacities[0]))
    start, end = row.span(first, max([last, *(n + 1 for n in claimed if n >= last), *(n + 1 for n in capacities)]))
    tool = replace(tool, start=start, end=end)
    for n in sorted(claimed | set(capacities)):
        taken.add(n)
        reading.references.append(Reference("reference", row.pieces[n].start, row.pieces[n].end, row.value(n)))
    if kind == "glass":
        many = [row.value(n) for n in capacities] if len(capacities) > 1 else [tool.capacity]
        step = tool.step if len(many) == 1 else None
        reading.tools += [replace(tool, capacity=c, name=f"{c:g} mL {name.split()[-1]}" if c else name, step=step) for c in many]
    else:
        reading.tools.append(tool)


def _class_of(row: TokenRow, tool: Tool, claimed: set[int], first: int, stop: int) -> tuple[Tool, set[int]]:
    """Class and standard: "class B", "ISO class A", "class III"."""
    tokens = row.tokens
    for n in range(first, min(stop, len(tokens) - 1)):
        if tokens[n] not in ("class", "grade") or (n and tokens[n - 1] in ("no", "without")):
            continue
        word = tokens[n + 1]
        if word == BARE and (row.value(n + 1) or 0) in (1, 2, 3, 4):
            word = f"{row.value(n + 1):g}"
            claimed = claimed | {n + 1}
        if tool.kind == "glass" and word in ("a", "b", "as"):
            tool = replace(tool, accuracy=word[0].upper())
        elif tool.kind == "scale" and word in CLASS_OF_SCALE:
            tool = replace(tool, accuracy=CLASS_OF_SCALE[word])
    words = set(tokens[first:stop])
    standard = "ISO 4788" if "iso" in words else "ASTM E1272" if "astm" in words else ""
    if standard and tool.kind == "glass":
        tool = replace(tool, standard=standard)
        for n in range(first, stop):  # "ISO 4788"
            if tokens[n] == BARE and row.value(n) in (4788.0, 1272.0):
                claimed = claimed | {n}
    return tool, claimed


def _slack_said(row: TokenRow, tool: Tool, claimed: set[int], taken: set[int], first: int, stop: int) -> tuple[Tool, set[int]]:
    """ "± 2 g" by itself, of the instrument."""
    for n in row.islands(first, stop, UNIT[tool.kind]):
        text = row.pieces[n].text.lower()
        if n not in claimed and n not in taken and tool.plus_minus is None and re.match(r"±|\+/?-|plus|give", text):
            return replace(tool, plus_minus=row.value(n)), claimed | {n}
    return tool, claimed


def _capacities(row: TokenRow, kind: str, claimed: set[int], taken: set[int], first: int, last: int, stop: int, tool: Tool) -> list[int]:
    """Figures that say how much it holds by standing next to its noun: "100 mL cylinder", "cylinders of 10, 25 and 50 mL", "steelyard, 5 kg"."""
    tokens = row.tokens

    def is_figure(n: int) -> bool:
        return 0 <= n < len(tokens) and n not in claimed and n not in taken and tokens[n] in (*UNIT[kind], BARE)

    before: list[int] = []
    n = first - 1
    while (n >= 0 and tokens[n] in ("class", "a", "b", "iso", "astm", "ml", ",", "and", "&", "of")) or is_figure(n):
        if is_figure(n):
            before.append(n)
        elif tokens[n] == "a" and not before and tokens[n - 1 : n] != ["class"]:
            break
        n -= 1
    many = tokens[last - 1].endswith("s") and len(before) == 1 and tokens[before[0]] == BARE and (row.value(before[0]) or 0) <= MOST_OF_A_KIND
    behind: list[int] = []
    n = last
    while n < stop and (tokens[n] in (":", "is", "are", "=", "of", "holds", "one", ",", "and", "&", "come", "in", "the", "ml", "-", *CLASSED) or is_figure(n)):
        if is_figure(n):
            behind.append(n)
        n += 1
    found = sorted(before) if kind == "glass" and any(tokens[n] in UNIT[kind] for n in before) else []
    if not found and tool.capacity is None and not set(tokens) & OTHER_TALK:
        of_a_size = tool.accuracy and len(behind) == 1 and (row.value(behind[0]) or 0) in SIZES
        found = behind if of_a_size or any(tokens[n] in UNIT[kind] for n in behind) else []
        if found and many:  # "three cylinders, 25, 100 and 250 mL"
            claimed.add(before[0])
    if kind == "scale":
        if tool.capacity is not None or set(tokens) & OTHER_TALK:
            return []
        return found[:1] if tool.step is not None else found if len(found) == 2 and tokens[last : last + 1] in ([":"], [","]) else []
    return found


def _is_owned(tokens: list[str], first: int, capacities: list[int]) -> bool:
    """Whether the words before say whose it is: "my", "I have", "the cylinder is"."""
    start = min([first, *capacities])
    before = " ".join(tokens[:start])
    if first == 0 and capacities and ":" not in tokens[1:2]:
        return True  # "old graduate, 100 ml"
    if OWNED.search(before):
        return True
    pointed = tokens[first - 1 : first] in (["the"], ["this"])
    return pointed and bool(capacities) and capacities[0] > first and "is" in tokens[first : capacities[0]]
