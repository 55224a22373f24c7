"""Which batch a sentence speaks of, and what of it is fixed before the sentence is laid over it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.quantities.vocabulary import about, base
from assistant.session import answering
from assistant.session.after_stop import instead_of_the_stopped
from assistant.session.as_it_was import as_it_was
from assistant.session.batch import Batch, Fact
from assistant.session.carried_on import carried_on
from assistant.session.figuring import work_out
from assistant.session.going_on_from import carried
from assistant.session.merging import CONTINUES, begins_anew, lay_over
from assistant.session.pointing import alias_of, begins_another, plan_of, with_the_same

if TYPE_CHECKING:
    from assistant.session.conversation import Session

# Properties that are found from what came out, and what came out: they stay when the amounts change.
PROPERTIES = {
    "held_per_gram": frozenset({"pressed", "racked", "held_back"}),
    "yield_share": frozenset({"pressed", "racked"}),
    "water_content": frozenset({"dried", "dry_matter", "water_lost"}),
    "drying_ratio": frozenset({"dried"}),
    "stock_strength": frozenset({"stock", "water"}),
    "trim_loss": frozenset({"picked", "gross", "tare"}),
}
COMES_OF = {
    "held_per_gram": "pressed", "yield_share": "pressed", "water_content": "dried", "drying_ratio": "dried", "stock_strength": "stock", "trim_loss": "herb",
}  # fmt: skip


def aimed_at(session: Session, reading: Reading) -> tuple[Batch, int]:
    """The batch a sentence speaks of, and its place among the plans (-1 for a new one)."""
    current = session.batch
    if current is None:
        return with_the_same(session, reading, Batch()), -1
    if session.draft is not None:
        other = instead_of_the_stopped(session, reading)
        if other is not None:
            return other, session.current if session.draft_of_current and other.facts else -1
        elsewhere = plan_of(reading, session)
        if elsewhere is not None and session.batches[elsewhere].name != session.draft.name:
            session.draft, session.wants = None, ()
            return _switched(session, reading, session.batches[elsewhere]), elsewhere
        if begins_another(reading) or begins_anew(reading, session.draft, session.batches):
            session.draft, session.wants = None, ()
            return with_the_same(session, reading, Batch()), -1
        return session.draft, session.current if session.draft_of_current else -1
    alias = alias_of(reading)
    if begins_another(reading) or (alias and current.alias and alias not in {b.alias for b in session.batches} and len(reading.said) > 1):
        return with_the_same(session, reading, Batch()), -1
    earlier = plan_of(reading, session)
    if earlier is not None:
        return _switched(session, reading, session.batches[earlier]), earlier
    if begins_anew(reading, current, session.batches) or _stands_alone(session, reading, current):
        return with_the_same(session, reading, Batch()), -1
    return carried_on(session, reading, as_it_was(session, reading, current)), session.current


def _switched(session: Session, reading: Reading, plan: Batch) -> Batch:
    """Another plan, spoken of by its name: "and the sage?" asks the same of it, and the shelf is the same shelf."""
    if session.batch is None:
        return plan  # begun afresh since: nothing of another plan is asked of it
    asked = [a.quantity for a in reading.asked] or [base(k) for k in session.last_keys]
    if not reading.asked and not reading.said and not reading.loose and session.last_keys:
        plan = plan.having(wanted=tuple(k for k in session.batch.wanted if not about(k)) or plan.wanted)
    if {"stock", "water"} & set(asked) and "stock_strength" not in {s.quantity for s in reading.said}:
        plan = carried(session, plan, ("stock_strength",))
    return plan


def _stands_alone(session: Session, reading: Reading, current: Batch) -> bool:
    """Whether a sentence is a job of its own: it answers itself, and nothing that follows rests on it and on the batch in hand together."""
    strong = [s for s in reading.said if not s.weak]
    if current.members and not reading.named and not {"herb", "ratio"} & {s.quantity for s in strong}:
        return False  # a recipe stays in hand: "and for six 50 mL bottles?"
    if len(strong) < 2 or any(reading.has(a) for a in CONTINUES) or {s.key for s in strong} & current.facts.keys():
        return False
    fresh = lay_over(Batch(), reading, session.turn, ())
    if fresh.bad or fresh.doubled or fresh.unplaced:
        return False
    alone = work_out(fresh.batch)
    asked, open_ = answering.settle_asked(alone, alone.batch.wanted if reading.asked else ())
    if open_ or not any(alone.solution.figures[k].origin == "found" for k in asked or answering.told(alone)):
        return False
    both = work_out(lay_over(current, reading, session.turn, ()).batch)
    old = current.facts.keys()
    for key, figure in both.solution.figures.items():
        if figure.origin == "found":
            leaves = {f.key for f in both.solution.leaves(key)}
            if leaves & old and leaves & fresh.new_keys:
                return False
    return True


def frozen(session: Session, target: Batch, reading: Reading) -> Batch:
    """A property just found (water content, mL held per g, a ratio) becomes a fact where the next sentence brings another amount: "so 2 kg gives?"."""
    weighed = {"herb", "dried"} & {s.quantity for s in reading.said}
    if {"herb", "dried"} <= target.facts.keys() and len(weighed) == 1 and not target.facts.keys() & {"ratio", "menstruum"}:
        fresh, dry = target.facts["herb"].value, target.facts["dried"].value
        if fresh > dry > 0:  # "850 g went in, 190 came out. For 250 g dry I pick?"
            kept = target.without("herb", "dried", "water_content", "dried_water", "wilted")
            if not reading.asked:  # "so 3 kg makes"
                kept = kept.having(wanted=("dried",) if "herb" in weighed else ("herb",))
            return kept.with_facts({"drying_ratio": Fact(fresh / dry, "measured", session.turn)})
    if session.last is None or not session.last_keys or target is not session.batch:
        return target
    key = session.last_keys[0]
    outputs = PROPERTIES.get(key)
    said = {s.quantity for s in reading.said}
    found = session.last.value(key)
    if outputs is None or found is None or key in target.facts or key in said or not said & {"herb", "menstruum", "in_jar"} or said & outputs:
        return target
    measured = Fact(found, "measured", session.turn)
    if not reading.asked and key in target.wanted:  # "so the 1200 g I've got makes what": no more how wet, but what comes of it
        target = target.having(wanted=(COMES_OF[key],))
    return target.without(*outputs).with_facts({key: measured})
