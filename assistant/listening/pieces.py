"""Items of a sentence as tokens for the phrases: words as they are, plants as `@`, islands by their kind."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from assistant.dataclass import dataclass
from assistant.listening.islands import Item
from assistant.listening.statements import Reading, Said

# A finder of names is handed in by the session, so that listening knows no plant: words → (first, last, name).
NameFinder = Callable[[Sequence[str]], Sequence[tuple[int, int, str]]]


@dataclass(frozen=True, slots=True)
class Piece:
    """One token: its code in the phrases, its place, and what it holds."""

    code: str
    start: int
    end: int
    text: str
    item: Item | None = None
    name: str = ""

    @property
    def is_island(self) -> bool:
        return self.code.startswith("<")

    @property
    def is_stop(self) -> bool:
        return self.code in _STOPS


# Where 's is a verb that the phrases know.
_CONTRACTED = frozenset("it's that's what's there's she's he's how's where's who's let's here's one's isn't".split())
_PLAIN_DAY = frozenset({"a day", "per day", "each day", "daily", "every day", "/day", "in a day", "/d", "p.d."})
BETWEEN = "\N{SECTION SIGN}"  # stands for what is no word, so that "oat 25 mL, top up" is no oat tops
_STOPS = frozenset(". ; ? !".split())


def code_of(item: Item) -> str:
    """The token of one item: a word, a mark, or `<kind>`."""
    if item.kind in ("word", "punct"):
        word = item.word or item.text
        if word.endswith(("'s", "’s")) and word not in _CONTRACTED:
            return word[:-2]  # "the bag's 65 g"
        return word
    if item.kind == "amount":
        if item.unit == "g" and item.alt is not None:
            return "<oz>"
        if item.unit == "day":
            if item.said_unit.startswith("year") or item.said_unit in ("yr", "yrs"):
                return "<year>"
            if item.said_unit.startswith("month"):
                return "<month>"
        if item.unit == "mL" and item.said_unit.startswith(("cup", "mug")):
            return "<cup>"
        return f"<{item.unit}>"
    if item.kind in ("percent", "proof"):
        return "<bx>" if item.said_unit == "Bx" else "<%>"
    if item.kind == "ratio":
        return "<:>"
    if item.kind == "number":
        return {"each": "<n>", "share": "<share>", "times": "<times>", "multiple": "<times>"}.get(item.said_unit, "<#>")
    if item.kind == "per":
        return f"<{item.unit}>" if item.unit in ("mL/g", "g/mL", "drop/mL") else "<per>"
    if item.kind == "frequency" and item.value == 1 and item.text.strip().lower() in _PLAIN_DAY:
        return "<aday>"
    return {
        "parts": "<part>",
        "parts_list": "<parts>",
        "frequency": "<x>",
        "temperature": "<C>",
        "money": "<money>",
        "label": "<label>",
        "time": "<time>",
        "reference": "<ref>",
    }.get(item.kind, f"<{item.kind}>")


def pieces_of(items: Sequence[Item], find_names: NameFinder) -> list[Piece]:
    """Tokens of a sentence, with plant names of one or more words put together."""
    words = [i.word if i.kind == "word" else BETWEEN for i in items]
    spans = {first: (last, name) for first, last, name in find_names(words)}
    pieces: list[Piece] = []
    index = 0
    while index < len(items):
        if index in spans:
            last, name = spans[index]
            first, end = items[index], items[last - 1]
            pieces.append(Piece("@", first.start, end.end, " ".join(i.text for i in items[index:last]), None, name))
            index = last
            continue
        item = items[index]
        if item.text == "(" and index + 2 < len(items) and len(items[index + 1].text) == 1 and items[index + 2].text == ")":
            # "(a) the grams of dry matter": the parts of a set question
            pieces.append(Piece("find", item.start, items[index + 2].end, "(" + items[index + 1].text + ")"))
            index += 3
            continue
        pieces.append(Piece(code_of(item), item.start, item.end, item.text, item))
        index += 1
    return pieces


def take_piece(pieces: Sequence[Piece], taken: set[int], reading: Reading, quantity: str, at: int, value: float | None = None) -> None:
    """Let the figure at that place be this quantity, with its own value where no other is given. Changes `taken` and the reading's said."""
    item = pieces[at].item
    size = item.value if value is None and item is not None else value
    if item is not None and size is not None:
        taken.add(at)
        reading.said.append(Said(quantity, size, pieces[at].start, pieces[at].end, said_unit=item.said_unit))
