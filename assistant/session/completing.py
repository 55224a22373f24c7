"""Words that may come next, for a door that completes."""

from __future__ import annotations

from functools import lru_cache


@lru_cache(maxsize=1)
def _words() -> tuple[str, ...]:
    from assistant.cautions.plants import plants
    from assistant.listening.phrases import phrase_book
    from assistant.quantities.vocabulary import VOCABULARY

    words = set(phrase_book().words) | set(plants().names())
    words |= {q.caption for q in VOCABULARY.values()}
    return tuple(sorted(w for w in words if len(w) > 2))


def next_words(text: str) -> list[str]:
    """Words of the bench that begin as the last word of `text` does; nothing before a first letter."""
    last = text.rsplit(" ", 1)[-1].lower()
    if not last or not last[0].isalpha():
        return []
    return [w for w in _words() if w.startswith(last)][:40]
