"""Figures that only point at something: "for the 600", "the two together", "all in one jug", a lot, a time of day."""

from __future__ import annotations

from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference

TOGETHER = frozenset("together combined mixed blended joined halves".split())
VERBS = {""} | frozenset(
    "takes take needs need uses use wants is has gives give makes comes holds costs would will does do goes gets , ? ends finishes which".split()
)
ONE_VESSEL = frozenset("jug jar pot bowl pan go lot vessel crock bucket batch bottle demijohn kettle".split())


def set_references_aside(pieces: list[Piece], reading: Reading, taken: set[int]) -> None:
    """Mark as taken what only points: a figure said before, a label, a time of day, "all in one jug", "the two together"."""
    said: set[float] = set()
    for i, piece in enumerate(pieces):
        number = piece.item.said if piece.item is not None and piece.item.said is not None else piece.item.value if piece.item is not None else None
        if piece.code == "<#>" and i and pieces[i - 1].code in ("the", "that", "those") and (number in said or _is_both(pieces, i)):
            reading.references.append(Reference("reference", piece.start, piece.end, number))  # "… takes 600 g. Menstruum for the 600?"
            taken.add(i)
        elif piece.code == "<#>" and _of_the_two(pieces, i):
            reading.references.append(Reference("reference", piece.start, piece.end, number))  # "which of the two takes more spirit"
            taken.add(i)
        elif piece.is_island and number is not None and (piece.code in ("<g>", "<mL>", "<oz>") or (piece.item is not None and piece.item.kind == "proof")):
            said.add(number)
        if piece.code == "<#>" and i and piece.text.lower() == "one" and pieces[i - 1].code in ("in", "into") and _is_one_vessel(pieces, i):
            reading.references.append(Reference("reference", piece.start, piece.end, 1.0))  # "all in one jug": together
            taken.add(i)
        if piece.code == "<#>" and piece.text.lower() == "one" and pieces[i + 1 : i + 2] and pieces[i + 1].code == "of" and _is_of_them(pieces, i):
            reading.references.append(Reference("reference", piece.start, piece.end, 1.0))  # "one of my mothers"
            taken.add(i)
        if piece.code == "<#>" and number == 1 and [p.code for p in pieces[i + 1 : i + 3]] == ["to", "what"]:
            reading.references.append(Reference("reference", piece.start, piece.end, 1.0))  # "that's really 1 to what"
            taken.add(i)
        if piece.code == "<#>" and i and number is not None and (_is_the_hour(pieces, i, number) or _is_a_year(pieces, i, number)):
            reading.references.append(Reference("time", piece.start, piece.end, number))  # "before they come at four", "back in seventy-nine"
            taken.add(i)
        if piece.code in ("<label>", "<time>", "<ref>"):
            what = {"<label>": "label", "<time>": "time", "<ref>": "reference"}[piece.code]
            reading.references.append(Reference(what, piece.start, piece.end, piece.item.value if piece.item else None))
            taken.add(i)


OF_THEM = frozenset("my our her his their the these those them us you".split())


def _is_of_them(pieces: list[Piece], at: int) -> bool:
    """ "One of my mothers", "one of the girls": somebody, and no count of a thing; "one of those jars" counts."""
    behind = [p.code for p in pieces[at + 2 : at + 4]]
    return behind[:1] != [] and behind[0] in OF_THEM and all(code.isalpha() for code in behind[1:]) and (at == 0 or not pieces[at - 1].code.startswith("<"))


HOURS = frozenset({"at", "by", "before", "till", "until", "since", "around"})
YEARS = frozenset({"back", "way", "since", "winter", "summer", "spring", "autumn", "year", "born", "started", "learnt", "learned"})
LATEST_HOUR, EARLIEST_YEAR = 12, 40


def _is_the_hour(pieces: list[Piece], at: int, number: float) -> bool:
    """An hour spelt out behind "at" or "by": no strength is told in such small words."""
    piece, ahead = pieces[at], [p.code for p in pieces[at + 1 : at + 2]]
    spelt = piece.text.isalpha() and 1 <= number <= LATEST_HOUR and pieces[at - 1].code in HOURS
    return spelt and not (ahead and (ahead[0].startswith("<") or ahead[0] in ("percent", "%", "times", "parts", "to", "in")))


def _is_a_year(pieces: list[Piece], at: int, number: float) -> bool:
    """ "The hard way in seventy-nine": two figures of a year, spelt out."""
    spelt = "-" in pieces[at].text and not any(c.isdigit() for c in pieces[at].text) and number >= EARLIEST_YEAR and pieces[at - 1].code == "in"
    return spelt and not YEARS.isdisjoint(p.code for p in pieces[max(0, at - 5) : at])


def _is_both(pieces: list[Piece], at: int) -> bool:
    """ "The two together", "the two halves": both of them."""
    behind = [p.code for p in pieces[at + 1 : at + 2]]
    return pieces[at].text.lower() in ("two", "2") and bool(TOGETHER.intersection(behind))


def _of_the_two(pieces: list[Piece], at: int) -> bool:
    """ "Of the two", "of those two": plans or plants spoken of, where nothing that is counted stands behind."""
    led = [p.code for p in pieces[max(at - 2, 0) : at]]
    behind = pieces[at + 1].code if at + 1 < len(pieces) else ""
    return pieces[at].text.lower() == "two" and len(led) == 2 and led[0] in ("of", "between", "for") and led[1] in ("the", "these", "those") and behind in VERBS


def _is_one_vessel(pieces: list[Piece], at: int) -> bool:
    """ "All in one jug", "into one big jar": behind "all", or a vessel nobody counts."""
    ahead = [p.code for p in pieces[at + 1 : at + 3]]
    led = pieces[at - 2].code if at > 1 else ""
    vessel = ahead[:1] and (ahead[0] in ONE_VESSEL or (ahead[0] in ("big", "large") and ahead[-1] in ONE_VESSEL))
    return bool(vessel) and (led in ("all", "together", "everything", "both") or ahead[0] not in ("bottle", "jar", "batch", "lot"))
