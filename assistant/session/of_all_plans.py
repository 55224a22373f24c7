"""What several plans take together: "how much spirit for both", "menstruum altogether", "and the two together, from 96"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Reply, Used, Value
from assistant.session import answering
from assistant.session.batch import Batch
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import fact_of
from assistant.session.pointing import plans_named
from assistant.session.repeating import refer
from assistant.session.wording import phrase_for, sentence, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

BOTH = looked_for(
    r"\b(?:for|of|in|on|with|to do|to make|do)\s+(?:them |the )?(?:both|two|pair)\b|\bboth (?:together|of them|jars|batches|plans|at once)\b|\bboth\W*$"
    r"|\b(?:the )?two (?:of them )?(?:together|combined)\b",
    re.IGNORECASE,
)
ALL = looked_for(r"\b(?:altogether|in total|in all|all told|all together|total)\b", re.IGNORECASE)
ONLY_THAT = looked_for(
    r"^\W*(?:(?:and|so|now|then|ok|what'?s|what|is|that|the|how much|for|of|them|both"
    r"|altogether|all together|in total|in all|all told|total|together|again)\b\W*)+$",
    re.IGNORECASE,
)
SUMMED = frozenset({"menstruum", "stock", "water", "herb", "pressed", "in_jar", "alcohol", "to_gather"})
POUR_WORDS = looked_for(r"\b(?:menstruum|pour|spirit|vodka|liquid|alcohol|water|brandy|stock)\b", re.IGNORECASE)


def of_all_plans(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """One figure of each of two plans, and their sum; None where the sentence asks for something else."""
    batch, others = session.batch, [s for s in reading.said if s.quantity != "stock_strength"]
    if batch is None or session.draft is not None or len(session.batches) < 2 or others or reading.loose or reading.ingredients or reading.liquids:
        return None
    both = BOTH.search(reading.heard)
    if not both and not (ALL.search(reading.heard) and len(session.batches) == 2):
        return None
    keys = [k for k in dict.fromkeys(a.quantity for a in reading.asked if not a.member) if k in SUMMED]
    if not keys and ONLY_THAT.match(reading.heard):
        keys = [base(k) for k in session.last_keys[:1] if base(k) in SUMMED]  # "and altogether now"
    if not keys and not POUR_WORDS.search(reading.heard):
        return None
    places = plans_named(reading, session) if len(reading.named) >= 2 else []
    if len(places) != 2:
        before = session.previous if session.previous is not None and session.previous != session.current else session.current - 1
        places = sorted({before % len(session.batches), session.current})
    plans = [session.batches[i] for i in places]
    if len(plans) != 2 or any(p.members or not p.facts.keys() & {"herb", "menstruum"} for p in plans):
        return None
    plans = _from_the_same(plans, reading, session)
    for key in [*keys, "menstruum"]:
        worked = [work_out(p, wanted=(key,)) for p in plans]
        values = [w.value(key) for w in worked]
        strengths = {w.value("stock_strength") for w in worked}
        if all(v is not None for v in values) and not (key == "stock" and len(strengths) > 1):
            for place, plan in zip(places, plans, strict=True):
                session.batches.put(plan, place)
            refer(answers, reading)
            answers.used += [Used(text=reading.heard[s.start : s.end], start=s.start, end=s.end, quantity=s.quantity) for s in reading.said]
            return _told(answers, worked, key)
    return None


def _from_the_same(plans: list[Batch], reading: Reading, session: Session) -> list[Batch]:
    """The strength of the shelf told of one, or in this sentence, holds for the other."""
    told = [fact_of(s, session.turn) for s in reading.said if s.quantity == "stock_strength"]
    stock = next(iter(told), None) or next((p.facts["stock_strength"] for p in plans if "stock_strength" in p.facts), None)
    if stock is None:
        return plans
    return [p.with_facts({"stock_strength": stock}) if "strength" in p.facts and (told or "stock_strength" not in p.facts) else p for p in plans]


def _told(answers: Answers, worked: list[Worked], key: str) -> Reply:
    amounts = [w.solution.figures[key].value for w in worked]
    names = [w.batch.name or w.batch.title for w in worked]
    if names[0] == names[1]:
        names = ["the first", "the second"]
    total, unit = sum(amounts), VOCABULARY[base(key)].unit
    each = ", ".join(f"{n} {shown(key, a)}" for n, a in zip(names, amounts, strict=True))
    of_what = {"stock": " of the stock", "water": " of water", "herb": " of plant", "menstruum": " to pour"}.get(key, "")
    values = [Value(quantity=base(key), about="all", value=total, unit=unit, origin="found", text=shown(key, total))]
    values += [answering.value_of(w, key).model_copy(update={"about": n}) for w, n in zip(worked, names, strict=True)]
    lines = [f"{shown(key, total)}{of_what} in all: {each}."]
    beside = [k for k in ("stock", "water") if key in ("menstruum", "stock") and k != key and all(w.value(k) is not None for w in worked)]
    if len({w.value("stock_strength") for w in worked}) == 1:
        sums = {k: sum(w.solution.figures[k].value for w in worked) for k in beside}
        values += [Value(quantity=k, about="all", value=v, unit="mL", origin="found", text=shown(k, v)) for k, v in sums.items()]
        lines += [sentence([phrase_for(k, v) for k, v in sums.items()])] if sums else []
    steps = tuple(s for w in worked for s in answering.steps_for(w, (key,)))
    assumed = [a for w in worked for a in answering.assumptions_for(w, (key,))]
    lines.append(answering.assumption_line(assumed))
    return answers.reply("answered", "\n".join(x for x in lines if x), values=tuple(values), steps=steps, assumptions=tuple(assumed))
