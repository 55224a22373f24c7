"""Conversations: each sentence as it was heard, and what it changed.

A conversation begins from an opening state (empty, but where it was taken up from one that another terminal is holding), and each
turn adds its delta. `moves` are the steps of undo and redo: "n" a change was noted, "b" one step back, "f" one step forth.
"""

from __future__ import annotations

import json
from datetime import date

from assistant.book.book import Book
from assistant.book.delta import State, patched
from assistant.dataclass import dataclass
from assistant.faults import FileFault


@dataclass(frozen=True, slots=True)
class Turn:
    """One sentence as heard, with the status of its reply, what it changed, and its steps of undo."""

    n: int
    said_on: str
    heard: str
    status: str
    delta: State
    moves: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class Conversation:
    id: int
    begun: str
    opening: State
    turns: tuple[Turn, ...]

    def states(self) -> list[State]:
        """The state before the first turn and after each."""
        states = [self.opening]
        for turn in self.turns:
            states.append(patched(states[-1], turn.delta))
        return states


def begin(book: Book, on: date, opening: State | None = None) -> int:
    """A new conversation; its id."""
    return book.add("conversations", begun=on.isoformat(), opening=_text(opening or {}))


def add(book: Book, conversation: int, turn: Turn) -> int:
    """Keep a turn; its id. Fails with BookFault (refused) where another terminal has kept a turn of that number in this conversation."""
    return book.add(
        "turns", conversation=conversation, n=turn.n, said_on=turn.said_on, heard=storable(turn.heard), status=turn.status,
        delta=_text(turn.delta), moves=turn.moves,
    )  # fmt: skip


def finish(book: Book, turn_id: int, status: str, delta: State, moves: str) -> None:
    """What became of a turn that was kept before it was answered."""
    book.alter("turns", turn_id, status=status, delta=_text(delta), moves=moves)


def is_taken(book: Book, conversation: int, n: int) -> bool:
    """Whether another terminal has gone on with this conversation."""
    return book.row("SELECT 1 FROM turns WHERE conversation = ? AND n >= ?", conversation, n) is not None


def last(book: Book) -> int | None:
    """The conversation in which something was said last; None where nothing was ever said."""
    row = book.row("SELECT conversation FROM turns ORDER BY id DESC LIMIT 1")
    return None if row is None else int(row["conversation"])


def read(book: Book, conversation: int) -> Conversation:
    """A conversation with all its turns.

    fails   FileFault, where it is not there or cannot be read
    """
    head = book.row("SELECT * FROM conversations WHERE id = ?", conversation)
    if head is None:
        raise FileFault(f"there is no conversation {conversation} in the book", where=book.where, try_this="begin a new one")
    rows = book.rows("SELECT * FROM turns WHERE conversation = ? ORDER BY n", conversation)
    turns = tuple(Turn(r["n"], r["said_on"], r["heard"], r["status"], _state(r["delta"], book), r["moves"], r["id"]) for r in rows)
    return Conversation(head["id"], head["begun"], _state(head["opening"], book), turns)


KEPT_BY_TURN = ("gatherings", "batches", "movements", "bottlings", "measured", "checks", "belongings")


def that_kept(book: Book, conversation: int) -> frozenset[int]:
    """Ids of the turns of a conversation by which something was kept."""
    union = " UNION ".join(f"SELECT turn FROM {table} WHERE turn IN (SELECT id FROM turns WHERE conversation = ?)" for table in KEPT_BY_TURN)
    return frozenset(row["turn"] for row in book.rows(union, *[conversation] * len(KEPT_BY_TURN)))


def forget(book: Book, conversation: int, n: int) -> list[str]:
    """Remove a turn for good, with everything that was kept by it; the later turns, which changed nothing, stay as sentences. What went, in words.

    The caller sees to it that no later turn changed anything, and wipes the traces when the transaction is done.
    """
    row = book.row("SELECT id FROM turns WHERE conversation = ? AND n = ?", conversation, n)
    if row is None:
        return []
    gone = []
    for table in KEPT_BY_TURN:
        count = book.run(f"DELETE FROM {table} WHERE turn = ?", row["id"])
        if count:
            gone.append(f"{count} of {table}")
    unused = "NOT EXISTS (SELECT 1 FROM movements WHERE item = items.id) AND NOT EXISTS (SELECT 1 FROM components WHERE item = items.id)"
    book.run(f"DELETE FROM items WHERE {unused}")
    book.run("DELETE FROM turns WHERE id = ?", row["id"])
    book.run("UPDATE turns SET delta = '{}', moves = '' WHERE conversation = ? AND n > ?", conversation, n)
    return gone


def storable(text: str) -> str:
    """A text that any encoding can bear: half of a pair of surrogates becomes U+FFFD."""
    try:
        text.encode()
    except UnicodeEncodeError:
        return text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return text


def _text(state: State) -> str:
    return storable(json.dumps(state, ensure_ascii=False, separators=(",", ":"), allow_nan=False))


def _state(text: str, book: Book) -> State:
    try:
        state = json.loads(text)
    except ValueError as fault:
        raise FileFault("a turn of the conversation cannot be read", where=book.where, try_this="begin a new conversation") from fault
    if not isinstance(state, dict):
        raise FileFault("a turn of the conversation cannot be read", where=book.where, try_this="begin a new conversation")
    return state
