"""When a figure cannot be reached: the reason, and what would work."""

from __future__ import annotations

from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Question
from assistant.session.answering import assumption_line, assumptions_for
from assistant.session.figuring import Worked, work_out
from assistant.session.wording import shown
from assistant.solving import Impossible


def offer(worked: Worked) -> tuple[str, Question, tuple[str, ...]] | None:
    """Why the batch cannot be, the question that mends it, and the keys it waits for; None where nothing is wrong."""
    strength, stock = worked.value("strength"), worked.value("stock_strength")
    if strength is not None and stock is not None and strength > stock + 1e-6:
        return _above_stock(worked, strength, stock)
    glycerine, sold = worked.value("glycerine"), worked.value("glycerine_stock")
    if glycerine is not None and sold is not None and glycerine > sold + 1e-6 and "glycerite" in worked.batch.frames:
        return _above_glycerine(glycerine, sold)
    if "year" in worked.tags and (worked.value("to_make") or 0.0) < 0:
        return _enough(worked)
    mix = _outside_mix(worked)
    if mix is not None:
        return mix
    if "keeping" in worked.tags and any(i.key == "keeping_spirit" and i.value < 0 for i in worked.solution.impossible):
        return _keeps_by_itself(worked)
    if worked.solution.impossible:
        return _impossible(worked, worked.solution.impossible[0])
    water = worked.value("water")
    if water is not None and water < -0.5 and "spirit" in worked.tags:
        question = Question(text="From what strength do you start, and how much do you want?", wants=("stock_strength", "menstruum"), choices=("from 95 %",))
        return f"That would need {shown('water', -water)} of water taken out, which cannot be done.", question, ("stock_strength", "menstruum")
    if water is not None and water < -0.5 and "cut" in worked.tags:
        sour, bought = shown("acidity", worked.value("acidity") or 0.0), shown("acidity_stock", worked.value("acidity_stock") or 0.0)
        text = f"{sour} cannot come out of {bought} vinegar: water only thins it."
        question = Question(text="Which stronger vinegar could you start from?", wants=("acidity_stock",), choices=("10 % vinegar",))
        return text, question, ("acidity_stock",)
    for stuck in worked.solution.unreached:
        if "finished_strength" in worked.batch.facts and "strength" in stuck.keys:
            return _above_ceiling(worked)
    return None


def _above_stock(worked: Worked, strength: float, stock: float) -> tuple[str, Question, tuple[str, ...]]:
    finish = worked.batch.value("finished_strength")
    if finish is not None and "strength" not in worked.batch.facts:
        return _above_ceiling(worked)
    text = f"{shown('strength', strength)} cannot come out of {shown('strength', stock)}: water only brings a spirit down, so nothing above {shown('strength', stock)} can be made from it."  # noqa: E501  (one sentence, or one expression)
    question = Question(
        text="Which stronger spirit could you start from?", wants=("stock_strength",), choices=("from 95 %", f"make it {shown('strength', stock)}")
    )
    return text, question, ("stock_strength",)


def _above_glycerine(glycerine: float, sold: float) -> tuple[str, Question, tuple[str, ...]]:
    text = f"{shown('glycerine', glycerine)} glycerine cannot come out of {shown('glycerine', sold)}: water only thins it."
    question = Question(
        text="How strong is the glycerine you have?", wants=("glycerine_stock",), choices=("from 99.5 % glycerine", f"make it {shown('glycerine', sold)}")
    )
    return text, question, ("glycerine_stock",)


