"""Talk of the working year that is about more than one batch: which sentences it is, and who answers them.

What is told of one batch is worked out like any other (year_work.py, year_view.py). Here are the whole year, and what the book adds.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.faults import BenchError
from assistant.listening.statements import Ingredient, Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY
from assistant.reply import Question, Reply, Used, Value
from assistant.session import year_book
from assistant.session.batch import Batch, Fact
from assistant.session.checks import wrong_with
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import lay_over
from assistant.session.naming import same_plant
from assistant.session.wording import shown
from assistant.session.year_tables import COLUMNS, of_plans, of_rows
from assistant.session.year_whole import ASKED, EXAMPLE, is_dried, plans, tell, whole, worked_plans
from assistant.session.year_why import why
from assistant.session.year_work import ROWS
from assistant.year.table import Table, plain

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence is about several batches of the year, or needs the book; None for every other sentence."""
    if reading.heard.lower().lstrip().startswith("given"):
        return None  # a problem is set, or worked
    if "year" in reading.frames and reading.ingredients:
        return many(session, reading, answers)
    explained = why(session, reading, answers) if reading.has("why") else None
    if explained is not None:
        return explained
    if reading.has("year_csv"):
        return as_csv(session, answers)
    if reading.has("year_first"):
        return put_first(session, reading, answers)
    if reading.fault is not None:
        return _refused(answers, reading.fault)
    try:
        booked = year_book.handle(session, reading, answers)
    except BenchError as fault:
        return _refused(answers, fault)
    if booked is not None:
        return booked
    if reading.has("year_whole") and not (reading.said or reading.ingredients or reading.liquids or reading.loose):
        return whole(session, reading, answers)
    return None


def _refused(answers: Answers, fault: BenchError) -> Reply:
    ask = Question(text=fault.try_this or "Can you say it another way?")
    return answers.reply("refused", str(fault) if fault.try_this else f"{fault} {ask.text}", questions=(ask,))


def many(session: Session, reading: Reading, answers: Answers) -> Reply:
    """ "Used 4.2 L nettle and 3 L elder last year; all fresh 1:2 at 75 %": a plan for each plant, what is said of all in each."""
    rows: list[Ingredient] = list(reading.ingredients)
    shared = replace(reading, ingredients=[], named=[], mentions=[])
    made: list[Batch] = []
    for row in rows:
        merged = lay_over(_before(session, row.name), _of_its_own(shared, row.name, reading), session.turn, ())
        answers.used += [Used(text=reading.heard[a:b][:40], start=a, end=min(b, a + 40), quantity=q) for a, b, q in merged.used if b > a]
        if merged.bad:
            return answers.refused_figures(merged)
        if merged.doubled:
            return answers.doubled(merged)
        facts: dict[str, Fact] = {}
        for quantity, value, start, end in row.figures:
            fault = wrong_with(quantity, value)
            if fault:
                text = f"{row.name.capitalize()}: {VOCABULARY[quantity].caption} {shown(quantity, value)} {fault}."
                return answers.reply("refused", text, questions=(Question(text="What is it then?", wants=(quantity,), choices=(EXAMPLE,)),))
            answers.used.append(Used(text=reading.heard[start:end][:40], start=start, end=min(end, start + 40), quantity=quantity))
            facts[quantity] = Fact(value, "said", session.turn)
        named = merged.batch.having(
            name=row.name,
            plants=(row.name,),
            frames=merged.batch.frames | {"year"},
            wanted=merged.batch.wanted or (("herb", "stock") if is_dried(merged.batch) else ASKED),
        )
        made.append(named.with_facts(facts))
    worked = worked_plans(made)
    for one, plan in zip(worked, made, strict=True):
        if one.solution.conflicts or one.solution.impossible:
            return _does_not_work(answers, plan, one)
    for plan in made:
        place = next((i for i, b in enumerate(session.batches) if "year" in b.frames and same_plant(b.name, plan.name)), -1)
        session.keep(plan, place)
    return tell(session, reading, answers, worked_plans(plans(session)))


CLAUSE = looked_for(r"[.;](?=\s|$)")


def _of_its_own(shared: Reading, name: str, reading: Reading) -> Reading:
    """What is said of all, without what a clause that names other plants says of those alone: "thyme and sage fresh 1:2 at 75"."""
    ends = [0, *(m.end() for m in CLAUSE.finditer(reading.heard)), len(reading.heard)]
    rows = [(figure[2], figure[3]) for row in reading.ingredients for figure in row.figures]

    def is_of(start: int) -> bool:
        first, last = next((a, b) for a, b in pairwise(ends) if a <= start < b or b == ends[-1])
        names = [n.name for n in reading.named if first <= n.start < last]
        told = any(first <= a < last for a, _ in rows)
        return told or not names or any(same_plant(n, name) for n in names)

    return replace(shared, said=[s for s in shared.said if is_of(s.start)])


def _before(session: Session, name: str) -> Batch:
    """The plan of that plant as it stood, else an empty one."""
    return next((b for b in reversed(session.batches) if "year" in b.frames and same_plant(b.name, name)), Batch(frames=frozenset({"year"})))


def _does_not_work(answers: Answers, plan: Batch, worked: Worked) -> Reply:
    caption = "what is left is more than the year needs" if (worked.value("to_make") or 0) < 0 else "its figures do not hold together"
    ask = Question(text=f"Which figure of {plan.name} is off?", wants=("used_last_year", "still_left"), choices=(f"used 4 L {plan.name} last year",))
    return answers.reply("refused", f"{plan.name.capitalize()}: {caption}. Nothing was changed. {ask.text}", batch=plan, questions=(ask,))


def table_in_hand(session: Session) -> Table | None:
    """The table of what is on the bench: its rows, or the whole year; None where there is none."""
    batch = session.batch
    kind = next((k for k in COLUMNS if batch is not None and k in batch.frames), "")
    if batch is not None and kind and batch.members:
        return of_rows(work_out(batch), kind)
    if batch is not None and "sharing" in batch.frames:
        from assistant.session.year_ways import ways

        return ways(session, work_out(batch)).table
    batches = plans(session)
    return of_plans(worked_plans(batches)) if batches else None


def as_csv(session: Session, answers: Answers) -> Reply | None:
    """ "As CSV": the table in hand for a spreadsheet."""
    table = table_in_hand(session)
    if table is None:
        ask = Question(text="Which table? There is none on the bench.", choices=(EXAMPLE, "8 L of 95, and nettle wants 2.7, elder 1.9"))
        return answers.reply("asking", f"{ask.text} (for example: {ask.choices[0]})", questions=(ask,))
    values = []
    for row in (*table.rows, *([table.total] if table.total else [])):
        for head, unit, cell in zip(table.heads[1:], table.units[1:], row[1:], strict=True):
            if cell.value is not None:
                values.append(Value(quantity=head, about=row[0].text, value=cell.value, unit=unit or "1", text=str(plain(cell))))
    return answers.reply("answered", table.as_csv().replace("\r\n", "\n").rstrip("\n"), batch=session.batch, values=tuple(values))


def put_first(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Valerian first, then elder": the order of precedence of those that share."""
    batch = session.batch
    if batch is None or not batch.frames & ROWS or not batch.members:
        return None
    named = [m for n in reading.named for m in batch.members if same_plant(n.name, m)]
    if not named:
        return None
    members = tuple(dict.fromkeys((*named, *batch.members)))
    clean = replace(reading, ingredients=[], liquids=[], named=[], said=[], loose=[])
    return session.take(clean, answers, onto=batch.having(members=members), index=session.current)
