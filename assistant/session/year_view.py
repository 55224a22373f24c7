"""How the year's work looks: a table where there are rows, a line of days where there are dates, and what the law has to say of spirit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.quantities.showing import in_words
from assistant.quantities.vocabulary import about
from assistant.reply import Caution, Question, Reply, Value
from assistant.session import answering
from assistant.session.caring import all_cautions, caution_line
from assistant.session.figuring import Worked
from assistant.session.wording import number, plural, shown
from assistant.session.year_tables import of_rows
from assistant.session.year_ways import WEAKER, Ways, ways

if TYPE_CHECKING:
    from assistant.session.conversation import Session

TAIL = ("Assumed:", "Caution", "Note", "What ", "How ", "Which ", "For which", "On which", "Read as", "STOP")
LAW = "Duty, licences and the records to keep are local law: ask the authority where you work."
AT_20 = "Counted at 20 °C, as the tables do: a warm jug reads a little more."
COLUMNS = 60


def viewed(session: Session, reading: Reading, worked: Worked, reply: Reply) -> Reply:
    """The reply with what shows the year's work better than a sentence."""
    if reply.status not in ("answered", "noted"):
        return reply
    frames = worked.batch.frames
    if "sharing" in frames:
        return _shared(session, reading, worked, reply)
    if "press_day" in frames:
        return _rows(worked, reply, "press_day", _press_day(worked))
    if "lines" in frames:
        return _rows(worked, reply, "lines", _lines(worked))
    if "orders" in frames and not any(k.startswith("lot_has[") for k in worked.batch.facts):
        return _promised(worked, reply)
    if "orders" in frames:
        return _with_spare(worked, _rows(worked, reply, "orders", _orders(worked)))
    if "reserve" in frames:
        return _told(reply, _reserve(worked))
    if "timeline" in frames:
        return _told(reply, _days(worked))
    if "ledger" in frames:
        return _told(reply, [AT_20, LAW] if worked.value("pure_missing") is not None else [])
    if "year" in frames:
        return _plan(worked, reply)
    return reply


def _split(reply: Reply) -> tuple[list[str], list[str]]:
    """The lines of the answer, and those behind it: what was assumed, cautions, questions."""
    lines = reply.text.split("\n")
    at = next((i for i, line in enumerate(lines) if i and line.startswith(TAIL)), len(lines))
    return lines[:at], lines[at:]


def _told(reply: Reply, more: Sequence[str], **fields: object) -> Reply:
    head, tail = _split(reply)
    return reply.model_copy(update={"text": "\n".join([*head, *more, *tail]), **fields})


def _with_members(worked: Worked, reply: Reply) -> tuple[object, ...]:
    """Every figure of the rows among the values, so that the table shows nothing the reply does not carry."""
    have = {(v.quantity, v.about) for v in reply.values}
    more = [answering.value_of(worked, key) for key in worked.solution.figures if about(key) or key == "spirit_there"]
    return (*reply.values, *(v for v in more if (v.quantity, v.about) not in have))


def _rows(worked: Worked, reply: Reply, kind: str, head: Sequence[str]) -> Reply:
    _, tail = _split(reply)
    if not worked.batch.members or not head:
        return reply
    text = "\n".join([*head, "", of_rows(worked, kind).as_text(), "", *tail]).rstrip()
    count = float(len(worked.batch.members))
    jars = (Value(quantity="jars", value=count, unit="1", batch=worked.batch.title, text=number(count, "1")),) if kind == "press_day" else ()
    return reply.model_copy(update={"text": text, "values": (*_with_members(worked, reply), *jars)})


def _shared(session: Session, reading: Reading, worked: Worked, reply: Reply) -> Reply:
    if worked.value("spirit_lacking") is None:
        return reply
    found = ways(session, worked)
    table = ["", found.table.as_text(), ""] if found.table is not None else []
    have = {(v.quantity, v.about, v.batch) for v in reply.values}
    values = (*_with_members(worked, reply), *(v for v in found.values if (v.quantity, v.about, v.batch) not in have))
    _, tail = _split(reply)
    short = worked.value("spirit_lacking") or 0.0
    first = f"They want {shown('spirit_wanted', worked.value('spirit_wanted') or 0)}, there is {shown('spirit_there', worked.value('spirit_there') or 0)}"
    head = (
        f"{first}: {shown('spirit_lacking', short)} short, {shown('share_met', worked.value('share_met') or 0)} of the need is met."
        if short > 0
        else first + "."
    )
    questions = reply.questions
    if found.table is not None and not any(v.quantity == "finished_strength" for v in found.values):
        ask = Question(text="How are they made? Then I tell where each finishes.", wants=("ratio", "strength"), choices=("all fresh 1:2 at 75 %",))
        questions, tail = (*questions, ask), [*tail, f"{ask.text} (for example: {ask.choices[0]})"]
    cautions = _weak(session, reading, found)
    lines = [head, *table, *found.lines, answering.assumption_line(found.assumed), *(caution_line(c) for c in cautions), *tail]
    text = "\n".join(line for i, line in enumerate(lines) if line or i < 4)
    fields = {"steps": (*reply.steps, *found.steps), "assumptions": (*reply.assumptions, *found.assumed), "cautions": (*reply.cautions, *cautions)}
    return reply.model_copy(update={"text": text, "values": values, "questions": questions, **fields})


def _weak(session: Session, reading: Reading, found: Ways) -> list[Caution]:
    """What the rules of keeping say of batches that are all made weaker: each once, with the batches it is true of."""
    told: dict[str, tuple[Caution, list[str]]] = {}
    for name, mixed in sorted(found.mixed, key=lambda one: one[1].value("finished_strength") or 0.0):  # the figures told are those of the weakest
        for caution in all_cautions(session, mixed, reading):
            if caution.theme == "keeping" and caution.level == "warn":
                told.setdefault(caution.id, (caution, []))[1].append(name)
    return [c.model_copy(update={"text": f"{', '.join(names).capitalize()}, {WEAKER}: {c.text}"}) for c, names in told.values()]


