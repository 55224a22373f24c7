"""The tags a batch may bear, read from grammar/tags.txt: one reader for the two rooms that need it.

A tag is a plain yes-or-unknown fact that is no number: the preparation is a tincture, it is for internal use, it was gathered wild.
Listening finds them in a sentence; a rule names them by their phrase. Tags of one family exclude each other: once "external" is said,
"internal" is answered with no. Everything else that was not said stays unknown.

How the file is written (`|` separates, `#` begins a remark):

    tag internal | for internal use | of use            name, phrase of a rule after "it is", family
      drink/drinks/drank                                 a way of saying it: words in order, a/b = either word
      take .. by mouth                                   ..  up to three other words, .. .. up to six;  [word] may be missing
      he is #1-17 years                                  #  any number, #1-17 one of that range;  ^a/b a word that is none of these
      what dose $                                        $   the clause ends here
      is it AILMENT                                      AILMENT  any word of a class, also as a/AILMENT and ^AILMENT
      ~ cup of tea                                       ~   weak: counts only while no rival of the family is heard
      no: external only                                  says that the tag does not hold
      skip: gas ring                                     words in which this tag is not read
    class AILMENT fever/cough                            a class of words, above its first use; a second line adds to it
    skip baby food jar                                   words in which no tag is read
    also emergency: help + swallowed                     a tag that follows from others heard in the same sentence

A tag whose name is followed by `*` is of this sentence alone (a cry for help, a question about the weather): it is not kept with the batch.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import NamedTuple

from assistant.dataclass import dataclass, field
from assistant.faults import FileFault
from assistant.places import grammar_file


class Tag(NamedTuple):
    """One tag: its name, how a rule says it, the family whose members exclude each other, and whether it passes with the sentence."""

    name: str
    phrase: str
    family: str = ""
    passing: bool = False


class Pattern(NamedTuple):
    """One way of saying a tag. `words` holds tuples of alternatives, "#" for any number, ".." for a gap or "$" for the end of the clause."""

    tag: str  # "" in a pattern that silences every tag
    words: tuple[tuple[str, ...], ...]
    weak: bool = False
    denies: bool = False
    silences: bool = False


@dataclass(frozen=True, slots=True)
class TagTable:
    tags: dict[str, Tag]
    patterns: tuple[Pattern, ...]
    follows: tuple[tuple[str, frozenset[str]], ...] = ()
    rivals: dict[str, frozenset[str]] = field(default_factory=dict)

    def by_phrase(self) -> dict[str, str]:
        """How a rule says it → tag name."""
        return {tag.phrase: name for name, tag in self.tags.items()}

    def closed(self, tags: Iterable[str], denied: Iterable[str]) -> tuple[frozenset[str], frozenset[str]]:
        """Tags and denials with what the families add: a rival of something established is denied."""
        held = frozenset(tags)
        against = set(denied)
        for tag in held:
            against.update(self.rivals.get(tag, ()))
        return held, frozenset(against - held)

    @property
    def passing(self) -> frozenset[str]:
        return frozenset(name for name, tag in self.tags.items() if tag.passing)


@lru_cache(maxsize=1)
def tag_table() -> TagTable:
    """The shipped table, read once."""
    return read_table(grammar_file("tags.txt").read_text(encoding="utf-8"))


def read_table(text: str, where: str = "grammar/tags.txt") -> TagTable:
    """The table in a text written as the head of this page tells.

    fails   FileFault with file and line: a way of saying without a tag, a name given twice, a tag that was never declared
    """
    tags: dict[str, Tag] = {}
    patterns: list[Pattern] = []
    follows: list[tuple[str, frozenset[str]]] = []
    classes: dict[str, tuple[str, ...]] = {}
    current = ""
    for number, raw in enumerate(text.splitlines(), 1):
        line = raw.split("#", 1)[0] if raw.lstrip().startswith("#") else raw
        if not line.strip():
            continue
        place = f"{where}, line {number}"
        if not line[0].isspace():
            word, _, rest = line.strip().partition(" ")
            if word == "tag":
                current = _declare(rest, tags, place)
            elif word == "skip":
                current = ""
                patterns.extend(_spread(Pattern("", (), silences=True), rest.split(), classes, place))
            elif word == "class":
                current = ""
                name, _, members = rest.strip().partition(" ")
                classes[name] = (*classes.get(name, ()), *members.replace("/", " ").split())
            elif word == "also":
                current = ""
                name, _, causes = rest.partition(":")
                follows.append((name.strip(), frozenset(c.strip() for c in causes.split("+"))))
            else:
                raise FileFault(f"a line begins with {word!r}", where=place, try_this="begin it with tag, class, skip or also, or indent it")
            continue
        if not current:
            raise FileFault("a way of saying belongs to no tag", where=place, try_this="write a line with tag above it")
        line = line.strip()
        kind = Pattern(current, (), line.startswith("~"), line.startswith("no:"), line.startswith("skip:"))
        patterns.extend(_spread(kind, line.removeprefix("no:").removeprefix("skip:").removeprefix("~").split(), classes, place))
    _check_follows(follows, tags, where)
    return TagTable(tags, tuple(patterns), tuple(follows), _rivals(tags))


def _declare(rest: str, tags: dict[str, Tag], place: str) -> str:
    fields = [piece.strip() for piece in rest.split("|")]
    name = fields[0]
    passing = name.endswith("*")
    name = name.rstrip("*")
    if len(fields) < 2 or not name or not fields[1]:
        raise FileFault("a tag needs a name and a phrase", where=place, try_this="tag internal | for internal use | of use")
    if name in tags:
        raise FileFault(f"the tag {name!r} is declared twice", where=place, try_this="put the ways of saying it in one place")
    family = fields[2].removeprefix("of ") if len(fields) > 2 else ""
    tags[name] = Tag(name, fields[1], family, passing)
    return name


def _spread(kind: Pattern, words: list[str], classes: Mapping[str, tuple[str, ...]], place: str) -> list[Pattern]:
    """A written pattern, of a kind, as patterns without optional words and without classes."""
    spread: list[list[tuple[str, ...]]] = [[]]
    for word in words:
        if word.startswith("[") and word.endswith("]"):
            choice = _choice(word[1:-1], classes, place)
            spread = [[*one, choice] for one in spread] + spread
        else:
            choice = _choice(word, classes, place)
            spread = [[*one, choice] for one in spread]
    return [Pattern(kind.tag, tuple(one), kind.weak, kind.denies, kind.silences) for one in spread if one and one[0] not in (("..",), ("$",))]


def _choice(word: str, classes: Mapping[str, tuple[str, ...]], place: str) -> tuple[str, ...]:
    """The alternatives of one word of a pattern, classes put in."""
    mark = "^" if word.startswith("^") else ""
    found: list[str] = []
    for one in word.removeprefix("^").split("/"):
        if one.isalpha() and one.isupper():
            if one not in classes:
                raise FileFault(f"{one!r} is no class of words", where=place, try_this=f"write a line “class {one} word/word” above it")
            found.extend(classes[one])
        else:
            found.append(one)
    return (mark + found[0], *found[1:])


def _rivals(tags: dict[str, Tag]) -> dict[str, frozenset[str]]:
    families: dict[str, set[str]] = {}
    for name, tag in tags.items():
        if tag.family:
            families.setdefault(tag.family, set()).add(name)
    return {name: frozenset(members - {name}) for members in families.values() for name in members}


def _check_follows(follows: list[tuple[str, frozenset[str]]], tags: dict[str, Tag], where: str) -> None:
    for name, causes in follows:
        for word in (name, *sorted(causes)):
            if word not in tags:
                raise FileFault(f"{word!r} is no tag", where=where, try_this="declare it with a line that begins with tag")
