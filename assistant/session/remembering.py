"""What a session keeps in its book as it goes: every turn, before it is answered; and the taking up of an earlier conversation.

A turn that cannot be kept is answered all the same, and says that it is not kept; it goes in with the next one that can.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.book import Book, BookFault, batches, belongings, conversations
from assistant.book.conversations import Conversation, Turn
from assistant.book.delta import difference
from assistant.dataclass import dataclass, replace
from assistant.faults import BenchError
from assistant.reply import Question, Reply
from assistant.session.instruments import Instruments, from_data
from assistant.session.journal import Journal, Mark
from assistant.session.own import in_force
from assistant.session.standing import Tree, Written, as_tree, mark_from, stand

if TYPE_CHECKING:
    from assistant.session.conversation import Session

HABITS = "habits"
INSTRUMENTS = "instrument"
HABIT_NAMES = ("measures", "decimal_comma", "plain", "fahrenheit", "giving_back")
HABIT_VALUES = (True, False, "us", "imperial", "metric", "australian")
FORGET = "forget that"  # what is kept of the sentence that asks for it
MOST_WAITING = 500  # turns that wait for a disk to come back


class Recording(Journal):
    """A journal that says which steps were taken since it was last asked: "n" a change noted, "b" back, "f" forth."""

    moves: str = ""

    def note(self, mark: Mark) -> None:
        super().note(mark)
        self.moves += "n"

    def back(self, now: Mark) -> Mark | None:
        mark = super().back(now)
        self.moves += "b" if mark is not None else ""
        return mark

    def forth(self, now: Mark) -> Mark | None:
        mark = super().forth(now)
        self.moves += "f" if mark is not None else ""
        return mark

    def taken(self) -> str:
        moves, self.moves = self.moves, ""
        return moves


class _Abandoned(Exception):
    """What a turn has written is taken back."""


class Memory:
    """The book of a session, and how far the conversation in it has come.

    path    the file; None for a book in memory, where conversations are not kept
    today   what day it is
    """

    def __init__(self, path: Path | None, today: Callable[[], date]) -> None:
        self.path = path
        self.today = today
        self.trouble: BenchError | None = None
        self.hindrance: BenchError | None = None  # why the last conversation could not be taken up
        self.told = False  # that nothing is kept
        self.conversation: int | None = None
        self.filed: Tree = {}  # the bench after the last turn that is in the book
        self.stored: Tree = {}  # the bench after the last turn, in the book or waiting
        self.waiting: list[Turn] = []
        self.lot_in_hand: int | None = None  # the lot kept or spoken of last
        self.dates: dict[str, date] = {}  # told before there was a lot to put them to
        self.forgotten: list[str] = []  # sentences that are to go from wherever else they are kept
        self._written = Written()
        self._book: Book | None = None
        self._open: ExitStack | None = None
        self._was: int | None = None
        self._turn_id = 0
        self._heard = ""
        self._entered = False
        self._wipe = False
        if path is not None:
            try:
                self._book = Book(path)
                self.trouble = self._book.trouble
            except BookFault as fault:
                self.trouble = fault

    @property
    def book(self) -> Book:
        """The book, one in memory where no file is to be had."""
        if self._book is None:
            self._book = Book()
        return self._book

    @property
    def is_begun(self) -> bool:
        """Whether there is a book at all: a session in memory makes none before it is asked to keep something."""
        return self._book is not None

    def lots_named(self, text: str) -> list[str]:
        """Lots of the book that stand in a sentence by their mere name, so that "H-12" is read as no figure."""
        if self._book is None:
            return []
        try:
            return batches.standing_in(self._book, text)
        except BookFault:
            return []

    @property
    def is_kept(self) -> bool:
        """Whether turns are meant to go into a file."""
        return self.path is not None

    def begin(self, session: Session) -> None:
        """Called once, with the session as it begins: the person's habits are taken up."""
        if not self.is_kept:
            return
        session.journal = Recording()
        if self.is_begun:
            try:
                _take_up_habits(session, belongings.get(self.book, HABITS, "bench") or {})
                session.instruments = _instruments_of(self.book)
            except BookFault as fault:
                self.trouble = fault
        self.filed = self.stored = as_tree(session, self._written)

    # ── one turn ─────────────────────────────────────────────────────────────────────────────────────────────────────

    def remembered(self, session: Session, text: str, say: Callable[[str], Reply]) -> Reply:
        """Answer a sentence, and keep the turn before the answer is given."""
        with in_force(self._book):
            return self._remembered(session, text, say)

    def _remembered(self, session: Session, text: str, say: Callable[[str], Reply]) -> Reply:
        if not self.is_kept or not text.strip():
            return say(text)
        self._heard, self._entered, self._turn_id = text, False, 0
        try:
            reply = say(text)
            try:
                self._keep(session, reply)
            except BenchError as fault:
                return self._unkept(reply, fault)
            self.told = False
            if self.hindrance is not None:
                reply = reply.model_copy(update={"text": f"{reply.text}\n({self.hindrance})"})
                self.hindrance = None
            return reply
        finally:
            self.abandon()

    @contextmanager
    def entering(self, session: Session) -> Iterator[int | None]:
        """Where something is kept beside the turn: one transaction with the turn, whose id is given (None for a book in memory).

        fails   BookFault, where it cannot be kept; then nothing of the turn is, so far
        """
        if not self.is_kept:
            with self.book.writing():
                yield None
            return
        self._open_turn(session)
        self._entered = True
        try:
            yield self._turn_id
        except BaseException:
            self.abandon()
            raise

    def abandon(self) -> None:
        """Take back what this turn has written and not finished."""
        stack, self._open = self._open, None
        if stack is not None:
            self.conversation = self._was
            with suppress(_Abandoned):
                stack.__exit__(_Abandoned, _Abandoned(), None)

    def _open_turn(self, session: Session) -> None:
        if self._open is not None:
            return
        if self.trouble is not None and (self._book is None or not self._book.is_file):
            raise self.trouble
        self._was = self.conversation
        stack = ExitStack()
        stack.enter_context(self.book.writing())
        self._open = stack
        try:
            first = self.waiting[0].n if self.waiting else session.turn
            if self.conversation is None or conversations.is_taken(self.book, self.conversation, first):
                self.conversation = conversations.begin(self.book, self.today(), self.filed)
            for turn in self.waiting:
                conversations.add(self.book, self.conversation, turn)
            opened = Turn(session.turn, self.today().isoformat(), self._heard, "", {})
            self._turn_id = conversations.add(self.book, self.conversation, opened)
        except BaseException:
            self.abandon()
            raise

    def _keep(self, session: Session, reply: Reply) -> None:
        state = as_tree(session, self._written)
        delta = difference(self.stored, state)
        moves = session.journal.taken() if isinstance(session.journal, Recording) else ""
        try:
            self._open_turn(session)
            conversations.finish(self.book, self._turn_id, reply.status, delta, moves)
            if state["habits"] != self.stored["habits"]:
                belongings.put(self.book, HABITS, "bench", {name: getattr(session, name) for name in HABIT_NAMES})
            if state.get("instruments") != self.stored.get("instruments"):
                self._keep_instruments(state.get("instruments") or {})
            assert self._open is not None
            self._open.close()
            self._open = None
            if self._wipe:
                self.book.wipe_traces()
                self._wipe = False
        except BenchError:
            self.abandon()
            self._wait(Turn(session.turn, self.today().isoformat(), self._heard, reply.status, delta, moves), state)
            raise
        self.filed = self.stored = state
        self.waiting, self.trouble = [], None

    def _keep_instruments(self, now: Tree) -> None:
        """What changed of the person's instruments goes into the book; each is kept by the turn that told it, and is forgotten with it."""
        before = belongings.of_kind(self.book, INSTRUMENTS)
        for name in before.keys() - now.keys():
            belongings.drop(self.book, INSTRUMENTS, name)
        for name, data in now.items():
            if before.get(name) != data:
                belongings.put(self.book, INSTRUMENTS, name, data, self._turn_id)

    def _wait(self, turn: Turn, state: Tree) -> None:
        """Hold a turn back until the book can be written again."""
        if len(self.waiting) >= MOST_WAITING:
            self.waiting, self.stored = [], self.filed  # their sentences are lost, as was told; what they changed is not
        else:
            self.waiting.append(turn)
            self.stored = state

    def _unkept(self, reply: Reply, fault: BenchError) -> Reply:
        self.trouble = fault
        if self._entered:  # it says that something was kept, and nothing was
            ask = fault.try_this or "Can you try again?"
            return reply.model_copy(
                update={"status": "refused", "text": f"Nothing was kept: {fault}", "values": (), "steps": (), "questions": (Question(text=ask),)}
            )
        note = "(Not kept either.)" if self.told else f"(We go on, but this conversation is not kept: {fault})"
        self.told = True
        return reply.model_copy(update={"text": f"{reply.text}\n{note}"})

    # ── earlier conversations ────────────────────────────────────────────────────────────────────────────────────────

    def last_conversation(self) -> Conversation | None:
        """The conversation in which something was said last; None where there is none, or this very one has begun."""
        if not self.is_kept or not self.is_begun or not self.book.is_file or self.conversation is not None:
            return None
        found = conversations.last(self.book)
        return None if found is None else conversations.read(self.book, found)

    def go_on(self, session: Session) -> Conversation | None:
        """Take up the last conversation where there is one; what stands in the way is told with the next turn. None where there is none."""
        try:
            last = self.last_conversation()
            if last is not None:
                self.take_up(session, last)
        except BenchError as fault:
            self.hindrance = fault
            return None
        return last

    def take_up(self, session: Session, conversation: Conversation) -> None:
        """Go on where an earlier conversation ended. Fails with BenchError and leaves the session as it is."""
        states = conversation.states()
        journal = _journal_of(conversation, states)
        with in_force(self._book):
            stand(session, states[-1])
        owned = _instruments_of(self.book)  # whatever conversation they were told in
        if owned != session.instruments:  # told elsewhere since: to undo a sentence of this talk must not take them away
            session.instruments = owned
            journal.before = [replace(mark, instruments=owned) for mark in journal.before]
            journal.behind = [replace(mark, instruments=owned) for mark in journal.behind]
        session.journal = journal
        session.turn = max([session.turn, *(turn.n for turn in conversation.turns)])
        self.conversation = conversation.id
        self.filed = self.stored = as_tree(session, self._written)
        if difference(states[-1], self.stored):
            # what comes next is told against the state in the book, not against what this program makes of it
            self.filed = self.stored = states[-1]

    def forget(self, session: Session) -> Forgotten | None:
        """Remove for good the last turn that changed or kept something, or the last of all; the bench goes back to before it. None where there is none."""
        if self.conversation is None or self.waiting:
            return None
        conversation = conversations.read(self.book, self.conversation)
        before = [turn for turn in conversation.turns if turn.id != self._turn_id]
        if not before:
            return None
        kept_by = conversations.that_kept(self.book, self.conversation)
        telling = [turn for turn in before if "n" in turn.moves or turn.id in kept_by]
        turn = telling[-1] if telling else before[-1]
        later = "".join(t.moves for t in before if t.n > turn.n)
        undone = later.count("b") > later.count("f")  # then the bench stands without it already
        self._heard = FORGET
        with self.entering(session):
            kept = conversations.forget(self.book, self.conversation, turn.n)
            found = conversations.read(self.book, self.conversation)
        left = Conversation(found.id, found.begun, found.opening, tuple(t for t in found.turns if t.id != self._turn_id))
        states = left.states()
        journal, now = _journal_of(left, states), session.turn
        if not undone:
            stand(session, states[-1])
        session.instruments = _instruments_of(self.book)
        session.journal, session.turn = journal, now
        self.stored = states[-1]
        self.forgotten.append(turn.heard)
        self._wipe = True
        return Forgotten(turn.heard, tuple(kept))