def _above_ceiling(worked: Worked) -> tuple[str, Question, tuple[str, ...]]:
    finish = worked.batch.value("finished_strength") or 0.0
    stock = worked.value("stock_strength")
    top = 100.0 if stock is None else stock
    neat = work_out(worked.batch.without("finished_strength"), extra={"strength": top})
    ceiling = neat.value("finished_strength")
    known = f" The highest finish is {shown('finished_strength', ceiling)}" if ceiling is not None else " It lies above what can be reached"
    text = (
        f"It cannot finish at {shown('finished_strength', finish)}:{known.lower() if ceiling is None else known}, poured at {shown('strength', top)} as it is."
    )
    question = Question(
        text="A longer ratio, a drier plant or a lower finish would do; which?", wants=("ratio", "finished_strength", "water_content"),
        choices=("1:4", f"finish at {int(ceiling or 40)} %", "70 % water"),
    )  # fmt: skip
    return text, question, ("ratio", "finished_strength", "water_content")


def ceiling_of(worked: Worked) -> float | None:
    """The finish that pouring the stock as it is would reach [%], None where it cannot be told."""
    if "finished_strength" not in worked.batch.facts:
        return None
    stock = worked.value("stock_strength")
    neat = work_out(worked.batch.without("finished_strength"), extra={"strength": 100.0 if stock is None else stock})
    return neat.value("finished_strength")


def _enough(worked: Worked) -> tuple[str, Question, tuple[str, ...]]:
    """A year that what is left covers already."""
    left, need = worked.value("still_left") or 0.0, worked.value("needed_for_year") or 0.0
    over = f"so {shown('rest', left - need)} stays over"
    text = f"Nothing is to be made: {shown('still_left', left)} is left and the year needs {shown('needed_for_year', need)}, {over}."
    ask = "Is one of the two off, or will more go this year?"
    question = Question(text=ask, wants=("used_last_year", "still_left", "growth"), choices=("600 mL left", "50 % more"))
    return text, question, ("still_left",)


def _outside_mix(worked: Worked) -> tuple[str, Question, tuple[str, ...]] | None:
    target = worked.batch.value("blend_strength")
    strengths = {about(k): f.value for k, f in worked.batch.facts.items() if base(k) == "strength_of"}
    if target is None or len(strengths) < 2 or "mix" not in worked.batch.frames:
        return None
    low, high = min(strengths.values()), max(strengths.values())
    if low - 1e-9 <= target <= high + 1e-9:
        return None
    names = " and ".join(shown("strength", s) for s in sorted(strengths.values()))
    text = f"{shown('strength', target)} lies outside {names}: a blend always lands between its parts."
    question = Question(
        text="Which other spirit have you, or which strength would do?", wants=("blend_strength",), choices=(f"make it {shown('strength', (low + high) / 2)}",)
    )
    return text, question, ("blend_strength",)


def _keeps_by_itself(worked: Worked) -> tuple[str, Question, tuple[str, ...]]:
    """A syrup whose sugar leaves no water free."""
    brix = worked.value("brix")
    at = f" at {shown('brix', brix)}" if brix is not None else ""
    question = Question(text="Is it to be thinner?", wants=("brix",), choices=("to 55 Brix",))
    return f"No spirit is needed to keep it:{at} the sugar leaves no free water.", question, ("brix",)


DUST = 1e-6  # a figure this small is nothing


def _impossible(worked: Worked, what: Impossible) -> tuple[str, Question, tuple[str, ...]]:
    caption = VOCABULARY[base(what.key)].caption
    name = f"{about(what.key)} {caption}" if about(what.key) else caption
    leaves = [f.key for f in worked.solution.leaves(what.key) if f.origin != "assumed"]
    said = ", ".join(f"{VOCABULARY[base(k)].caption} {shown(k, worked.solution.figures[k].value)}" for k in leaves)
    fault = ", which is less than nothing" if what.value < what.low else ", which is more than can be"
    if abs(what.value) < DUST:
        fault = " and no more"
    text = f"That does not work out: the {name} would be {shown(what.key, what.value)}{fault}" + (f" (from {said})." if said else ".")
    text = "\n".join(filter(None, (text, assumption_line(assumptions_for(worked, (what.key,))))))
    question = Question(
        text="Which of these figures is off?", wants=tuple(base(k) for k in leaves), choices=tuple(VOCABULARY[base(k)].caption for k in leaves[:3])
    )
    return text, question, tuple(leaves)
