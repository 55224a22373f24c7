"""What is there brought to another strength: more spirit, more water, or what the limit would have been."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Act, Reading, Said
from assistant.reply import Reply
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import WATERY_MEMBERS
from assistant.session.repeating import again, refer
from assistant.session.wording import shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

# What "it" is when it is topped up: (volume, strength), the first that is known.
POOLS = (("blend", "blend_strength"), ("in_jar", "finished_strength"), ("menstruum", "strength"))
THERE = "what is there"
POOL = {
    "pressed": ("pressed", "finished_strength"),
    "racked": ("racked", "finished_strength"),
    "in_jar": ("in_jar", "finished_strength"),
    "blend": ("blend", "blend_strength"),
}


def topped_up(session: Session, answers: Answers, act: Act) -> Reply | None:
    """ "How much more 95 to get it back up to 60": what is there and the spirit added become a mix with one volume unknown."""
    worked = session.last
    assert worked is not None
    if act.name == "top_up_water":
        added, target = 0.0, act.figures[-1]
    else:
        added, target = act.figures[:2] if act.name == "top_up" else (act.figures[1], act.figures[0])
    more = f"{added:g} %" if added else "water"
    for have, now in pools(session, worked):
        batch = with_more(worked.batch, (have, now), (more, added), {"blend_strength": target}, (f"volume[{more}]",), session.turn)
        return again(answers, batch, session.current)
    return None


def pools(session: Session, worked: Worked) -> Iterator[tuple[float, float]]:
    """What "it" may be when something is put to it: mL and percent, what was told last first."""
    recent = [POOL[k] for k in session.last_keys if k in POOL]
    for volume, strength in (*recent, *POOLS):
        have, now = worked.value(volume), worked.value(strength)
        if have is not None and now is not None:
            yield have, now


def with_more(batch: Batch, there: tuple[float, float], more: tuple[str, float], told: Mapping[str, float], wanted: tuple[str, ...], turn: int) -> Batch:
    """What is there (mL, percent) and a liquid put to it (name, percent) as a mix of two, with what is told of it and what is looked for."""
    name, strength = more
    facts = {f"volume[{THERE}]": there[0], f"strength_of[{THERE}]": there[1], f"strength_of[{name}]": strength, **told}
    return Batch(
        name=batch.name, plants=batch.plants, frames=frozenset({"mix"}), tags=batch.tags - {"fresh", "dried"}, members=(THERE, name), wanted=wanted,
        spoken=batch.spoken,
    ).with_facts({k: Fact(v, "said", turn) for k, v in facts.items()})  # fmt: skip


def had_wanted(session: Session, reading: Reading, answers: Answers, target: float) -> Reply | None:
    """ "Had I wanted 25, how much decoction was the limit?": from the ingredients, with the volume that is asked for left open."""
    batch = session.batch
    for mark in reversed(session.journal.before):
        if batch is None or THERE not in batch.members:
            break
        batch = mark.in_hand  # what was poured together, before it was mended
    if batch is None or "mix" not in batch.frames or not batch.members or THERE in batch.members:
        return None
    words = set(reading.heard.lower().replace("?", " ").replace(",", " ").split())
    open_member = next((m for m in batch.members if m in words), None) or next((m for m in batch.members if m in WATERY_MEMBERS), batch.members[-1])
    facts = {k: f for k, f in batch.facts.items() if k not in (f"volume[{open_member}]", "blend", "blend_strength")}
    changed = batch.having(facts=facts, wanted=(f"volume[{open_member}]",)).with_facts({"blend_strength": Fact(target, "said", session.turn)})
    refer(answers, reading)
    before, last, keys = session.mark(), session.last, session.last_keys
    reply = again(answers, changed, session.current)  # only imagined: what is in the jar stays as it is
    session.stand_on(before)
    session.rewinding, session.last, session.last_keys = False, last, keys
    return reply


def brought_down(session: Session, reading: Reading) -> None:
    """ "Half a litre of brandy, how much water gets it to 30": what is lowered is the spirit one starts from. Changes the reading."""
    act = reading.act("top_up_water")
    if act is None or not act.figures or (session.last is not None and not reading.said):
        return
    reading.said = [
        replace(
            s, quantity={"menstruum": "stock", "strength": "stock_strength", "pressed": "stock", "bottle_size": "stock"}.get(s.quantity, s.quantity), weak=False
        )
        for s in reading.said
    ]
    at = next((r for r in reading.references if act.start <= r.start < act.end), None)
    if at is not None and not any(s.quantity == "strength" for s in reading.said):
        reading.said.append(Said("strength", act.figures[-1], at.start, at.end))


def ceiling(session: Session, answers: Answers) -> Reply | None:
    """The highest finish this plant and ratio can reach with this stock, poured as it is."""
    batch = session.batch
    assert session.last is not None
    if batch is None:
        return None
    stock = session.last.value("stock_strength") or session.last.value("strength")
    if stock is None:
        return None
    neat = work_out(batch.without("finished_strength", "strength"), extra={"strength": stock})
    if neat.value("finished_strength") is None:
        return None
    value = answering.value_of(neat, "finished_strength").model_copy(update={"quantity": "ceiling"})
    text = f"At most {shown('finished_strength', neat.solution.figures['finished_strength'].value)}, poured at {shown('strength', stock)} as it is."
    return answers.reply("answered", text, batch=batch, values=(value,), steps=tuple(answering.steps_for(neat, ("finished_strength",))))
