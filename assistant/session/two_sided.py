"""One question of two sides about one thing: two doses of alcohol, two ways of pressing, a figure before and after: both, and the gap."""

from __future__ import annotations

import re
from collections.abc import Collection
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Reply, Step, Value
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.comparing import compared
from assistant.session.explaining import BECOMES
from assistant.session.figuring import work_out
from assistant.session.merging import lay_over
from assistant.session.repeating import refer
from assistant.session.wording import caption, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

ALCOHOL = looked_for(r"\b(?:alcohol|ethanol)\b", re.IGNORECASE)
GRAMS = looked_for(r"\b(?:grams?|g|weight|weigh)\b", re.IGNORECASE)
MIXED = looked_for(r"\b(?:mix\w*|blend\w*|together|combin\w+|altogether|in all|pour(?:ed)? into)\b", re.IGNORECASE)
PIECE = looked_for(r"[,;:.?!]\s+|\s+(?:and|or|against|versus|vs|than|with)\s+", re.IGNORECASE)
MORE_THAN = looked_for(
    r"\b(?:how (?:much|many) (?:more|less|better|worse)|the (?:difference|gap))\b.*\b(?:than|to|from|between|against)\b", re.IGNORECASE
)
DROPPED = looked_for(
    r"\b(?:points?|much|many)\b[^.?!]{0,30}\b(?:drop(?:ped)?|fall|fell|fallen|lost|lose|come down|came down|go down|went down)\b", re.IGNORECASE
)


def two_portions(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "How many grams of alcohol are in 5 mL at 30 %, and in 5 mL at 60 %?": each portion by itself, and what lies between."""
    portions = [{q: v for q, v, _, _ in line.figures} for line in reading.liquids]
    if len(portions) != 2 or any(p.keys() != {"volume", "strength_of"} for p in portions) or reading.said or reading.loose or reading.named:
        return None
    if not ALCOHOL.search(reading.heard) or MIXED.search(reading.heard):
        return None
    wanted = ("alcohol_grams", "alcohol") if GRAMS.search(reading.heard) else ("alcohol", "alcohol_grams")
    plans = []
    for portion in portions:
        facts = {"menstruum": Fact(portion["volume"], "said", session.turn), "strength": Fact(portion["strength_of"], "said", session.turn)}
        plans.append(work_out(Batch(wanted=wanted).with_facts(facts)))
    if not all(k in p.solution.figures for p in plans for k in wanted):
        return None
    refer(answers, reading)
    for plan in plans:
        session.keep(plan.batch, -1)
    session.last, session.last_keys = plans[1], wanted
    return compared(session, answers, plans, wanted)


def two_presses(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "What would draining give, what a screw press, and the difference?": one jar, pressed by each of the two ways."""
    if not any(t.startswith("press_") for t in reading.tags):
        return None  # reading the pieces is dear, and neither side can be there
    found: list[str] = []
    start = 0
    for end in [m.start() for m in PIECE.finditer(reading.heard)] + [len(reading.heard)]:
        found += sorted(t for t in session.read(reading.heard[start:end]).tags if t.startswith("press_"))
        start = end
    ways = list(dict.fromkeys(found))
    if len(ways) != 2 or reading.ingredients or reading.liquids or {"held_per_gram", "yield_share"} & {s.quantity for s in reading.said}:
        return None
    target, place = session.target(reading)
    plans = []
    merged = None
    for way in ways:
        reading.tags = {t for t in reading.tags if not t.startswith("press_")} | {way}
        merged = lay_over(target, reading, session.turn, session.wants)
        if merged.bad or merged.doubled or merged.unplaced:
            return None
        keys = tuple(dict.fromkeys(("pressed", *(a.key for a in reading.asked if a.quantity in ("held_back",)))))
        plans.append(work_out(merged.batch.having(wanted=keys)))
    assert merged is not None
    if not all("pressed" in p.solution.figures and not p.solution.conflicts for p in plans):
        return None
    answers.merged = merged
    refer(answers, reading, *((a, b) for a, b, _ in merged.used))
    for i, plan in enumerate(plans):
        session.keep(plan.batch, place if i == 0 else -1)
    session.last, session.last_keys = plans[1], ("pressed",)
    return compared(session, answers, plans, [k for k in ("pressed", "held_back") if all(k in p.solution.figures for p in plans)])


def than_a_press(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "How much more is that than the cheesecloth": what is pressed now beside what the other way gave, or would give."""
    named = {t for t in reading.tags if t.startswith("press_")}
    batch = session.batch
    if len(named) != 1 or not MORE_THAN.search(reading.heard) or batch is None or reading.said or reading.loose or reading.ingredients:
        return None
    ways = {t for t in batch.tags if t.startswith("press_")}
    if ways & named:
        return None
    marks = (mark.in_hand for mark in reversed(session.journal.before))
    earlier = next((b for b in marks if b is not None and _pressed_by(b, named) and not _pressed_by(b, ways)), None)
    other = earlier if earlier is not None else batch.having(tags=(batch.tags - ways) | named)
    plans = [work_out(b.having(wanted=("pressed",))) for b in (other, batch)]
    if not all("pressed" in p.solution.figures and not p.solution.conflicts for p in plans):
        return None
    refer(answers, reading)
    session.last, session.last_keys = plans[1], ("pressed",)
    return compared(session, answers, plans, ("pressed",))


def _pressed_by(batch: Batch, ways: Collection[str]) -> bool:
    """Whether a batch was pressed in one of these ways."""
    return bool(batch.tags & set(ways))


def dropped(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "By how many points did it drop?": what was poured beside what became of it."""
    worked = session.last
    if worked is None or not DROPPED.search(reading.heard) or reading.said or reading.loose or reading.ingredients or reading.liquids:
        return None
    figures = worked.solution.figures
    for before, after in BECOMES.items():
        if (
            {before, after} & set(session.last_keys)
            and before in figures
            and after in figures
            and figures[after].origin == "found"
            and VOCABULARY[before].unit == VOCABULARY[after].unit
        ):
            break
    else:
        return None
    first, last = figures[before].value, figures[after].value
    gap = abs(first - last)
    unit = VOCABULARY[base(after)].unit
    words = f"{caption(before)} {shown(before, first)}, {caption(after)} {shown(after, last)}"
    session.gap = (after, gap, words)
    refer(answers, reading)
    values = (Value(quantity=after, about="gap", value=gap, unit=unit, origin="found", text=shown(after, gap)), answering.value_of(worked, after))
    step = Step(
        quantity=after,
        value=gap,
        unit=unit,
        relation="difference",
        says="What was poured less what is left.",
        working=f"{shown(before, first)} − {shown(after, last)} = {shown(after, gap)}",
    )
    return answers.reply(
        "answered", f"By {shown(after, gap)}: {words}.", batch=worked.batch, values=values, steps=(*answering.steps_for(worked, [after]), step)
    )
