"""The whole year: every plan by the month it is gathered in, and what they come to in all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.quantities.vocabulary import base, key_for
from assistant.reply import Assumption, Question, Reply, Step, Value
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.caring import Care
from assistant.session.figuring import Worked, work_out
from assistant.session.naming import same_plant
from assistant.session.wording import phrase_for, sentence, shown
from assistant.session.year_tables import SUMMED, of_plans

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

ASKED = ("to_gather", "stock")
TOTALS = ("gather_all", "stock_all", "bottles_all")
BESIDE = ("need_all", "left_all", "pour_all")
OF_EACH = {
    "need_for": "needed_for_year", "left_for": "still_left", "gather_for": "to_gather", "pour_for": "menstruum", "stock_for": "stock", "bottles_for": "bottles",
}  # fmt: skip
MOST_CAUTIONS = 3
EXAMPLE = "used 4 L nettle last year, 600 mL left; fresh 1:2 at 75 %"


def plans(session: Session) -> list[Batch]:
    """The year's plans on the bench, one a plant: the last told of each. What stock one of them starts from serves those that do not say."""
    found: list[Batch] = []
    for batch in session.batches:
        if "year" not in batch.frames:
            continue
        found = [b for b in found if not (b.name and same_plant(b.name, batch.name))]
        found.append(batch)
    stock = next((b.facts["stock_strength"] for b in reversed(found) if "stock_strength" in b.facts), None)
    return [b if stock is None or "stock_strength" in b.facts else b.with_facts({"stock_strength": stock}) for b in found]


def is_dried(batch: Batch) -> bool:
    """Whether a plan weighs its plant dried, so that none of it is gathered for the jar."""
    return "dried" in batch.tags and "fresh" not in batch.tags


def worked_plans(batches: Sequence[Batch]) -> list[Worked]:
    """Each plan worked out with what is to be picked and bought; what is weighed dried is not picked for it."""
    worked = []
    for batch in batches:
        wanted = [w for w in (*batch.wanted, *ASKED) if not (is_dried(batch) and w == "to_gather")]
        worked.append(work_out(batch, wanted=tuple(dict.fromkeys(wanted))))
    return worked


def together(worked: Sequence[Worked]) -> Worked:
    """All plans as one batch whose members they are, so that every total can be followed."""
    facts: dict[str, Fact] = {}
    for plan in worked:
        for key, quantity in OF_EACH.items():
            value = plan.value(quantity)
            if value is not None:
                facts[key_for(key, plan.batch.name)] = Fact(value, "found")
    several = len({round(p.value("stock_strength") or 0, 3) for p in worked if p.value("stock") is not None}) > 1
    members = tuple(dict.fromkeys(p.batch.name for p in worked))
    for key in OF_EACH:  # a plan that has none of it adds nothing
        if any(base(k) == key for k in facts):
            facts |= {key_for(key, m): Fact(0.0, "found") for m in members if key_for(key, m) not in facts}
    tags = frozenset({"several"} if several else ())
    return work_out(Batch(name="the year", frames=frozenset({"whole_year"}), tags=tags, members=members).having(facts=facts), wanted=(*TOTALS, *BESIDE))


def whole(session: Session, reading: Reading, answers: Answers) -> Reply:
    """ "Show me the whole year": every plan by month, and one total to buy."""
    batches = plans(session)
    if not batches:
        ask = Question(text="Which plants does the year need, and how much went last year?", wants=("used_last_year",), choices=(EXAMPLE,))
        return answers.reply("asking", f"No year is planned yet. {ask.text} (for example: {ask.choices[0]})", questions=(ask,))
    return tell(session, reading, answers, worked_plans(batches))


def tell(session: Session, reading: Reading, answers: Answers, worked: Sequence[Worked]) -> Reply:
    table = of_plans(worked)
    values: list[Value] = []
    steps: list[Step] = []
    assumed: list[Assumption] = []
    cautions = []
    for plan in worked:
        about = plan.batch.name
        keys = [k for k in (*SUMMED, "gather_month", "to_make", "herb", "finished_strength") if k in plan.solution.figures]
        values += [answering.value_of(plan, k).model_copy(update={"about": about}) for k in keys]
        steps += [s.model_copy(update={"about": about}) for s in answering.steps_for(plan, [k for k in ("to_gather", "stock") if k in plan.solution.figures])]
        assumed += [a for a in answering.assumptions_for(plan, keys) if a not in assumed]
        care = Care(session, plan, reading)
        cautions += [c for c in care.spoken if c not in cautions]
    all_ = together(worked)
    found = [k for k in TOTALS if all_.value(k) is not None]
    values += [answering.value_of(all_, k) for k in (*found, *BESIDE) if all_.value(k) is not None]
    steps += answering.steps_for(all_, [*found, *(k for k in BESIDE if all_.value(k) is not None)])
    lines = _by_strength(worked, values)
    session.last, session.last_keys = all_, tuple(found)
    open_ = [p.batch.name for p in worked if p.value("menstruum") is None]
    questions = []
    if open_:
        questions.append(Question(text=f"How is it made: {', '.join(open_)}?", wants=("ratio", "strength"), choices=(f"{open_[0]} fresh 1:2 at 75 %",)))
    elif any(p.value("stock") is None for p in worked):
        questions.append(Question(text="What strength is the spirit you buy?", wants=("stock_strength",), choices=("from 95 %",)))
    lines = [
        sentence([phrase_for(k, all_.value(k) or 0.0) for k in found]) or f"{len(worked)} plans.",
        "",
        table.as_text(),
        "",
        *lines,
        answering.assumption_line(assumed),
    ]
    lines += [f"{'Caution' if c.level == 'warn' else 'Note'}: {c.text}" for c in cautions[:MOST_CAUTIONS]]
    lines += [answering.ask_text(questions)] if questions else []
    text = "\n".join(line for i, line in enumerate(lines) if line or i in (1, 3))
    return answers.reply("answered", text, batch=worked[-1].batch, values=tuple(values), steps=tuple(steps), assumptions=tuple(assumed),
                         cautions=tuple(cautions[:MOST_CAUTIONS]), questions=tuple(questions))  # fmt: skip


def _by_strength(worked: Sequence[Worked], values: list[Value]) -> list[str]:
    """What to buy of each spirit, a line each, where the plans start from several."""
    stocks: dict[float, float] = {}
    for plan in worked:
        stock, strength = plan.value("stock"), plan.value("stock_strength")
        if stock is not None and strength is not None:
            stocks[round(strength, 3)] = stocks.get(round(strength, 3), 0.0) + stock
    if len(stocks) < 2:
        return [f"All of it {strength:g} %." for strength in stocks]
    values += [Value(quantity="stock", about=f"{p:g} %", value=v, unit="mL", batch="the year", text=shown("stock", v)) for p, v in sorted(stocks.items())]
    return [f"Buy {shown('stock', v)} of {p:g} %." for p, v in sorted(stocks.items())]
