"""Two spirits on the shelf and a mix wanted of them: "have 1.5 l of 96 and 2 l of 40, need 1 l at 70". What is there is not what is poured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Reading
from assistant.quantities.showing import shown
from assistant.quantities.vocabulary import key_for
from assistant.reply import Reply, Used, Value

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

WHOLE = 0.06  # of the volume wanted: nearer than this, all that was told is to be poured


def from_shelf(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """How much of each goes in, and whether the shelf has it; None where the sentence tells no such shelf."""
    lines, told = reading.liquids, {s.quantity: s.value for s in reading.said if not s.member}
    if len(lines) != 2 or told.keys() != {"blend", "blend_strength"} or session.draft is not None or reading.loose or reading.ingredients:
        return None
    if any({q for q, *_ in line.figures} != {"volume", "strength_of"} for line in lines):
        return None
    strengths = [value for line in lines for q, value, *_ in line.figures if q == "strength_of"]
    there = {line.name: (value, start, end) for line in lines for q, value, start, end in line.figures if q == "volume"}
    if abs(sum(v for v, *_ in there.values()) - told["blend"]) <= WHOLE * told["blend"] or not min(strengths) < told["blend_strength"] < max(strengths):
        return None
    reading.liquids[:] = [replace(line, figures=tuple(f for f in line.figures if f[0] != "volume")) for line in lines]
    reply = session.take(reading, answers)
    if session.last is None or reply.status != "answered":
        return reply
    text: list[str] = []
    values: list[Value] = []
    for name, (held, _, _) in there.items():
        poured = session.last.value(key_for("volume", name))
        if poured is None:
            return reply
        short = poured - held
        kind = "spirit_short" if short > 0.5 else "spirit_left"
        values.append(Value(quantity=kind, about=name, value=abs(short), unit="mL", text=shown("volume", abs(short))))
        text.append(f"{shown('volume', short)} more of the {name} is wanted than the {shown('volume', held)} there" if short > 0.5 else
                    f"of the {name}, {shown('volume', -short)} stays on the shelf")  # fmt: skip
    used = [Used(text=reading.heard[a:b][:40], start=a, end=b, quantity="spirit_in_hand") for _, a, b in there.values()]
    line = "; ".join(text)
    heard = tuple(sorted([*reply.used, *used], key=lambda u: u.start))
    return reply.model_copy(update={"text": f"{reply.text}\n{line[:1].upper() + line[1:]}.", "used": heard, "values": (*reply.values, *values)})
