"""A formula told in grams of herb a day: the volume that takes against the dose that is given, and the ways out side by side."""

from __future__ import annotations

from assistant.dataclass import dataclass
from assistant.quantities.vocabulary import VOCABULARY, about, base, key_for
from assistant.reply import Value
from assistant.session.figuring import Worked
from assistant.session.wording import number, shown


@dataclass(frozen=True, slots=True)
class WaysOut:
    """Lines of the reply and the figures that stand in them."""

    lines: tuple[str, ...]
    values: tuple[Value, ...]


def ways_out(worked: Worked) -> WaysOut | None:
    """Where the herbs need more (or less) than the dose holds: a larger dose, fewer grams, stronger extracts; None elsewhere."""
    need, daily = worked.value("formula_a_day"), worked.value("daily")
    if "by_grams" not in worked.tags or need is None or daily is None:
        return None
    batch, times = worked.batch, worked.value("times_a_day")
    values: list[Value] = []
    if abs(need - daily) <= 0.005 * daily:
        return WaysOut((f"The herbs take {shown('daily', need)} a day, and so much is given.",), ())
    head = f"The herbs take {shown('formula_a_day', need)} a day, but {shown('daily', daily)} a day is given."
    lines = [head]
    values.append(_value("formula_a_day", need, batch.title))
    if times:
        dose = need / times
        lines.append(f"1. Keep the grams: {shown('dose', dose)} a dose, {number(times, '1')} times a day.")
        values.append(_value("needed_dose", dose, "keep the grams"))
    share = daily / need
    told = []
    for member in batch.members:
        grams = worked.value(key_for("herb_a_day_of", member))
        if grams is not None:
            told.append(f"{member} {shown('herb_per_day', grams * share)}")
            values.append(_value(key_for("herb_a_day_of", member), grams * share, "keep the dose"))
    lines.append(f"2. Keep the dose: it carries {number(100 * share, 'percent')} % of the grams, {', '.join(told)} a day.")
    course = worked.value("course")
    if course is not None:
        lines[-1] += f" The bottle is then {shown('supply', daily * course)}."
        values.append(_value("supply", daily * course, "keep the dose"))
    if share < 1:
        ratios = [f"{m} 1:{number(r * share, '1')}" for m in batch.members if (r := worked.value(key_for("ratio_of", m))) is not None]
        lines.append(f"3. Stronger extracts, each {number(1 / share, '1')} times as strong: {', '.join(ratios)}.")
        values += [
            _value(key_for("ratio_of", m), r * share, "stronger extracts") for m in batch.members if (r := worked.value(key_for("ratio_of", m))) is not None
        ]
    return WaysOut(tuple(lines), tuple(values))


def _value(key: str, amount: float, batch: str) -> Value:
    return Value(quantity=base(key), about=about(key), batch=batch, value=amount, unit=VOCABULARY[base(key)].unit, origin="found", text=shown(key, amount))
