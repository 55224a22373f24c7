"""A dose of one tincture told in mL of another, one dried and one fresh: "how many mL of it to match 2 mL of a dried 1:5".

The fresh one is worked out first, shrinkage counted, for what each of its mL carries; a weight that nobody said makes no difference there,
so it is reckoned on 100 g. Where no strength was said the plain rule of relations/dosing.py serves, and nothing is done here.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Reading, Reference, Said
from assistant.reply import Assumption, Reply
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

MATCH = re.compile(
    r"\b(?:match\w*|same as|the same|equal\w*|equivalent|replac\w+|instead of|in place of|swap\w*|switch\w*|stands? in|for it to be"
    r"|how (?:much|many)\b[^.;?]{0,24}\bis that|is how (?:much|many)(?: ml)? of)\b",
    re.IGNORECASE,
)
STATE = re.compile(r"\b(fresh|dried|dry)\b", re.IGNORECASE)
OF_THE_JAR = ("ratio", "strength", "water_content")
PER_ML = frozenset({"herb_per_ml", "herb_per_ml_jar", "dried_equivalent"})
MOST_DOSE = 60.0  # mL
NOMINAL = 100.0  # g


def swapped(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The dose of the fresh tincture that carries what a dose of the dried one does; None for every other sentence."""
    ratios = [s for s in reading.said if s.quantity == "ratio" and not s.member]
    if not ratios or not MATCH.search(reading.heard) or reading.ingredients or reading.liquids:
        return None
    dose = next((s for s in reading.said if s.quantity in ("dose", "daily", "menstruum", "bottle_size") and s.value <= MOST_DOSE), None)
    if dose is None:
        return None
    told = {s.quantity: s for s in reading.said}
    if len(ratios) == 2:
        fresh = next((r for r in ratios if _state(r, ratios, reading.heard) == "fresh"), None)
        if fresh is None or not {"strength", "water_content"} <= told.keys():
            return None
        dried = next(r for r in ratios if r is not fresh)
        jar = {"ratio": Fact(fresh.value, "said", session.turn)} | {k: Fact(told[k].value, "said", session.turn) for k in OF_THE_JAR[1:]}
    else:
        batch, dried = session.batch, ratios[0]
        if batch is None or "fresh" not in batch.tags or _state(dried, ratios, reading.heard) != "dried":
            return None
        facts = dict(batch.facts)
        if "ratio" not in facts and {"herb", "menstruum"} <= facts.keys():
            facts["ratio"] = replace(facts["menstruum"], value=facts["menstruum"].value / facts["herb"].value)  # "300 g on 600 mL"
        if not set(OF_THE_JAR) <= facts.keys():
            return None
        jar = {k: facts[k] for k in OF_THE_JAR}
    carried = _carried(jar)
    value = carried.value("dried_equivalent")
    if value is None:
        return None
    keep = [replace(dried, quantity="ratio"), replace(dose, quantity="dose", weak=False)]
    clean = replace(reading, said=keep, asked=[Asked("other_dose", dried.start, dried.end)])
    clean.frames = {"dose"}
    clean.tags = reading.tags - {"fresh"} | {"dried"}
    for other in reading.said:
        if other is not dried and other is not dose:
            clean.references.append(Reference(other.quantity, other.start, other.end, other.value))
    onto = Batch(name=session.batch.name if session.batch is not None and len(ratios) == 1 else "", frames=frozenset({"dose"})).having(
        facts={"other_carries": Fact(value, "found"), "other_ratio": jar["ratio"]}, tags=frozenset({"dried"})
    )
    reply = session.take(clean, answers, onto=onto, index=-1)
    return _with_the_jar(reply, carried)


def carried_by_the_other(session: Session, reading: Reading) -> None:
    """ "What does it carry per mL really?": after a swap, of the one that was asked about. Changes what is asked."""
    if session.batch is not None and "other_carries" in session.batch.facts:
        reading.asked[:] = [replace(a, quantity="other_carries") if a.quantity in PER_ML else a for a in reading.asked]


def _carried(jar: dict[str, Fact]) -> Worked:
    """The fresh tincture by itself, on a weight that its carrying does not depend on."""
    facts = {**jar, "herb": Fact(NOMINAL, "assumed")}
    return work_out(Batch(tags=frozenset({"fresh"}), wanted=("dried_equivalent",)).with_facts(facts))


def _with_the_jar(reply: Reply, carried: Worked) -> Reply:
    if reply.status != "answered":
        return reply
    value = answering.value_of(carried, "dried_equivalent")
    nominal = Assumption(text=f"worked out on {NOMINAL:g} g of fresh plant", quantity="herb", value=NOMINAL, unit="g", change_by="“it is 112 g”")
    lines = reply.text.split("\n")
    lines.insert(1, f"The fresh one carries {value.text} of dried herb, worked out on {NOMINAL:g} g of fresh plant: every weight gives the same.")
    steps = (*answering.steps_for(carried, ["dried_equivalent"]), *reply.steps)
    return reply.model_copy(
        update={"text": "\n".join(lines), "values": (*reply.values, value), "steps": steps, "assumptions": (*reply.assumptions, nominal)}
    )


def _state(ratio: Said, ratios: list[Said], heard: str) -> str:
    """The word of state that stands nearest to a ratio and nearer to it than to another: fresh, dried, or ""."""
    here = (ratio.start + ratio.end) / 2
    near = []
    for word in STATE.finditer(heard):
        closest = min(ratios, key=lambda r: abs(word.start() - (r.start + r.end) / 2))
        if closest is ratio:
            near.append((abs(word.start() - here), "fresh" if word.group(1).lower() == "fresh" else "dried"))
    return min(near)[1] if near else ""
