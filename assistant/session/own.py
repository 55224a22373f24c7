"""A person's own numbers in place of the table's: what their recorded pressings and dryings show is assumed, and named."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING

from assistant.session.assuming import PRESS_METHODS, Assumed
from assistant.session.batch import Batch

if TYPE_CHECKING:  # the book is opened by those alone who keep one: a single sentence does without it
    from assistant.book import Book
    from assistant.book.own_numbers import OwnNumber

Provider = Callable[[Batch, str], Assumed | None]
_IN_FORCE: ContextVar[Provider | None] = ContextVar("own numbers", default=None)


@contextmanager
def in_force(book: Book | None) -> Iterator[None]:
    """Within, batches are worked out with the numbers of this book; with None, with the table's alone."""
    token = _IN_FORCE.set(None if book is None else _Numbers(book))
    try:
        yield
    finally:
        _IN_FORCE.reset(token)


def with_own(taken: Sequence[Assumed], batch: Batch, part: str) -> Sequence[Assumed]:
    """The assumptions of a batch with the person's own numbers in their places."""
    provider = _IN_FORCE.get()
    if provider is None:
        return taken
    result = [provider(batch, part) if one.key == "water_content" else provider(batch, "press") if one.key == "held_per_gram" else None for one in taken]
    laid = [own or one for own, one in zip(result, taken, strict=True)]
    if "fresh" in batch.tags and batch.plants and "water_content" not in batch.facts and not any(a.key == "water_content" for a in laid):
        own = provider(batch, part)  # a plant the list does not know
        if own is not None:
            laid.insert(0, own)
    return laid


class _Numbers:
    """The own numbers of one book, looked up once a turn."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._known: dict[tuple[str, str, str], OwnNumber | None] = {}

    def __call__(self, batch: Batch, part: str) -> Assumed | None:
        plant = batch.plants[0] if batch.plants else ""
        if part == "press":
            method = next((words for tag, (_, words, _) in PRESS_METHODS.items() if tag in batch.tags), "")
            own = self._look("held_per_gram", plant, method)
            if own is None:
                return None
            text = f"the marc holds {own.value:.3g} mL per g of dry matter (by {own.words}; {own.spread})"
            return Assumed("held_per_gram", own.value, text, "“the press leaves 1.2 mL a gram”", _half(own))
        own = self._look("water_content", plant, part)
        if own is None:
            return None
        text = f"{plant} taken at {own.value:.3g} % water (by {own.words}; {own.spread})"
        return Assumed("water_content", own.value, text, "“it is 78 % water”", _half(own))

    def _look(self, quantity: str, plant: str, narrower: str) -> OwnNumber | None:
        from assistant.book import BookFault, own_numbers

        key = (quantity, plant, narrower)
        if key not in self._known:
            ask = own_numbers.held_per_gram if quantity == "held_per_gram" else own_numbers.water_content
            try:
                self._known[key] = ask(self._book, plant, narrower)
            except BookFault:
                self._known[key] = None  # a book that cannot be read has no numbers; the turn says so by itself
        return self._known[key]


def _half(own: OwnNumber) -> float | None:
    return (own.high - own.low) / 2 if own.count > 1 else None