def _press_day(worked: Worked) -> list[str]:
    out, loads, bottles = (worked.value(k) for k in ("day_out", "day_loads", "day_bottles"))
    parts = [f"about {shown('day_out', out)} from the press"] if out is not None else []
    parts += [f"{number(loads, '1')} press {plural(loads, 'load')}"] if loads is not None else []
    parts += [f"{number(bottles, '1')} bottles and as many labels to have ready"] if bottles is not None else []
    count = len(worked.batch.members)
    return [f"{count} {plural(count, 'jar')}: {', '.join(parts)}.", "In this order, a batch at a time:"] if parts else []


def _lines(worked: Worked) -> list[str]:
    margins = {m: v for m in worked.batch.members if (v := worked.value(f"line_margin[{m}]")) is not None}
    floor = worked.value("least_margin")
    if not margins or floor is None:
        return ["What is left of each price:"] if margins else []
    under = [f"{m} ({shown('line_margin', v)})" for m, v in margins.items() if v < floor - 1e-9]
    return [f"Under {shown('least_margin', floor)}: {', '.join(under)}." if under else f"No line falls under {shown('least_margin', floor)}."]


def _orders(worked: Worked) -> list[str]:
    short = {m: v for m in worked.batch.members if (v := worked.value(f"order_short[{m}]")) is not None}
    lacking = [f"{m} by {shown('order_short', v)}" for m, v in short.items() if v > 1e-9]
    over = [f"{m} {shown('spare', -v)}" for m, v in short.items() if v < -1e-9]
    spare = f" Over: {', '.join(over)}." if over else ""
    return [(f"Short: {', '.join(lacking)}." if lacking else "Every order can be met.") + spare] if short else []


def _with_spare(worked: Worked, reply: Reply) -> Reply:
    """What a lot holds beyond its orders, as a figure of its own."""
    short = {m: worked.value(f"order_short[{m}]") for m in worked.batch.members}
    left = {m: -v for m, v in short.items() if v is not None and v < 0}
    over = [Value(quantity="spare", about=m, value=v, unit="mL", batch=worked.batch.title, text=shown("spare", v)) for m, v in left.items()]
    return reply.model_copy(update={"values": (*reply.values, *over)})


def _promised(worked: Worked, reply: Reply) -> Reply:
    """Orders of which no lot was told yet: how much of each, and of all."""
    each = {m: v for m in worked.batch.members if (v := worked.value(f"promised[{m}]")) is not None}
    total = worked.value("promised_all")
    if not each or total is None:
        return reply
    told = ", ".join(f"{m} {shown('promised', v)}" for m, v in each.items())
    _, tail = _split(reply)
    head = f"Promised: {told}" + (f"; {shown('promised_all', total)} in all." if len(each) > 1 else ".")
    return reply.model_copy(update={"text": "\n".join([head, *tail]), "values": _with_members(worked, reply)})


def _reserve(worked: Worked) -> list[str]:
    spare = worked.value("days_to_spare")
    lead = worked.value("lead_days")
    if spare is None or lead is None:
        return []
    takes = f"The next one takes {shown('lead_days', lead)}"
    if spare < 0:
        return [f"{takes}: {shown('lead_days', -spare)} without any, even if it is put up today."]
    return [f"{takes}: in time, if it is put up within {shown('lead_days', spare)}."]


def _days(worked: Worked) -> list[str]:
    """A line of days: the jar, then settling, between the three dates."""
    first, press, last = (worked.value(k) for k in ("latest_start", "press_by", "needed_by"))
    if first is None or press is None or last is None or last <= first:
        return []
    width = COLUMNS - 2
    jar = max(6, min(width - 12, round(width * (press - first) / (last - first)))) if last > press else width
    line = "[" + " jar ".center(jar, "=") + (" settling ".center(width - jar, "-") if last > press else "") + "]"
    dates = [_short(first), _short(press), _short(last)] if last > press else [_short(first), _short(last)]
    if len(dates) == 3:
        gap = max(1, jar + 1 - len(dates[0]))
        middle = dates[0] + " " * gap + dates[1]
        if len(middle) + len(dates[2]) + 1 > COLUMNS:
            middle = dates[0] + " " * max(1, COLUMNS - len(dates[0]) - len(dates[1]) - len(dates[2]) - 1) + dates[1]
        return ["", line[:COLUMNS], middle + dates[2].rjust(COLUMNS - len(middle)), ""]
    return ["", line[:COLUMNS], dates[0] + dates[1].rjust(COLUMNS - len(dates[0])), ""]


def _short(day: float) -> str:
    words = in_words(day).split()
    return f"{words[0]} {words[1][:3]}"


def _plan(worked: Worked, reply: Reply) -> Reply:
    """A plan whose spirit is asked for and cannot be told yet asks what it is made from; a plan that needs nothing says so."""
    if (
        (worked.value("to_make") or 1.0) > 0
        and {"stock", "spirit_short"} & set(worked.batch.wanted)
        and worked.value("stock") is None
        and "stock_strength" not in worked.batch.facts
    ):
        ask = Question(text="What strength is the spirit you buy?", wants=("stock_strength",), choices=("from 95 %",))
        return reply.model_copy(update={"text": f"{reply.text}\n{ask.text} (for example: {ask.choices[0]})", "questions": (*reply.questions, ask)})
    return reply


__all__ = ["viewed"]
