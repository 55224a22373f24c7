"""What a conversation stands on, sentence by sentence, so that any sentence can be taken back and put again."""

from __future__ import annotations

from collections.abc import Callable
from itertools import compress
from operator import is_not

from assistant.dataclass import dataclass, field
from assistant.session.batch import Batch
from assistant.session.frames import OWN_TAGS
from assistant.session.instruments import NONE, Instruments

LONGEST_UNDO = 200


@dataclass(frozen=True, slots=True)
class Mark:
    """The whole bench at one moment.

    batches   the plans, in the order they were begun; `firsts` is how each began
    current   the place of the plan in hand, -1 for none
    draft     what is held for a repair, with what was asked for it; `of_current` where it mends the plan in hand
    habits    measures, decimal comma, plain mode and the like
    instruments  the scales, glasses and droppers of the person
    """

    batches: tuple[Batch, ...] = ()
    firsts: tuple[Batch, ...] = ()
    current: int = -1
    draft: Batch | None = None
    wants: tuple[str, ...] = ()
    of_current: bool = True
    habits: tuple[object, ...] = ()
    instruments: Instruments = NONE

    @property
    def in_hand(self) -> Batch | None:
        """The batch a next sentence would be laid over, the draft before the plan."""
        if self.draft is not None:
            return self.draft
        return self.batches[self.current] if 0 <= self.current < len(self.batches) else None

    @property
    def figures(self) -> tuple[object, ...]:
        """The plans with the figures, names and states said of them: what a change changes."""
        return tuple(_figures(b) for b in self.batches), self._held(), self.habits, self.instruments

    def has_other_figures(self, before: Mark) -> bool:
        """Whether anything said of the plans has changed. Plans are never altered, so the same one needs no look inside."""
        owned = (self.habits, self.instruments) != (before.habits, before.instruments)
        return self._held() != before._held() or owned or self._differs(before, _figures)

    def has_other_shades(self, before: Mark) -> bool:
        """Whether anything else was heard of the plans: the rules listen for it, and a mere question may add to it."""
        return self._differs(before, lambda b: (b.tags, b.frames, b.denied))

    def _held(self) -> tuple[object, ...] | None:
        """The figures of the draft; None where there is none, or where it was only asked and nothing said."""
        if self.draft is None:
            return None
        held = _figures(self.draft)
        return None if 0 <= self.current < len(self.batches) and held == _figures(self.batches[self.current]) else held

    def _differs(self, before: Mark, what: Callable[[Batch], object]) -> bool:
        if len(self.batches) != len(before.batches):
            return True
        others = compress(zip(self.batches, before.batches, strict=True), map(is_not, self.batches, before.batches))
        return any(what(now) != what(then) for now, then in others)


def _figures(batch: Batch) -> tuple[object, ...]:
    facts = tuple(sorted((k, f.value, f.plus_minus or 0.0, f.tool) for k, f in batch.facts.items()))
    return batch.name, batch.alias, batch.tags & OWN_TAGS, facts, batch.members


@dataclass
class Journal:
    """The marks before each change, and those an undo has passed over."""

    before: list[Mark] = field(default_factory=list)
    behind: list[Mark] = field(default_factory=list)

    def note(self, mark: Mark) -> None:
        """A change was made; `mark` is the bench before it."""
        self.before.append(mark)
        del self.before[:-LONGEST_UNDO]
        self.behind.clear()

    def back(self, now: Mark) -> Mark | None:
        """The bench before the last change, None where there was none."""
        if not self.before:
            return None
        self.behind.append(now)
        return self.before.pop()

    def forth(self, now: Mark) -> Mark | None:
        """The bench as it was before the last undo, None where nothing was taken back."""
        if not self.behind:
            return None
        self.before.append(now)
        return self.behind.pop()
