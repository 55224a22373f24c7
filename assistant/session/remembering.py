"""What a session keeps in its book as it goes: every turn, before it is answered; and the taking up of an earlier conversation.

A turn that cannot be kept is answered all the same, and says that it is not kept; it goes in with the next one that can.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.book import Book, BookFault, belongings, conversations
from assistant.book.conversations import Conversation, Turn
from assistant.book.delta import difference
from assistant.faults import BenchError
from assistant.reply import Reply
from assistant.session.journal import Journal, Mark
from assistant.session.standing import as_tree, mark_from, stand

if TYPE_CHECKING:
    from assistant.session.conversation import Session

HABITS = "habits"
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


class Memory:
    """The book of a session, and how far the conversation in it has come.

    path    the file; None for a book in memory, where conversations are not kept
    today   what day it is
    """

    def __init__(self, path: Path | None, today: Callable[[], date]) -> None:
        self.path = path
        self.today = today
        self.trouble: BookFault | None = None
        self.told = False
        self.conversation: int | None = None
        self.stored: dict[str, Any] = {}
        self.waiting: list[Turn] = []
        self.turn_id: int | None = None
        self._book: Book | None = None
        self._open: ExitStack | None = None
        self._heard = ""
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

    @property
    def is_kept(self) -> bool:
        """Whether turns go into a file."""
        return self.path is not None

    # ── one turn ─────────────────────────────────────────────────────────────────────────────────────────────────────

    def begin(self, session: Session) -> None:
        """Called once, with the session as it begins: the person's habits are taken up."""
        if not self.is_kept:
            return
        session.journal = Recording()
        if self.is_begun:
            try:
                kept = belongings.get(self.book, HABITS, "bench")
            except BookFault as fault:
                self.trouble, kept = fault, None
            if kept is not None and _fits(session, kept):
                for name, value in kept.items():
                    setattr(session, name, value)
        self.stored = as_tree(session)

    def remembered(self, session: Session, text: str, say: Callable[[str], Reply]) -> Reply:
        """Answer a sentence, and keep the turn before the answer is given."""
        if not self.is_kept or not text.strip():
            return say(text)
        self._heard = text
        try:
            reply = say(text)
            try:
                self._keep(session, reply)
            except BenchError as fault:
                return self._unkept(reply, fault)
            self.told = False
            return reply
        finally:
            self._leave()

    @contextmanager
    def writing(self, session: Session) -> Iterator[int | None]:
        """Where something is kept beside the turn: all in one transaction with the turn, whose id is given (None in memory).

        fails   BookFault, where it cannot be kept; nothing is then
        """
        if not self.is_kept:
            with self.book.writing():
                yield None
            return
        if self.trouble is not None and (self._book is None or self._book.path is None):
            raise self.trouble
        if self._open is None:
            stack = ExitStack()
            stack.enter_context(self.book.writing())
            self._open = stack
            try:
                self._catch_up(session)
                self.turn_id = conversations.add(self.book, self.conversation or 0, Turn(session.turn, self._today(), self._heard, "", {}))
            except BaseException:
                self.abandon()
                raise
        try:
            yield self.turn_id
        except BaseException:
            self.abandon()
            raise

    def abandon(self) -> None:
        """Take back what this turn has written."""
        stack, self._open, self.turn_id = self._open, None, None
        if stack is not None:
            try:
                stack.__exit__(_Abandoned, _Abandoned(), None)
            except _Abandoned:
                pass

    def _leave(self) -> None:
        self.abandon()
        self.turn_id = None

    def _today(self) -> str:
        return self.today().isoformat()

    def _catch_up(self, session: Session) -> None:
        """Inside a transaction: see to it that there is a conversation for this turn, and put in what has waited."""
        book = self.book
        first = self.waiting[0].n if self.waiting else session.turn
        if self.conversation is None or conversations.is_taken(book, self.conversation, first):
            self.conversation = conversations.begin(book, self.today(), self.stored)
        for turn in self.waiting:
            conversations.add(book, self.conversation, turn)

    def _keep(self, session: Session, reply: Reply) -> None:
        state = as_tree(session)
        delta = difference(self.stored, state)
        moves = session.journal.taken() if isinstance(session.journal, Recording) else ""
        turn = Turn(session.turn, self._today(), self._heard, reply.status, delta, moves)
        was = self.conversation
        try:
            if self.trouble is not None and self.trouble.reason not in ("full", "busy"):
                raise self.trouble
            with self.writing(session) as turn_id:
                if state["habits"] != self.stored.get("habits"):
                    belongings.put(self.book, HABITS, "bench", _habits(session), None)
                conversations.finish(self.book, turn_id or 0, reply.status, delta, moves)
            stack, self._open = self._open, None
            if stack is not None:
                stack.close()
        except BenchError:
            self.conversation = was if not self._is_there(was) else was
            self._wait(turn, state)
            raise
        self.stored, self.waiting, self.trouble = state, [], None

    def _is_there(self, conversation: int | None) -> bool:
        return conversation is not None

    def _wait(self, turn: Turn, state: dict[str, Any]) -> None:
        """Hold a turn back until the book can be written again; its delta goes from the one before it."""
        if len(self.waiting) < MOST_WAITING:
            self.waiting.append(turn)
            self._after_waiting = state

    def _unkept(self, reply: Reply, fault: BenchError) -> Reply:
        if isinstance(fault, BookFault):
            self.trouble = fault
        note = "(Not kept either.)" if self.told else f"(This conversation goes on, but it is not kept: {fault})"
        self.told = True
        return reply.model_copy(update={"text": f"{reply.text}\n{note}"})
