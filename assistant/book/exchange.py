"""A whole book out to a JSON file, and back into an empty one.

The file is an object:
    format, version   "gallipot book", 1
    conversations     each with its turns: the sentence as heard, its status, what it changed
    gatherings        plant, part, place, date, weight, stand and share, permission
    batches           with components, bottlings and checks inside; `record` is the frozen part
    items, movements  the shelf, and what came and went
    measured          the person's own numbers
    belongings        whatever else is theirs
Lists go by id, so that the same book gives the same bytes; inside `delta` the order of the keys counts. Ids point within the file. Dates are ISO, amounts in g
or mL where no unit stands beside them, strengths in percent. A reader may rely on version 1 never changing its meaning.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from assistant.book.book import Book
from assistant.book.borders import BookIn
from assistant.book.conversations import storable
from assistant.book.fault import BookFault
from assistant.faults import FileFault
from assistant.newfile import ELSEWHERE, write_new

FORMAT, VERSION = "gallipot book", 1
LARGEST = 1 << 30  # bytes of a file that is read; a year of a busy bench is a few million
DEEPEST = 60
_JSON = {"turns": ("delta",), "conversations": ("opening",), "batches": ("record",), "belongings": ("data",)}
_INSIDE = {"turns": ("conversations", "conversation"), "components": ("batches", "batch"), "bottlings": ("batches", "batch"), "checks": ("batches", "batch")}


def book_as_text(book: Book, *, turns: bool = True) -> str:
    """The book as JSON text, ending in a newline; without the conversations where `turns` is False."""
    return json.dumps(book_as_tree(book, turns=turns), ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def book_as_tree(book: Book, *, turns: bool = True) -> dict[str, Any]:
    with _at_one_moment(book):
        tree: dict[str, Any] = {"format": FORMAT, "version": VERSION}
        for table in ("conversations", "gatherings", "batches", "items", "movements", "measured", "belongings"):
            tree[table] = [_row(table, row) for row in book.rows(f"SELECT * FROM {table} ORDER BY id")]
        for table, (outer, key) in _INSIDE.items():
            homes = {row["id"]: row for row in tree[outer]}
            for row in homes.values():
                row[table] = []
            for row in book.rows(f"SELECT * FROM {table} ORDER BY id"):
                inner = _row(table, row)
                homes[inner.pop(key)][table].append(inner)
    if not turns:
        tree["conversations"] = []
        outer_rows = [tree[t] for t in ("gatherings", "batches", "movements", "measured", "belongings")]
        for rows in (*outer_rows, *(b[t] for b in tree["batches"] for t in ("bottlings", "checks"))):
            for row in rows:
                row["turn"] = None
    return tree


@contextmanager
def _at_one_moment(book: Book) -> Iterator[None]:
    """All tables as they stood at the same moment, though another terminal goes on writing."""
    book.rows("BEGIN")
    try:
        yield
    finally:
        book.rows("COMMIT")


def _row(table: str, row: Any) -> dict[str, Any]:
    fields = dict(row)
    for name in _JSON.get(table, ()):
        fields[name] = json.loads(fields[name])
    return fields


def export(book: Book, place: Path, *, turns: bool = True) -> None:
    """Write the book to a file for its owner alone; a file of that name is replaced only when all is written."""
    write_new(place, book_as_text(book, turns=turns), replace=True, try_this=ELSEWHERE)


def bring_in(book: Book, place: Path) -> bool:
    """Read an export into an empty book; True where it came in, False where the book holds just that already.

    fails   FileFault or BookFault; then the book is as it was
    """
    return bring_in_text(book, _read(place), str(place))


def _read(place: Path) -> str:
    try:
        if place.stat().st_size > LARGEST:
            raise FileFault("that file is too large to be an export", where=str(place), try_this="name the file that --export wrote")
        return place.read_text(encoding="utf-8")
    except OSError as fault:
        words = (fault.strerror or str(fault)).lower()
        raise FileFault(f"it cannot be read: {words}", where=str(place), try_this="name the file that --export wrote") from fault
    except UnicodeError as fault:
        raise FileFault("that file is no text", where=str(place), try_this="name the file that --export wrote") from fault


def bring_in_text(book: Book, text: str, where: str = "the import") -> bool:
    """The same for the text of an export."""
    checked = _checked(text, where)
    if not book.is_empty:
        if book_as_tree(book) == checked.model_dump(mode="json"):
            return False
        raise BookFault("an export is read into an empty book only", reason="refused", where=book.where, try_this="name a new one with --book FILE")
    with book.writing():
        if not book.is_empty:  # another terminal was faster
            raise BookFault("an export is read into an empty book only", reason="refused", where=book.where, try_this="name a new one with --book FILE")
        try:
            _write(book, checked)
        except BookFault as fault:
            if fault.reason == "refused":
                what = "it does not fit together: an id twice, or one that points nowhere"
                raise FileFault(what, where=where, try_this="name the file that --export wrote") from fault
            raise
    return True


def _checked(text: str, where: str) -> BookIn:
    try:
        tree = json.loads(text, parse_constant=_no_number, parse_float=_finite, object_pairs_hook=_each_key_once)
        _can_be_kept(tree)
        checked = BookIn.model_validate(tree)
    except RecursionError as fault:
        raise FileFault("it is nested too deep", where=where, try_this="name the file that --export wrote") from fault
    except ValidationError as fault:
        first = fault.errors(include_url=False, include_input=False)[0]
        at = ".".join(str(step) for step in first["loc"])[:120]
        raise FileFault(f"{first['msg'][:160]}", where=f"{where}, {at}" if at else where, try_this="name the file that --export wrote") from fault
    except ValueError as fault:
        raise FileFault(f"it is no JSON of an export: {str(fault)[:160]}", where=where, try_this="name the file that --export wrote") from fault
    return checked


def _no_number(name: str) -> float:
    raise ValueError(f"{name} is no number")


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    tree = dict(pairs)
    if len(tree) != len(pairs):
        raise ValueError("a key stands twice")
    return tree


def _finite(digits: str) -> float:
    value = float(digits)
    if not math.isfinite(value):
        raise ValueError(f"{digits[:20]} is too large a number")
    return value


def _can_be_kept(tree: Any) -> None:
    """Not deeper than any book is, and every text one that can be written down again."""
    level = [tree]
    for _ in range(DEEPEST):
        if not level:
            return
        texts = [one for one in level if isinstance(one, str)] + [key for one in level if isinstance(one, dict) for key in one]
        if any(storable(text) != text for text in texts):
            raise ValueError("half a character")
        level = [inner for one in level if isinstance(one, dict | list) for inner in (one.values() if isinstance(one, dict) else one)]
    raise ValueError("it is nested too deep")


def _write(book: Book, checked: BookIn) -> None:
    for conversation in checked.conversations:
        book.add("conversations", id=conversation.id, begun=conversation.begun, opening=_text(conversation.opening))
        for turn in conversation.turns:
            book.add("turns", conversation=conversation.id, **turn.model_dump(exclude={"delta"}), delta=_text(turn.delta))
    for gathering in checked.gatherings:
        book.add("gatherings", **gathering.model_dump())
    for batch in checked.batches:
        book.add("batches", **batch.model_dump(exclude={"record", "components", "bottlings", "checks"}), record=_sorted(batch.record))
    for item in checked.items:
        book.add("items", **item.model_dump())
    for batch in checked.batches:
        for table in ("components", "bottlings", "checks"):
            for row in getattr(batch, table):
                book.add(table, batch=batch.id, **row.model_dump())
    for movement in checked.movements:
        book.add("movements", **movement.model_dump())
    for measured in checked.measured:
        book.add("measured", **measured.model_dump())
    for belonging in checked.belongings:
        book.add("belongings", **belonging.model_dump(exclude={"data"}), data=_sorted(belonging.data))


def _text(tree: dict[str, Any]) -> str:
    return json.dumps(tree, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def _sorted(tree: dict[str, Any]) -> str:
    return json.dumps(tree, ensure_ascii=False, sort_keys=True, allow_nan=False)
