"""The glossary: a trade term in one line, with a figure worked out when it is read, so that it is never out of step with the relations."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from assistant.dataclass import dataclass
from assistant.faults import BenchError
from assistant.places import grammar_file
from assistant.quantities.showing import shown
from assistant.quantities.spelt import number_of
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.relations import RELATIONS
from assistant.teaching.case import Case

FILE = "glossary.txt"
ANY_RATIO = re.compile(r"(?:1|one)\s*(?::|to|/)\s*(\d+(?:\.\d+)?|one|two|three|four|five|six|seven|eight|nine|ten)(?!\S)", re.IGNORECASE)
WORD = re.compile(r"[\w:°’]+")
QUOTE = "'"
USUAL_RATIO = 5.0


@dataclass(frozen=True, slots=True)
class Term:
    """One entry. `given` values may be None where the ratio asked about stands for them."""

    name: str
    also: tuple[str, ...]
    definition: str
    example: str
    given: Mapping[str, float | None]
    tags: frozenset[str]


@dataclass(frozen=True, slots=True)
class Explained:
    """A term as told: the definition, the example with its figures, and those figures by key."""

    term: str
    definition: str
    example: str
    figures: tuple[tuple[str, float, str], ...]  # key, value, origin
    case: Case


@lru_cache(maxsize=1)
def terms() -> dict[str, Term]:
    """Every term by its name. Fails with BenchError naming file and line."""
    found: dict[str, Term] = {}
    entry: dict[str, str] = {}
    name = ""

    def close() -> None:
        if name:
            found[name] = _term(name, entry)

    for number, raw in enumerate(grammar_file(FILE).read_text(encoding="utf-8").splitlines(), 1):
        if raw.startswith("#") or not raw.strip():
            continue
        if not raw[0].isspace():
            close()
            name, entry = raw.strip().lower(), {}
            continue
        word, _, rest = raw.strip().partition(" ")
        if not name or word not in ("also", "is", "shown", "given", "with"):
            raise BenchError(
                what=f"“{word}” is not also, is, shown, given or with",
                where=f"grammar/{FILE}, line {number}",
                try_this="begin the line with one of these",
            )
        entry[word] = rest.strip()
    close()
    return found


def _term(name: str, entry: Mapping[str, str]) -> Term:
    given: dict[str, float | None] = {}
    for pair in entry.get("given", "").split(","):
        key, _, value = pair.strip().rpartition(" ")
        if base(key) not in VOCABULARY:
            raise BenchError(what=f"“{key}” is no quantity", where=f"grammar/{FILE}, under {name}", try_this="use a name from the vocabulary")
        given[key] = None if value == "R" else float(value)
    also = tuple(word.strip().lower() for word in entry.get("also", "").split(",") if word.strip())
    return Term(name, also, entry["is"], entry["shown"], given, frozenset(entry.get("with", "").split()))


@lru_cache(maxsize=1)
def _by_word() -> dict[str, str]:
    return {word: term.name for term in terms().values() for word in (term.name, *term.also)}


def named_in(text: str) -> tuple[str, float] | None:
    """The term a text speaks of and, for a ratio, its R; the longest name that stands in it. None where it names none."""
    ratio = ANY_RATIO.search(text)
    if ratio is not None:
        return "1:5", number_of(ratio[1])
    spoken = f" {_plain(text)} "
    hits = [word for word in _by_word() if f" {_plain(word)} " in spoken]
    return (_by_word()[max(hits, key=len)], USUAL_RATIO) if hits else None


def called(text: str) -> str:
    """The term a text is the name of, with nothing beside it but an article; "" where it is none.

    >>> called("a double maceration"), called("menstruum on the shelf")
    ('double maceration', '')
    """
    plain = _plain(text).removeprefix("the ").removeprefix("an ").removeprefix("a ").removeprefix("some ")
    return next((term for word, term in _by_word().items() if _plain(word) == plain), "")


def _plain(text: str) -> str:
    """Words alone, in lower case: "w/v" is "w v"."""
    return " ".join(WORD.findall(text.lower().replace(QUOTE, "’")))


def explain(name: str, ratio: float = USUAL_RATIO) -> Explained:
    """A term explained with a worked figure. Fails with KeyError on a term that is not listed."""
    term = terms()[name]
    given = {key: ratio if value is None else value for key, value in term.given.items()}
    members = tuple(dict.fromkeys(about(key) for key in (*given, *_keys(term.example)) if about(key)))
    case = Case({}, tuple(r for r in RELATIONS if r.applies(term.tags)), members).giving(given)
    solution = case.solved()
    figures: list[tuple[str, float, str]] = []
    text = term.example
    for key in _keys(term.example):
        if key not in solution.figures:
            raise BenchError(
                what=f"{key} does not follow from what is given",
                where=f"grammar/{FILE}, under {name}",
                try_this="give one figure more, or name the kind of work",
            )
        figure = solution.figures[key]
        figures.append((key, figure.value, figure.origin))
        text = text.replace("{" + key + "}", shown(key, figure.value))
    definition = term.definition.replace(" R ", f" {ratio:g} ") if name == "1:5" else term.definition
    return Explained(f"1:{ratio:g}" if name == "1:5" else name, definition, text, tuple(figures), case)


def _keys(example: str) -> list[str]:
    return re.findall(r"\{([^}]+)\}", example)
