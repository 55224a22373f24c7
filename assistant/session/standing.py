"""The bench at one moment as a tree of plain data, and back: what the book keeps of a conversation, and takes up again.

Fields that hold their usual value are left out. What comes back is checked field by field: a book may have been tampered with.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from assistant.dataclass import defaults
from assistant.faults import FileFault
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Caution
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out
from assistant.session.instruments import Instruments, as_data, from_data
from assistant.session.journal import Mark

if TYPE_CHECKING:
    from assistant.session.conversation import Session

Tree = dict[str, Any]

# attributes of a session: how each is kept (tuple: texts in a row, float: figures in a row). What a mark holds is kept through it.
IN_THE_MARK = frozenset({"instruments", "batches", "firsts", "current", "draft", "wants", "measures", "decimal_comma", "plain", "fahrenheit", "giving_back"})
KEPT = {"previous": int, "last_keys": tuple, "practises": bool, "muted": set, "weighing": bool, "halted": bool, "disputed": tuple, "sizes": float}
KEPT_APART = frozenset({"last", "last_cautions", "journal"})
# What only the sentence just said leans on, or what belongs to the process and not to the talk.
PASSING = frozenset(
    """turn filled reach both_weights cautioned rewinding went gap pair conversion twice_weighed weighings _lesson claimed pack
    _memory _book_file _today writer""".split()
)


# ── a batch ──────────────────────────────────────────────────────────────────────────────────────────────────────────────


@lru_cache(maxsize=4)
def _usual(kind: type) -> dict[str, Any]:
    """The usual value of each field of a record; ABSENT where there is none."""
    return defaults(kind)


def batch_as_tree(batch: Batch) -> Tree:
    tree: Tree = {}
    for name, usual in _usual(Batch).items():
        value = getattr(batch, name)
        if name == "facts":
            if value:
                tree["facts"] = {key: fact_as_tree(fact) for key, fact in value.items()}
        elif value != usual:
            tree[name] = _plain(value)
    return tree


def fact_as_tree(fact: Fact) -> Tree:
    return {name: _plain(value) for name, usual in _usual(Fact).items() if (value := getattr(fact, name)) != usual}


def _plain(value: Any) -> Any:
    if isinstance(value, frozenset | set):
        return sorted(_plain(v) for v in value)
    if isinstance(value, tuple | list):
        return [_plain(v) for v in value]
    if isinstance(value, Mapping):
        return {str(k): _plain(v) for k, v in value.items()}
    return value


def batch_from(tree: Any) -> Batch:
    """A batch read back. Fails with FileFault on anything that is none."""
    known = _usual(Batch)
    read: dict[str, Any] = {}
    for name, value in _dict(tree).items():
        if name == "facts":
            read["facts"] = MappingProxyType({_key(key): fact_from(fact) for key, fact in _dict(value).items()})
        elif name in known:
            read[name] = _like(known[name], value)
        else:
            raise _unreadable(f"a batch has no “{name}”")
    for key in (*read.get("wanted", ()), *read.get("changed", ())):
        _key(key)
    return Batch(**read)


def fact_from(tree: Any) -> Fact:
    known = _usual(Fact)
    read: dict[str, Any] = {}
    for name, value in _dict(tree).items():
        if name not in known:
            raise _unreadable(f"a figure has no “{name}”")
        if name == "value" or known[name] is None or isinstance(known[name], float):
            read[name] = None if value is None and known[name] is None else _number(name, value)
        else:
            read[name] = _like(known[name], value)
    if "value" not in read:
        raise _unreadable("a figure without a value")
    return Fact(**read)


def _like(usual: Any, value: Any) -> Any:
    """A value of the kind that the usual one is."""
    if isinstance(usual, frozenset | set):
        return type(usual)(_texts(value))
    if isinstance(usual, tuple):
        return tuple(_texts(value))
    if type(value) is not type(usual):
        raise _unreadable(f"{type(usual).__name__} expected, {type(value).__name__} found")
    return value


def _number(name: str, value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not -1e300 < value < 1e300:
        raise _unreadable(f"“{name}” of a figure is no number")
    return value


def _key(key: Any) -> str:
    if not isinstance(key, str) or base(key) not in VOCABULARY:
        raise _unreadable(f"“{str(key)[:40]}” is no quantity")
    return key


def _dict(tree: Any) -> dict[str, Any]:
    if not isinstance(tree, dict):
        raise _unreadable("a record is expected")
    return tree


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise _unreadable("a list is expected")
    return value


def _texts(value: Any) -> list[str]:
    if not all(isinstance(v, str) for v in _list(value)):
        raise _unreadable("texts are expected")
    return list(value)


def _unreadable(why: str) -> FileFault:
    return FileFault(f"that conversation cannot be taken up: {why}", try_this="begin a new one; what was kept is still in the book")


# ── the whole bench ──────────────────────────────────────────────────────────────────────────────────────────────────────


class Written:
    """Trees of batches that were written down already: most plans of a long conversation do not change from turn to turn."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[Batch, Tree]] = {}

    def all_of(self, batches: Iterable[Batch], firsts: Iterable[Batch]) -> tuple[Tree, Tree]:
        fresh: dict[int, tuple[Batch, Tree]] = {}

        def tree_of(batch: Batch) -> Tree:
            found = fresh.get(id(batch)) or self._known.get(id(batch))
            fresh[id(batch)] = found = found or (batch, batch_as_tree(batch))
            return found[1]

        trees = tuple({str(n): tree_of(b) for n, b in enumerate(row)} for row in (batches, firsts))
        self._known = fresh
        return trees[0], trees[1]


