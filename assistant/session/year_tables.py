"""The rows of the year's work as tables: what is shared out, promised, costed, pressed, and the plans of a whole year."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from assistant.quantities.vocabulary import VOCABULARY, base, key_for
from assistant.session.figuring import Worked
from assistant.session.wording import number, shown
from assistant.year.table import NOTHING, Cell, Table

Column = tuple[str, str]  # the head, the quantity

COLUMNS: dict[str, tuple[Column, ...]] = {
    "orders": (("promised", "promised"), ("there", "lot_has"), ("short", "order_short")),
    "lines": (("price", "line_price"), ("cost was", "line_cost"), ("cost now", "line_cost_now"), ("margin", "line_margin")),
    "press_day": (("out", "jar_out"), ("soaked", "marc_room"), ("loads", "press_loads"), ("bottles", "bottles_from"), ("over", "left_from")),
}
TOTALS: dict[str, dict[str, str]] = {"press_day": {"jar_out": "day_out", "press_loads": "day_loads", "bottles_from": "day_bottles"}}
NOTES = {"orders": "(mL)", "press_day": "(mL; the marc as it goes into the basket)"}
TITLES = {"orders": "Orders", "lines": "Price lines", "press_day": "The pressing day"}
OF_A_PLAN: tuple[Column, ...] = (
    ("month", "gather_month"), ("need", "needed_for_year"), ("left", "still_left"), ("gather", "to_gather"), ("pour", "menstruum"), ("spirit", "stock"),
    ("bottles", "bottles"),
)  # fmt: skip
SUMMED = ("needed_for_year", "still_left", "to_gather", "menstruum", "stock", "bottles")
BARE = frozenset({"mL", "g", "1"})  # units that the heads of a table name, not its cells


def cell(key: str, value: float | None) -> Cell:
    """A figure of a table: without its unit where the column has one for all."""
    if value is None:
        return NOTHING
    unit = VOCABULARY[base(key)].unit
    return Cell(number(value, unit) if unit in BARE and base(key) != "gather_month" else shown(key, value), value)


def units_of(columns: Sequence[Column]) -> tuple[str, ...]:
    return ("", *(VOCABULARY[quantity].unit.replace("1", "") for _, quantity in columns))


def heads_of(columns: Sequence[Column]) -> tuple[str, ...]:
    return ("", *(head for head, _ in columns))


def of_rows(worked: Worked, kind: str, order: Callable[[Sequence[str]], Sequence[str]] = lambda names: names) -> Table:
    """The members of a batch as rows.

    order   puts the names in the order they are done
    """
    members = worked.batch.members
    columns = tuple(c for c in COLUMNS[kind] if any(worked.value(key_for(c[1], m)) is not None for m in members))  # what no row tells has no column
    totals = TOTALS.get(kind, {})
    rows = [(Cell(m), *(cell(q, worked.value(key_for(q, m))) for _, q in columns)) for m in order(members)]
    total = (Cell("in all"), *(cell(q, worked.value(totals[q])) if q in totals else Cell("") for _, q in columns)) if totals else ()
    return Table(TITLES[kind], heads_of(columns), tuple(rows), total, units_of(columns), NOTES.get(kind, "") if len(columns) == len(COLUMNS[kind]) else "(mL)")


def of_plans(plans: Sequence[Worked]) -> Table:
    """The year's plans by the month they are gathered in, and what they come to in all."""

    def when(plan: Worked) -> float:
        return plan.value("gather_month") or 13.0

    ordered = sorted(plans, key=lambda plan: (when(plan), plan.batch.name))
    columns = tuple(c for c in OF_A_PLAN if any(plan.value(c[1]) is not None for plan in plans) or c[1] == "to_gather")
    rows = [(Cell(plan.batch.name or "no name"), *(_of_plan(q, plan) for _, q in columns)) for plan in ordered]
    total = (Cell("in all"), *(_sum(q, ordered) if q in SUMMED else Cell("") for _, q in columns))
    dry = any(is_dried(plan) for plan in plans)
    note = "(mL; to gather in g" + ("; d: weighed dried)" if dry else ")")
    return Table("The working year", heads_of(columns), tuple(rows), total, units_of(columns), note)


def is_dried(plan: Worked) -> bool:
    """Whether a plan weighs its plant dried, so that none of it is gathered for the jar."""
    return "dried" in plan.tags and "fresh" not in plan.tags


def _of_plan(quantity: str, plan: Worked) -> Cell:
    if quantity == "to_gather" and plan.value("to_gather") is None and is_dried(plan) and (herb := plan.value("herb")) is not None:
        return Cell(f"{number(herb, 'g')}d", herb)
    return cell(quantity, plan.value(quantity))


def _sum(quantity: str, plans: Sequence[Worked]) -> Cell:
    values = [v for plan in plans if (v := plan.value(quantity)) is not None]
    return cell(quantity, sum(values)) if values else NOTHING
