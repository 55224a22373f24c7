"""A batch made larger or smaller as a whole, or one thing of it alone."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Act, Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base
from assistant.reply import Question, Reply
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import work_out
from assistant.session.proportions import multiplied
from assistant.session.repeating import again, refer

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

MOST = 1e6
ACTS = ("scale_up", "scale_left", "scale_down", "scale", "scale_n", "scale_first", "for_jars", "scale_one")
# What "double the thyme" doubles of an ingredient, the first of these that was said.
AMOUNTS = ("part", "share", "weight", "volume", "once_weight", "once_volume")


def factor_of(act: Act) -> float:
    """How many times the batch. "A third more" is 4/3, "20 % less" is 0.8."""
    if act.name == "scale_left":
        return 1 - act.figures[-1]  # "gave half the yarrow away"
    if act.name in ("scale_up", "scale_down"):
        share = act.figures[-1]
        part = share if 0 < share < 1 else share / 100
        return 1 + part if act.name == "scale_up" else 1 - part
    return act.figures[-1] if act.figures else float(act.arguments[0])


BY_A_SHARE = looked_for(
    r"\b(?P<way>cut|reduce|drop|lower|bring|take|put|raise|increase|up|bump)\w*\b[^;.\d]{0,25}?\bdose (?:down |up )?by (?:a |an |one )?[a-z\d]", re.IGNORECASE
)
UPWARDS = frozenset({"raise", "increase", "up", "bump"})


def of_the_dose(reading: Reading, act: Act) -> float:
    """How many times the dose. "Cut the dose by a third" leaves two thirds, "raise it by a quarter" makes it 5/4."""
    factor = act.figures[0] if act.figures else float(act.arguments[0])
    by = BY_A_SHARE.search(reading.heard)
    if by is None or not 0 < factor < 1:
        return factor
    return 1 + factor if by["way"].lower() in UPWARDS else 1 - factor


DOSES = ("dose", "dose_drops", "dropperfuls")


def with_the_dose(batch: Batch, factor: float, turn: int) -> Batch:
    """The batch with so many times the dose, in whatever it was counted."""
    return batch.with_facts({k: replace(batch.facts[k], value=batch.facts[k].value * factor, turn=turn) for k in DOSES if k in batch.facts})


def scaled(session: Session, reading: Reading, answers: Answers, act: Act, index: int) -> Reply:
    """The batch `index` times the factor of the sentence; ratios, strengths and doses stay."""
    refer(answers, reading, (act.start, act.end))
    refer(answers, reading)
    batch = session.batch if index == session.current else session.batches[index]
    assert batch is not None
    if act.name == "scale_first" and session.firsts:
        batch = session.firsts[max(index, 0)]
    factor = factor_of(act)
    if not 0 < factor < MOST:
        question = Question(text="How many times the batch?", choices=("double it", "half of it"))
        return answers.reply("refused", f"A batch cannot be multiplied by that. {question.text}", questions=(question,))
    if act.name == "for_jars":
        return _for_jars(session, answers, batch, index, factor)
    weighed = session.last.value("herb") if session.last is not None else None
    if weighed is not None and {"gross", "tare"} <= batch.facts.keys() and "herb" not in batch.facts:
        batch = batch.without("gross", "tare", "picked").with_facts({"herb": Fact(weighed, "said", session.turn)})  # the bag does not grow with the batch
    if (
        batch.members
        and (many := multiplied(batch, factor, any(w in reading.heard.lower() for w in ("recipe", "original")), session.turn, reading)) is not None
    ):
        return again(answers, many, index)
    if act.name in ("scale_up", "scale_down") and "honey_to_vinegar" in batch.facts and {"jars", "jar_size"} <= batch.facts.keys():
        size, jars = batch.facts["jar_size"], batch.facts["jars"]  # "5 % more for what stays on the spoon": more in the pan, no more jars
        batch = batch.without("jars", "jar_size").with_facts({"in_jar": replace(size, value=size.value * jars.value)})
        batch = batch.having(wanted=tuple(dict.fromkeys(("in_jar", *batch.wanted))))
    larger = batch.scaled(factor, session.turn)
    if not any(larger.facts[k].value != batch.facts[k].value for k in batch.facts) and act.name in ("scale", "scale_n"):
        return again(answers, with_the_dose(batch, factor, session.turn), index)  # "double it": nothing but a dose is in hand
    if "formula" in larger.frames and "bottles" not in larger.facts and "bottle_size" in larger.facts:
        size = larger.facts["bottle_size"]
        larger = larger.with_facts({"bottle_size": Fact(size.value * factor, size.origin, session.turn, size.said_unit)})
    return again(answers, _asking_amounts(larger), index)


def _asking_amounts(batch: Batch) -> Batch:
    """A larger batch is told by what goes in, whatever was last asked of it."""
    if batch.members:
        return batch
    found = work_out(batch).solution.figures
    main = [k for k in ("herb", "menstruum") if k in found]
    return batch.having(wanted=tuple(dict.fromkeys((*main, *batch.wanted))))


def _for_jars(session: Session, answers: Answers, batch: Batch, index: int, jars: float) -> Reply:
    """Enough for so many jars: their size where it was said, else each as this one."""
    size = batch.value("jar_size") or batch.value("bottle_size")
    liquid = work_out(batch).value("menstruum")
    if size is None or liquid is None:
        return again(answers, _asking_amounts(batch.scaled(jars, session.turn)), index, f"Each jar as this one, {jars:g} of them.")
    fill = (batch.value("fill") or 100.0) / 100
    larger = batch.without("jars").scaled(jars * size * fill / liquid, session.turn)
    return again(answers, _asking_amounts(larger), index)


def one_scaled(session: Session, reading: Reading, answers: Answers, act: Act) -> Reply | None:
    """ "Double the thyme": one ingredient of a recipe, the rest as it was; the whole follows."""
    batch = session.batch
    if batch is None or not batch.members:
        return None
    names = [n.name for n in (*reading.mentions, *reading.named) if n.name in batch.members]
    if not names:
        return None
    key = next((k for q in AMOUNTS for k in batch.facts if base(k) == q and about(k) == names[0]), "")
    if not key:
        return None
    refer(answers, reading, (act.start, act.end))
    fact = batch.facts[key]
    changed = batch.with_facts({key: replace(fact, value=fact.value * factor_of(act), turn=session.turn)})
    if base(key) in ("weight", "volume", "once_weight", "once_volume"):
        changed = changed.without("batch", "blend")
    return again(answers, changed, session.current)
