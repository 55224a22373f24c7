"""A dose of one tincture told in mL of another, one dried and one fresh: "how many mL of it to match 2 mL of a dried 1:5".

The fresh one is worked out first, shrinkage counted, for what each of its mL carries; a weight that nobody said makes no difference there,
so it is reckoned on 100 g. Where no strength was said the plain rule of relations/dosing.py serves, and nothing is done here.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.reply import Assumption, Reply
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

MATCH = looked_for(
    r"\b(?:match\w*|same as|same dose|the same|what['’]?s that (?:in|as|of)|what (?:is|would) (?:that|it) (?:be )?(?:in|as|of)"
    r"|equal\w*|equivalent|replac\w+|instead of|in place of|swap\w*|switch\w*|stands? in|for it to be"
    r"|how (?:much|many)\b[^.;?]{0,24}\bis that|is how (?:much|many)(?: ml)? of"
    r"|(?:only|just) (?:got|have|had|got some)\b[^.;?]{0,24}\b(?:fresh|dried|dry)|out of (?:the |my )?(?:fresh|dried|dry))\b",
    re.IGNORECASE,
)
STATE = looked_for(r"\b(fresh|dried|dry)\b", re.IGNORECASE)
OF_THE_JAR = ("ratio", "strength", "water_content")
SOME_STRENGTH = ("strength", "stock_strength", "finished_strength")
TURNING = frozenset({"round", "swap", "swap_back", "scale_n"})
OF_THE = r"^[ ,]*(?:\w+ )?(?:of|from) (?:the |a |an |my |that |her |his |our )?"
FRESH_BEHIND = looked_for(rf"{OF_THE}fresh", re.IGNORECASE)
DRIED_BEHIND = looked_for(rf"{OF_THE}(?:dried|dry)", re.IGNORECASE)
IN_HAND_BEHIND = looked_for(r"^\s*(?:\w+ )?(?:of|from) (?:that|it|this|mine|ours|this one|that one)\b(?!\s+(?:dried|dry|1))", re.IGNORECASE)
ASKS_BETWEEN = looked_for(r"\b(?:what|whats|how|same|equals?|match\w*)\b|=", re.IGNORECASE)
PER_ML = frozenset({"herb_per_ml", "herb_per_ml_jar", "dried_equivalent"})
MOST_DOSE = 60.0  # mL
NOMINAL = 100.0  # g


def swapped(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The dose of the one tincture that carries what a dose of the other does, fresh for dried or dried for fresh; None for every other sentence."""
    ratios = [s for s in reading.said if s.quantity == "ratio" and not s.member]
    if len(ratios) > 2 or reading.ingredients or reading.liquids:
        return None
    dose = next((s for s in reading.said if s.quantity in ("dose", "daily", "menstruum", "bottle_size") and s.value <= MOST_DOSE), None)
    if dose is None or not _asks_to_swap(session, reading):
        return None
    told = {s.quantity: s for s in reading.said}
    own = _swapped_before(session.batch)
    if len(ratios) == 2:
        fresh = next((r for r in ratios if _state(r, ratios, reading.heard) == "fresh"), None)
        strengths = [s for s in reading.said if s.quantity in SOME_STRENGTH and not s.member]
        if fresh is None or not strengths or "water_content" not in told:
            return None
        dried = next(r for r in ratios if r is not fresh)
        strength = _nearest_behind(fresh, dried, strengths)
        jar = {"ratio": fresh, "strength": strength, "water_content": told["water_content"]}
        facts = {k: Fact(s.value, "said", session.turn) for k, s in jar.items()}
        of_fresh = _of_fresh(dose, reading.heard, next((r for r in ratios if r.start > dose.start), dried) is fresh)
        carried = _carried(facts)
        carries, other_ratio = carried.value("dried_equivalent"), facts["ratio"]
        used = {id(s) for s in (*jar.values(), dried)}
    elif own is not None and (not ratios or _is_of(ratios[0].value, own)):
        carried, of_fresh = None, _of_fresh(dose, reading.heard, "other_dose" in own.facts)
        carries, other_ratio, dried = own.facts["other_carries"].value, own.facts["other_ratio"], None
        used = {id(r) for r in ratios}
        if ratios and not STATE.search(reading.heard):
            of_fresh = abs(ratios[0].value - other_ratio.value) < 1e-9
    elif len(ratios) == 1:
        batch, dried = session.batch, ratios[0]
        if batch is None or "fresh" not in batch.tags or _state(dried, ratios, reading.heard) != "dried":
            return None
        facts = dict(batch.facts)
        if "ratio" not in facts and {"herb", "menstruum"} <= facts.keys():
            facts["ratio"] = replace(facts["menstruum"], value=facts["menstruum"].value / facts["herb"].value)  # "300 g on 600 mL"
        if not set(OF_THE_JAR) <= facts.keys():
            return None
        of_fresh = _of_fresh(dose, reading.heard, dose.end <= dried.start and ASKS_BETWEEN.search(reading.heard[dose.end : dried.start]) is not None)
        carried = _carried({key: facts[key] for key in OF_THE_JAR})
        carries, other_ratio, used = carried.value("dried_equivalent"), facts["ratio"], {id(dried)}
    else:
        return None
    if carries is None:
        return None
    given, wanted = ("other_dose", "dose") if of_fresh else ("dose", "other_dose")
    clean = replace(reading, said=[replace(dose, quantity=given, weak=False)], asked=[Asked(wanted, dose.start, dose.end)])
    clean.acts = [a for a in reading.acts if a.name not in TURNING]
    clean.frames = {"dose"}
    clean.tags = reading.tags - {"fresh"} | {"dried"}
    for other in reading.said:
        if other is not dose:
            clean.references.append(Reference(other.quantity if id(other) in used else "reference", other.start, other.end, other.value))
    for figure in [f for f in clean.loose if f.kind == "%"]:  # the dried one's strength: nothing hangs on it
        clean.only_points(figure)
    name = session.batch.name if session.batch is not None and len(ratios) < 2 else ""
    ratio = own.facts["ratio"] if dried is None and own is not None else Fact(dried.value if dried is not None else 0.0, "said", session.turn)
    onto = Batch(name=name, frames=frozenset({"dose"})).having(
        facts={"ratio": ratio, "other_carries": Fact(carries, "found"), "other_ratio": other_ratio}, tags=frozenset({"dried"})
    )
    reply = session.take(clean, answers, onto=onto, index=-1)
    return reply if carried is None else _with_the_jar(reply, carried)


