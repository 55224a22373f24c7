"""The spirit on the shelf that several plans draw on: its strength holds for each of them, and what all take is held against what there is."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.reply import Value
from assistant.session.batch import Batch
from assistant.session.figuring import Worked
from assistant.session.wording import shown


def shared_shelf(plans: Sequence[Batch]) -> tuple[list[Batch], float | None]:
    """The plans, each with the stock strength that was told once, and the mL of that spirit there are, which are no one plan's."""
    strength = next((p.facts["stock_strength"] for p in plans if "stock_strength" in p.facts), None)
    there = next((p.facts["spirit_in_hand"].value for p in plans if "spirit_in_hand" in p.facts), None)
    if strength is None:
        return list(plans), None
    shared = [p if "stock_strength" in p.facts else p.with_facts({"stock_strength": strength}) for p in plans]
    return [p.without("spirit_in_hand") for p in shared], there


def told_of_all(worked: Sequence[Worked], there: float | None) -> tuple[str, list[Value]]:
    """What all plans take of the stock together, and what stays over or lacks; nothing where one of them takes none."""
    drawn = [w.value("stock") for w in worked]
    if any(d is None for d in drawn):
        return "", []
    total = sum(d for d in drawn if d is not None)
    values = [Value(quantity="stock", about="all", value=total, unit="mL", text=shown("stock", total), origin="found")]
    text = f"All together take {shown('stock', total)} of the stock"
    if there is None:
        return f"{text}.", values
    over = there - total
    kind = "rest" if over >= 0 else "spirit_short"
    values.append(Value(quantity=kind, about="all", value=abs(over), unit="mL", text=shown("rest", abs(over)), origin="found"))
    return f"{text}, and there are {shown('stock', there)}: {shown('rest', abs(over))} {'to spare' if over >= 0 else 'short'}.", values