@dataclass(frozen=True, slots=True)
class Forgotten:
    """A sentence that is gone, and what had been kept by it."""

    heard: str
    kept: tuple[str, ...]


def _journal_of(conversation: Conversation, states: list[Tree]) -> Recording:
    """The steps of undo, taken again turn by turn."""
    journal = Recording()
    marks: dict[int, Mark] = {}

    def mark_at(place: int) -> Mark:
        if place not in marks:
            marks[place] = mark_from(states[place])
        return marks[place]

    for place, turn in enumerate(conversation.turns):
        now: Mark | None = None
        for move in turn.moves:
            if move == "n":
                journal.note(mark_at(place))
            elif move == "b":
                now = journal.back(now or mark_at(place))
            else:
                now = journal.forth(now or mark_at(place))
    journal.taken()
    return journal


def _instruments_of(book: Book) -> Instruments:
    """The instruments in the book; one that cannot be read is left out, and told again it is there."""
    found = []
    for data in belongings.of_kind(book, INSTRUMENTS).values():
        with suppress(BenchError):
            found.append(from_data(data))
    return Instruments(found)


def _take_up_habits(session: Session, kept: Tree) -> None:
    for name in HABIT_NAMES:
        if name in kept and type(kept[name]) is type(getattr(session, name)) and kept[name] in HABIT_VALUES:
            setattr(session, name, kept[name])