def _asks_to_swap(session: Session, reading: Reading) -> bool:
    if MATCH.search(reading.heard):
        return True
    return _swapped_before(session.batch) is not None and len([s for s in reading.said if not s.weak or s.quantity == "menstruum"]) <= 2


def _swapped_before(batch: Batch | None) -> Batch | None:
    """The swap in hand, where one was worked out from its own jar."""
    return batch if batch is not None and {"other_carries", "other_ratio", "ratio"} <= batch.facts.keys() else None


def _is_of(ratio: float, own: Batch) -> bool:
    return any(abs(own.facts[k].value - ratio) < 1e-9 for k in ("ratio", "other_ratio"))


def _nearest_behind(fresh: Said, dried: Said, strengths: list[Said]) -> Said:
    """Of the strengths that were said, the fresh one's: behind its ratio and not behind the other's, else the first of them."""
    behind = [s for s in strengths if max((r for r in (fresh, dried) if r.start < s.start), key=lambda r: r.start, default=None) is fresh]
    return (behind or strengths)[0]


def _of_fresh(dose: Said, heard: str, otherwise: bool) -> bool:
    """Whether a dose is one of the fresh tincture: "3 ml of the fresh one"."""
    if FRESH_BEHIND.match(heard[dose.end :]) or IN_HAND_BEHIND.match(heard[dose.end :]):
        return True
    return False if DRIED_BEHIND.match(heard[dose.end :]) else otherwise


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


SENTENCE_ENDS = looked_for(r"[.;?!](?:\s|$)")
A_SENTENCE = 60  # as many characters as the end of a sentence counts for


def _apart(word: re.Match[str], ratio: Said, heard: str) -> float:
    """How far a word stands from a ratio, in characters; what stands in another sentence is farther."""
    first, last = sorted((word.start(), ratio.start))
    return abs(word.start() - (ratio.start + ratio.end) / 2) + A_SENTENCE * len(SENTENCE_ENDS.findall(heard[first:last]))


def _state(ratio: Said, ratios: list[Said], heard: str) -> str:
    """The word of state that stands nearest to a ratio and nearer to it than to another: fresh, dried, or ""."""
    own = [word for word in STATE.finditer(heard) if min(ratios, key=lambda r: _apart(word, r, heard)) is ratio]
    near = [(_apart(word, ratio, heard), "fresh" if word.group(1).lower() == "fresh" else "dried") for word in own]
    return min(near)[1] if near else ""