def as_tree(session: Session, written: Written | None = None) -> Tree:
    """The bench as it stands. The trees of its batches are never changed afterwards."""
    mark = session.mark()
    batches, firsts = (written or Written()).all_of(mark.batches, mark.firsts)
    tree: Tree = {
        "batches": batches,
        "firsts": firsts,
        "current": mark.current,
        "wants": list(mark.wants),
        "of_current": mark.of_current,
        "habits": list(mark.habits),
    }
    if mark.instruments:
        tree["instruments"] = {i.name: as_data(i) for i in mark.instruments}
    if mark.draft is not None:
        tree["draft"] = batch_as_tree(mark.draft)
    for name in KEPT:
        tree[name] = _plain(getattr(session, name))
    tree["last_cautions"] = [c.model_dump(mode="json") for c in session.last_cautions]
    if session.last is not None:
        last = batch_as_tree(session.last.batch)
        in_hand = batch_as_tree(session.batch) if session.batch is not None else {}
        spoken = in_hand.get("spoken")
        tree["last"] = "in hand" if last | {"spoken": spoken} == in_hand | {"spoken": spoken} else last
    return tree


def mark_from(tree: Tree) -> Mark:
    """The part of a bench that undo goes back to."""
    if not tree:
        return Mark()
    return Mark(
        batches=tuple(batch_from(b) for b in _dict(tree.get("batches")).values()),
        firsts=tuple(batch_from(b) for b in _dict(tree.get("firsts")).values()),
        current=_like(0, tree.get("current")),
        draft=batch_from(tree["draft"]) if "draft" in tree else None,
        wants=tuple(_texts(tree.get("wants"))),
        of_current=_like(True, tree.get("of_current")),
        habits=tuple(_list(tree.get("habits"))),
        instruments=Instruments(from_data(one) for one in _dict(tree.get("instruments") or {}).values()),
    )


def stand(session: Session, tree: Tree) -> None:
    """Put the bench to where the tree says. Fails with FileFault and leaves the bench as it is."""
    mark = mark_from(tree)
    if not -1 <= mark.current < max(len(mark.batches), 1) or len(mark.firsts) != len(mark.batches):
        raise _unreadable("a plan is missing")
    now = session.mark()
    if [type(h) for h in mark.habits] != [type(h) for h in now.habits] or mark.habits[0] not in ("us", "imperial", "metric", "australian"):
        raise _unreadable("habits of another kind")
    read = {name: _kept(kind, tree.get(name)) for name, kind in KEPT.items()}
    if read["previous"] is not None and not 0 <= read["previous"] < len(mark.batches):
        raise _unreadable("a plan is missing")
    try:
        cautions = tuple(Caution.model_validate(c) for c in _list(tree.get("last_cautions")))
    except ValueError as fault:
        raise _unreadable("a caution cannot be read") from fault
    last = tree.get("last")
    worked = None
    if last is not None:
        batch = mark.in_hand if last == "in hand" else batch_from(last)
        worked = _worked(batch) if batch is not None else None
    session.stand_on(mark)
    session.rewinding = False
    for name, value in read.items():
        setattr(session, name, value)
    session.last, session.last_cautions = worked, cautions
    session.last_keys = tuple(k for k in session.last_keys if worked is not None and k in worked.solution.figures)
    session.gap = None


def _worked(batch: Batch) -> Worked:
    try:
        return work_out(batch)
    except (ArithmeticError, LookupError, TypeError, ValueError) as fault:
        raise _unreadable("its figures make no batch") from fault


def _kept(kind: type, value: Any) -> Any:
    if kind is int:
        if value is not None and (isinstance(value, bool) or not isinstance(value, int)):
            raise _unreadable("a number is expected")
        return value
    if kind is bool:
        return _like(False, value)
    if kind is float:
        return tuple(_number("a size", size) for size in _list(value))
    return kind(_texts(value))
