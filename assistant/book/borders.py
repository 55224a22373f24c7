"""What may come in from a file: every field named, typed and bounded; an unknown key is refused.

A number is finite, a date is one of the calendar, a text has a length. Nothing here touches the book.
"""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from assistant.book.conversations import storable


def _is_day(text: str) -> str:
    if date.fromisoformat(text).isoformat() != text:
        raise ValueError("a date is written 2031-06-12")
    return text


def _is_storable(text: str) -> str:
    if storable(text) != text:
        raise ValueError("half a character")
    return text


_MOST = 9_007_199_254_740_991  # beyond it a number in JSON is no whole number any more
Key = Annotated[int, Field(ge=1, le=_MOST, strict=True)]
Reference = Key | None
Day = Annotated[str, AfterValidator(_is_day)]
Number = Annotated[float, Field(ge=-1e12, le=1e12, allow_inf_nan=False, strict=True)]
Short = Annotated[str, Field(max_length=400, strict=True), AfterValidator(_is_storable)]
Long = Annotated[str, Field(max_length=25_000, strict=True), AfterValidator(_is_storable)]
Tree = dict[str, Any]


class Border(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class TurnIn(Border):
    id: Key
    n: Annotated[int, Field(ge=0, le=_MOST, strict=True)]
    said_on: Day
    heard: Long
    status: Short
    delta: Tree
    moves: Annotated[str, Field(max_length=400, pattern="^[nbf]*$")]


class ConversationIn(Border):
    id: Key
    begun: Day
    opening: Tree
    turns: tuple[TurnIn, ...]


class GatheringIn(Border):
    id: Key
    plant: Short
    latin: Short
    part: Short
    state: Short
    place: Short
    gathered_on: Day
    weight: Number | None
    stand_plants: Number | None
    plants_taken: Number | None
    stand_share: Number | None
    permission: Short
    note: Long
    turn: Reference


class ComponentIn(Border):
    id: Key
    place: Key
    what: Short
    amount: Number | None
    unit: Short
    lot: Short
    source: Short
    gathering: Reference
    item: Reference


class BottlingIn(Border):
    id: Key
    bottled_on: Day
    bottles: Annotated[int, Field(ge=0, le=1_000_000, strict=True)]
    size: Number
    turn: Reference


class CheckIn(Border):
    id: Key
    field: Annotated[str, Field(pattern="^[a-n]$")]
    made_on: Day
    words: Long
    turn: Reference


class BatchIn(Border):
    id: Key
    lot: Annotated[Short, Field(min_length=1, max_length=40)]
    name: Short
    code: Short
    plant: Short
    latin: Short
    part: Short
    state: Short
    preparation: Short
    method: Short
    started: Day
    shake_until: Day | None
    press_on: Day | None
    ready_on: Day | None
    pressed_on: Day | None
    best_before: Day | None
    expected: Number | None
    actual: Number | None
    unit: Short
    record: Tree
    turn: Reference
    components: tuple[ComponentIn, ...]
    bottlings: tuple[BottlingIn, ...]
    checks: tuple[CheckIn, ...]


class ItemIn(Border):
    id: Key
    kind: Short
    name: Short
    strength: Number
    unit: Short


class MovementIn(Border):
    id: Key
    item: Key
    moved_on: Day
    amount: Number
    batch: Reference
    lot: Short
    price: Number | None
    note: Short
    turn: Reference


class MeasuredIn(Border):
    id: Key
    quantity: Literal["held_per_gram", "water_content"]
    plant: Short
    part: Short
    method: Short
    value: Number
    measured_on: Day
    batch: Reference
    turn: Reference


class BelongingIn(Border):
    id: Key
    kind: Short
    name: Short
    data: Tree
    turn: Reference


class BookIn(Border):
    """A whole book as --export writes it."""

    format: Literal["gallipot book"]
    version: Literal[1]
    conversations: tuple[ConversationIn, ...]
    gatherings: tuple[GatheringIn, ...]
    batches: tuple[BatchIn, ...]
    items: tuple[ItemIn, ...]
    movements: tuple[MovementIn, ...]
    measured: tuple[MeasuredIn, ...]
    belongings: tuple[BelongingIn, ...]
