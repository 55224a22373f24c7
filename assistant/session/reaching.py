"""Whether what there is fills so many bottles: "need 14 of 100, mine comes to 1250, short by?", "5 bottles of 100 out of that?"

Bottles told where the liquid is told as well are a wish to hold against it; nothing of the batch follows from them.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import dataclass, replace
from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.reply import Reply, Used
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out
from assistant.session.offers import offer
from assistant.session.used import references
from assistant.session.wording import number, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

# Words that hold a number of bottles against what there is.
AGAINST = looked_for(
    r"\b(?:short(?:fall|age)?|missing|lacking|lack|shy|to spare|(?:out of|from) (?:that|it|this)|reach(?:es)? for"
    r"|(?:is|will|would|does|do|be|that|it|got|have|this|not) enough|(?:do|have) i (?:have|got) enough"
    r"|(?:will|does) (?:that|it|this|they) (?:do|make|fill|give|reach|cover|stretch)|will \d[^,;.]* fill"
    r"|(?:can|could) i (?:get|fill|make)|how much (?:more|over|too (?:little|much)))\b",
    re.IGNORECASE,
)
SUPPLIES = frozenset({"menstruum", "pressed", "racked", "in_jar", "blend", "to_bottle", "spirit_in_hand", "stock", "supply", "syrup"})
FROM = frozenset({"herb", "ratio", "menstruum", "in_jar", "pressed", "racked", "blend", "syrup", "stock"})
ASKED = ("fill_short", "bottles", "rest")
BESIDE = frozenset({"bottles", "bottle_size"})
OF_THE_SHELF = frozenset({"promised", "crowns", "formula", "dose"})


@dataclass(frozen=True, slots=True)
class Reach:
    """What was held against what: the turn, so many bottles of so many mL, and the mL there are where the sentence told them."""

    turn: int
    count: float
    size: float
    volume: float | None


def enough_for(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """What the bottles lack, or what stays over; None where a sentence asks nothing of the kind, or there is nothing to hold them against."""
    wish = _wish(session, reading)
    if wish is None:
        return None
    if wish.volume is None:
        _ask_of_the_batch(session, reading)
        return None
    figures: list[Said | Loose] = [*reading.said, *reading.loose]
    worked = _worked(wish.volume, wish)
    session.reach = wish
    for figure in figures:
        quantity = figure.quantity if isinstance(figure, Said) and figure.quantity in BESIDE else _is_of(figure, wish)
        end = min(figure.end, figure.start + 40)
        answers.used.append(Used(text=reading.heard[figure.start : end], start=figure.start, end=end, quantity=quantity))
    answers.used += references(reading)
    return told(worked, answers)


def told(worked: Worked, answers: Answers) -> Reply:
    """What so many bottles lack of what there is, or what stays over once they are filled."""
    lacking, count, size = (worked.value(k) or 0.0 for k in ("fill_short", "bottles_to_fill", "bottle_size"))
    bottles = f"{number(count, '1')} of {shown('bottle_size', size)}"
    there = shown("to_bottle", worked.value("to_bottle") or 0.0)
    keys = ["fill_short", "to_fill", "to_bottle"]
    if lacking > 1e-6:
        full = shown("bottles", worked.value("bottles") or 0.0)
        text = f"Short by {shown('to_fill', lacking)}: {bottles} take {shown('to_fill', worked.value('to_fill') or 0.0)}, and there are {there}."
        text += f"\n{full} can be filled, {shown('rest', worked.value('rest') or 0.0)} over."
        keys += ["bottles", "rest"]
    else:
        over = shown("rest", abs(lacking)) + " over" if lacking < -1e-6 else "nothing over"
        text = f"Enough, {over}: {bottles} take {shown('to_fill', worked.value('to_fill') or 0.0)}, and there are {there}."
    assumed = answering.assumptions_for(worked, keys)
    lines = [text, answering.assumption_line(assumed)]
    return answers.reply(
        "answered", "\n".join(line for line in lines if line), batch=worked.batch, values=tuple(answering.value_of(worked, k) for k in keys),
        assumptions=tuple(assumed), steps=tuple(answering.steps_for(worked, keys)),
    )  # fmt: skip


def _is_of(figure: Said | Loose, wish: Reach) -> str:
    return "bottles_to_fill" if figure.value == wish.count else "bottle_size" if figure.value == wish.size else "to_bottle"


def _wish(session: Session, reading: Reading) -> Reach | None:
    if reading.ingredients or reading.liquids or reading.sizes or reading.frames & OF_THE_SHELF:
        return None
    counts = [s for s in reading.said if s.quantity == "bottles"]
    sizes = [s for s in reading.said if s.quantity == "bottle_size"]
    rest: list[Said | Loose] = [s for s in reading.said if s.quantity not in BESIDE]
    rest += reading.loose
    supply = rest[0] if len(rest) == 1 else None
    if len(rest) > 1 or len(counts) > 1 or len(sizes) > 1:
        return None
    if supply is not None and not (supply.quantity in SUPPLIES if isinstance(supply, Said) else supply.kind in ("mL", "#", "n")):
        return None
    before = session.reach if session.reach is not None and session.turn - session.reach.turn == 1 else None
    if not AGAINST.search(reading.heard) and before is None:
        return None
    if counts and (sizes or before):
        size = sizes[0].value if sizes else before.size if before else 0.0
        volume = supply.value if supply is not None else before.volume if before else None
        if supply is not None and isinstance(supply, Loose) and supply.kind != "mL" and supply.value <= size:
            return None  # a bare number that small is no liquid to fill bottles from
        return Reach(session.turn, counts[0].value, size, volume)
    if before is None or reading.asked or reading.named or reading.acts:
        return None
    if sizes and supply is None:
        return Reach(session.turn, before.count, sizes[0].value, before.volume)
    if supply is not None and not sizes and supply.value > before.size:
        return Reach(session.turn, before.count, before.size, supply.value)
    if isinstance(supply, Loose) and supply.kind in ("#", "n") and not sizes:
        return Reach(session.turn, supply.value, before.size, before.volume)
    return None


def _worked(volume: float, wish: Reach) -> Worked:
    told_so = {"to_bottle": volume, "bottle_size": wish.size, "bottles_to_fill": wish.count}
    return work_out(Batch().with_facts({k: Fact(v, turn=wish.turn) for k, v in told_so.items()}), wanted=ASKED)


def _ask_of_the_batch(session: Session, reading: Reading) -> None:
    """The bottles are held against what the batch in hand gives: asked of it like any figure, so that what is missing is asked for. Changes the reading."""
    if session.batch is None or session.draft is not None or not session.batch.facts.keys() & FROM:
        return
    for place, said in enumerate(reading.said):
        if said.quantity == "bottles":
            reading.said[place] = replace(said, quantity="bottles_to_fill", weak=False)
            reading.asked[:] = [Asked("fill_short", said.start, said.end)]
    reading.let_go("from_it", "claim")
    reading.freed |= {"bottles"}


def instead_of_a_loss(session: Session, worked: Worked, answers: Answers, index: int) -> Reply | None:
    """Bottles told that would need less than nothing to be lost are not what was made, but what was wished: what they lack, then."""
    facts = worked.batch.facts
    if not facts.keys() >= {"bottles", "bottle_size"} or offer(worked) is None:
        return None
    wished = worked.batch.without("bottles").with_facts({"bottles_to_fill": facts["bottles"]})
    again = work_out(wished, wanted=ASKED)
    if not again.solution.figures.keys() >= set(ASKED) or again.solution.conflicts or offer(again) is not None:
        return None
    session.keep(wished.having(wanted=("fill_short",)), index)
    session.last, session.last_keys = again, ("fill_short",)
    return told(again, answers)
