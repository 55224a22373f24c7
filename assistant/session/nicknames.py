"""What an ingredient in hand is called short: "balm" where lemon balm is in the recipe, "passionfl" for passionflower."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.listening.common import COMMON
from assistant.listening.ingredients import DESCRIBES, FORMS, STUFF
from assistant.listening.phrases import phrase_book
from assistant.listening.pieces import NameFinder
from assistant.session.batch import Batch
from assistant.session.known_words import find_names

LEAST = 4  # letters of a name cut short
# Before these words a balm is what is made.
MADE = frozenset("a an this another lip bee into make makes making tin tins pot pots jar jars g grams healing chest wax".split())


def names_for(batch: Batch | None, first: Batch | None) -> NameFinder:
    """A finder of names that knows the recipe in hand as well, and what was in it at first."""
    if batch is None or len(batch.members) < 2 or "salve" in batch.frames:
        return find_names
    members = tuple(dict.fromkeys([*batch.members, *(first.members if first is not None and set(batch.members) & set(first.members) else ())]))

    def find(words: Sequence[str]) -> list[tuple[int, int, str]]:
        found = find_names(words)
        held = {i for first, last, _ in found for i in range(first, last)}
        for i, word in enumerate(words):
            if i not in held and (i == 0 or words[i - 1] not in MADE) and (member := meant(word, members)):
                found.append((i, i + 1, member))
        return found

    return find


def meant(word: str, members: Sequence[str]) -> str:
    """The one ingredient that goes by a word: the last of its name, or the beginning of a word of it; "" where none or several do."""
    if len(word) < LEAST or not word.isalpha() or word in DESCRIBES | FORMS | STUFF:
        return ""
    own = [m for m in members if m == word] if word not in COMMON and word not in phrase_book().words else []
    own = own or [m for m in members if " " in m and m.split()[-1] == word]
    if not own and word not in COMMON and word not in phrase_book().words:
        own = [m for m in members if any(w.startswith(word) and w != word for w in m.split())]
    return own[0] if len(own) == 1 else ""


__all__ = ["meant", "names_for"]
