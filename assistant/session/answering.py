"""A worked batch as a reply: the answer first, then what it becomes, then what was taken for granted."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from datetime import date

from assistant.matter.cylinders import cylinder_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.quantities.working_year import DATES
from assistant.reply import Assumption, Origin, Question, Step, Value
from assistant.session.batch import Batch
from assistant.session.figuring import Worked
from assistant.session.instruments import at_hand
from assistant.session.telling import COMPANIONS, told_keys
from assistant.session.wording import give_or_take, in_unit, number, phrase_for, sentence, shown

# Where a thing asked for goes by another name in this kind of work: tried in order until one was found.
STANDS_FOR = {
    "menstruum_served": ("menstruum", "blend"),
    "proof_us": ("proof_uk",),
    "racked": ("pressed",),
    "wilted_water": ("water_content",),
    "to_gather": ("herb",),
    "strength": ("blend_strength", "finished_strength", "brix", "finished_acidity", "finished_glycerine", "stock_strength"),
    "stock_strength": ("blend_strength", "strength"),
    "finished_strength": ("blend_strength", "finished_acidity", "finished_glycerine", "brix", "strength"),
    "menstruum": ("blend", "menstruum_served", "syrup", "volume[*]", "stock"),
    "in_jar": ("blend", "syrup", "contents"),
    "herb": ("herb_for_course", "herb_in[*]", "weight[*]", "dried", "herb_served", "to_gather", "sugar", "volume[*]", "menstruum_weight", "batch"),
    "stock": ("volume[*]", "spirit_in_hand", "menstruum"),
    "water": ("volume[water]", "liquid", "decoction"),
    "decoction": ("volume[decoction]", "boiled_to"),
    "bottles": ("bottles_needed", "tins", "jars"),
    "bottles_needed": ("bottles",),
    "other_dose": ("dose",),
    "menstruum_weight": ("eo_weight", "oil_weight"),
    "sugar_more": ("sugar",),
    "alcohol": ("alcohol_per_dose", "alcohol_per_day"),
    "tins": ("bags", "bottles"),
    "bags": ("tins", "bottles"),
    "jars": ("tins", "bottles"),
    "alcohol_grams": ("alcohol_per_dose", "alcohol_per_day"),
    "pressed": ("in_jar", "blend"),
    "rest": ("over_weight", "have_left[*]", "have_left_weight[*]", "spare", "herb_left"),
    "blend": ("batch", "volume[*]"),
    "batch": ("blend",),
    "herb_left": ("over_weight", "have_left[*]", "have_left_weight[*]", "rest", "spare"),
    "spare": ("rest", "over_weight", "herb_left"),
    "second_herb": ("herb",),
    "herb_per_day": ("herb_a_day_of[*]",),
    "herb_per_dose": ("herb_a_dose_of[*]",),
    "dose": ("child_dose", "needed_dose", "daily"),
    "child_dose": ("clark_dose", "young_dose", "fried_dose", "dose"),
    "supply": ("bottle_size", "blend"),
    "daily": ("alcohol_per_day", "herb_per_day", "cups_a_day"),
    "dried": ("herb", "herb_served", "dry_matter"),
    "bottle_cost": ("materials",),
    "eo": ("eo_drops",),
    "eo_drops": ("dose_drops", "eo_drops_of[*]", "drops_per_tin"),
    "dose_drops": ("eo_drops",),
    "days": ("cups", "course"),
    "herb_served": ("blend", "batch", "herb", "menstruum_served"),
    "ratio": ("blend_ratio", "ratio_by_weight", "dry_ratio"),
    "plant_water": ("plant_water",),
    "herb_per_ml": ("herb_per_ml_jar",),
    "water_lost": ("boiled_off",),
    "water_to_lose": ("still_to_lose",),
    "held_back": ("boiled_off",),
    "materials": ("bottle_cost",),
    "sugar": ("volume[sugar]", "weight[sugar]"),
    "jar_size": ("in_each",),
    "plants_allowed": ("plants_taken",),
    "allowed_weight": ("gathered_weight", "to_gather"),
    "gathered_weight": ("to_gather",),
}


# "How strong is it?" asks for what came of it, even where a strength was said.
LEFT = frozenset({"have_left", "have_left_weight", "have_short", "have_short_weight"})
NOTHING = 1e-6  # mL or g: what ran out is not told as left
BY_WEIGHT = frozenset({"salve", "tea"})
MEANS_THE_RESULT = frozenset({"strength", "stock_strength", "menstruum", "stock", "water", "rest", "bottles", "dose"})


# Told only where there is some: less than nothing is no amount.
NOT_BELOW_NOTHING = frozenset({"sugar_more", "honey_more", "water_off", "water_more", "spare", "spirit_short", "herb_left", "left_dried"})


def expand(key: str, batch: Batch) -> list[str]:
    return [f"{key[:-3]}[{m}]" for m in batch.members] if key.endswith("[*]") else [key]


def settle_asked(worked: Worked, asked: Iterable[str]) -> tuple[list[str], list[str]]:
    """Which keys answer what was asked, and which of the asked stay without an answer."""
    answers: list[str] = []
    open_: list[str] = []
    figures = worked.solution.figures
    for key in (_the_other_way(k, worked) for k in asked):
        if key in figures and figures[key].origin == "found":
            if base(key) not in NOT_BELOW_NOTHING or figures[key].value >= 0:  # where the spirit reaches, nothing is left to dry
                answers.append(key)
            continue
        stand_ins: list[str] = []
        if key in figures and base(key) not in MEANS_THE_RESULT:
            answers.append(key)
            continue
        for alternative in STANDS_FOR.get(base(key), ()):
            if alternative == "volume[*]" and worked.batch.frames & BY_WEIGHT:
                alternative = "weight[*]"  # a salve and a tea are weighed
            keys = [k for k in expand(alternative, worked.batch) if k in figures and figures[k].origin == "found"]
            if keys:
                stand_ins = keys
                break
        if stand_ins:
            answers.extend(stand_ins)
        elif key in figures:
            answers.append(key)
        elif base(key) == "strength" and (said := next((k for k in STANDS_FOR["strength"] if k in figures), "")):
            answers.append(said)  # "what is that in percent": the proof that was said, as a percent
        elif (near := _of_the_same_kind(worked, key)) and not answers:
            answers.append(near)
        else:
            open_.append(key)
    return list(dict.fromkeys(answers)), open_


OTHER_WAY = {"have_left": "have_short", "have_short": "have_left", "have_left_weight": "have_short_weight", "have_short_weight": "have_left_weight"}


def _the_other_way(key: str, worked: Worked) -> str:
    """What is short where it was asked what is left, and the other way round: no amount is told below nothing."""
    figure, other = worked.solution.figures.get(key), key.replace(base(key), OTHER_WAY.get(base(key), base(key)), 1)
    return other if figure is not None and figure.value < -NOTHING and other in worked.solution.figures else key


# Work with few figures of a kind: a question in another word for one of them means that one.
FEW_FIGURES = frozenset({"dose", "child_rule", "young", "fried", "cost", "essential"})


def _of_the_same_kind(worked: Worked, key: str) -> str:
    """What the work tells first, where it has the unit that was asked for: "what does Clark make of it" means the child's dose."""
    if not worked.batch.frames & FEW_FIGURES:
        return ""
    first = next(iter(told(worked)), "")
    return first if first and VOCABULARY[base(first)].unit == VOCABULARY[base(key)].unit else ""


def told(worked: Worked) -> list[str]:
    """What is told unasked, where it was found. Nothing is over, of course, where it was told how many were filled."""
    counted = worked.batch.facts.keys() & {"bottles", "tins"}
    figures = worked.solution.figures
    keys = [k for k in _told(worked) if not (k == "rest" and counted and abs(figures[k].value) < NOTHING)]
    return [k for k in keys if not (base(k) in LEFT and figures[k].value < -NOTHING)]


def _told(worked: Worked) -> list[str]:
    """As `told`; a jar that is just what was poured is not told twice."""
    figures = worked.solution.figures
    whole = {base(k) for k, f in figures.items() if about(k) and f.origin == "found" and base(k) in ("volume", "weight")}
    if whole and worked.batch.members:  # an amount found for one ingredient is told for every one
        told_ = [k for k in told_keys(worked.batch) if k in figures and (figures[k].origin == "found" or (base(k) in whole and about(k)))]
        return [k for k in told_ if not (base(k) in LEFT and figures[k].value < NOTHING)]
    if "dried" in worked.tags and "fresh" not in worked.tags:
        keys = [k for k in told_keys(worked.batch) if k not in ("finished_strength", "in_jar") or k in worked.batch.wanted or "menstruum" not in figures]
        return [k for k in keys if k in figures and figures[k].origin == "found" and not (k in NOT_BELOW_NOTHING and figures[k].value < 0)]
    return [k for k in told_keys(worked.batch) if k in figures and figures[k].origin == "found" and not (k in NOT_BELOW_NOTHING and figures[k].value < 0)]


def leading(told_: Sequence[str]) -> list[str]:
    """What makes the first line unasked: the first figure, or the same figure of every ingredient."""
    return [k for k in told_ if base(k) == base(told_[0])] if told_ and about(told_[0]) else list(told_[:1])


SAID_BESIDE = frozenset({"strength"})  # stands in the line of what is poured


def news_first(worked: Worked, last: Worked | None, main: Sequence[str], told_: Sequence[str]) -> list[str]:
    """What leads where nothing was asked: what `main` says, unless all of that was told as it is and something else has come of the sentence."""
    if last is None or last.batch.name != worked.batch.name or not main:
        return list(main)
    new = [k for k in told_ if not _as_before(worked, last, k)]
    if not new or new[0] in SAID_BESIDE or not all(_as_before(worked, last, k) for k in main):
        return list(main)
    return leading(new)


def _as_before(worked: Worked, last: Worked, key: str) -> bool:
    before = last.solution.figures.get(key)
    return before is not None and math.isclose(before.value, worked.solution.figures[key].value, rel_tol=1e-9, abs_tol=1e-9)


def companions(worked: Worked, keys: Sequence[str]) -> list[str]:
    figures = worked.solution.figures
    extra: list[str] = []
    for key in keys:
        for name in COMPANIONS.get(base(key), ()):
            if name in figures and name not in keys and figures[name].origin == "found" and (name not in NOT_BELOW_NOTHING or figures[name].value >= 0):
                extra.append(name)  # noqa: PERF401  (a condition a reader can follow)
    return list(dict.fromkeys(extra))


def value_of(worked: Worked, key: str, origin: Origin | None = None) -> Value:
    figure = worked.solution.figures[key]
    if base(key) in DATES:
        day = date.fromordinal(min(max(round(figure.value), 1), date.max.toordinal())).isoformat()
        return Value(quantity=base(key), batch=worked.batch.title, unit="day", date=day, origin=origin or figure.origin, text=shown(key, figure.value))
    return Value(
        quantity=base(key), about=about(key), batch=worked.batch.title, value=figure.value, unit=VOCABULARY[base(key)].unit,
        origin=origin or figure.origin, plus_minus=_above_dust(figure.value, figure.plus_minus), text=shown(key, figure.value),
        low=figure.low, high=figure.high,
    )  # fmt: skip


def _above_dust(value: float, plus_minus: float | None) -> float | None:
    """A ± that is only rounding in the arithmetic is none."""
    return plus_minus if plus_minus is not None and plus_minus > 1e-6 * max(abs(value), 1e-3) else None


def steps_for(worked: Worked, keys: Sequence[str]) -> list[Step]:
    """The derivation of these figures, each step once, in the order a person would do them."""
    return [
        Step(quantity=base(step.key), about=about(step.key), batch=worked.batch.title, value=step.value, unit=VOCABULARY[base(step.key)].unit,
             relation=step.relation, says=step.says, working=step.working)
        for step in worked.solution.derivation(*keys)
    ]  # fmt: skip


def assumptions_for(worked: Worked, keys: Sequence[str]) -> list[Assumption]:
    """The assumptions these figures rest on, with the phrase that changes each."""
    figures = worked.solution.figures
    result: list[Assumption] = []
    for key in worked.solution.rests_on(*keys):
        assumed = worked.taken.get(key) if figures[key].origin == "assumed" else None
        if assumed is not None and assumed.text:
            result.append(Assumption(text=assumed.text, quantity=base(key), value=assumed.value, unit=VOCABULARY[base(key)].unit, change_by=assumed.change_by))
    return result


def first_line(worked: Worked, main: Sequence[str], unit: str, measures: str) -> tuple[str, list[str]]:
    """The answer in one line, what to measure out first; and the keys of the figures it shows."""
    figures = worked.solution.figures

    def say(key: str) -> str:
        other = in_unit(key, figures[key].value, unit, measures) if unit else ""
        return shown(key, figures[key].value) + how_sure(worked, key) + (f" ({other})" if other else "")

    left = list(main)
    head = ""
    used: list[str] = []
    if main and main[0] in ("menstruum", "stock", "water") and "menstruum" in figures and not worked.batch.frames & {"mix", "salve", "tea", "formula"}:
        head, used = _pour(worked, main, say)
        left = [k for k in main if k not in used]
    parts = []
    for key in left:
        text = phrase_for(key, figures[key].value, how_sure(worked, key))
        if key == "strength" and "hydrometer" in worked.batch.facts:
            text = f"true strength {say(key)} at 20 °C"  # gauged, and poured on nothing yet
        other = in_unit(key, figures[key].value, unit, measures) if unit else ""
        parts.append(f"{text} ({other})" if other else text)
    rest = sentence(parts)
    return " ".join(x for x in (head, rest) if x), [*used, *left]


def _pour(worked: Worked, main: Sequence[str], say: Callable[[str], str]) -> tuple[str, list[str]]:
    """ "Pour 224 mL at 60 % on 112 g: 141 mL of 95 % and 87 mL of water." Figures that were only said stand in it where they help the hand."""
    figures = worked.solution.figures
    used = ["menstruum"]
    made_up = "stock" in figures and "water" in figures and "stock_strength" in figures and ("stock" in main or "water" in main)
    planted = "herb" in figures
    head = f"Pour {say('menstruum')}" if planted or not made_up else f"For {say('menstruum')}"
    if worked.batch.frames & {"oil"}:
        head += " of oil"
    if "strength" in figures and not worked.batch.frames & {"oil", "vinegar", "glycerite"}:
        head += f" at {say('strength')}"
        used.append("strength")
    if planted:
        head += f" on {say('herb')}"
        used.append("herb")
    if made_up:
        used += ["stock", "stock_strength", "water"]
        water = figures["water"].value
        if water > 0.5:
            head += f": {say('stock')} of {say('stock_strength')} and {say('water')} of water, or top up to the mark (apart they add up to more: mixed, they shrink)"  # noqa: E501  (one sentence, or one expression)
        else:
            head += f": {say('stock')} of {say('stock_strength')} as it is"
    return head + ".", used


def how_sure(worked: Worked, key: str) -> str:
    """The ± behind a figure: shown where it rests on one that is the person's own, and is more than the bench can read.

    A count within a ± is told by both ends.
    """
    figure = worked.solution.figures[key]
    if figure.low is not None and figure.high is not None and _is_the_persons(worked, key):
        return at_the_limits(key, figure.low, figure.high)
    if figure.plus_minus is None or not _is_the_persons(worked, key):
        return ""
    fact = worked.batch.facts.get(key)
    told = fact is not None and (fact.plus_minus is not None or bool(fact.tool))
    if not told and figure.plus_minus <= bench_reads(key, figure.value) * (1 + 1e-9):
        return ""
    return give_or_take(key, figure.value, figure.plus_minus)


def _is_the_persons(worked: Worked, key: str) -> bool:
    """Whether a figure rests on a ± that the person gave: said with a figure, or of an instrument it was read on."""
    facts = worked.batch.facts
    sure = [k for k in facts if not worked.known[k].plus_minus]
    if worked.solution.figures[key].low is None and "drops_per_ml" in facts and facts["drops_per_ml"].plus_minus is None:
        sure.append("drops_per_ml")  # a dropper is told of in days and bottles; that every drop is a guess goes without saying
    return any(f.key in facts and f.key not in sure for f in worked.solution.leaves(key))


def at_the_limits(key: str, low: float, high: float) -> str:
    """ " (6 to 8 at the limits)": a count at both ends of the ± of what it is counted from."""
    unit = VOCABULARY[base(key)].unit
    return f" ({number(low, unit)} to {number(high, unit)} at the limits)"


def bench_reads(key: str, value: float) -> float:
    """How finely the bench reads a figure anyway: half a mark of the glass or half a step of the scale, the person's own or a common one."""
    unit = VOCABULARY[base(key)].unit
    own = [i.step / 2 for i in at_hand() if i.unit == unit and i.step and i.holds(value)]
    if unit == "mL":
        return min([*own, cylinder_for(value).division / 2])
    if unit == "g" and value >= 20:
        return min([*own, 0.5])
    return (0.5 if value >= 10 else 0.1) if unit == "percent" else 0.0


def second_line(worked: Worked, rest: Sequence[str]) -> str:
    figures = worked.solution.figures
    return sentence([phrase_for(k, figures[k].value, how_sure(worked, k)) for k in rest])


def assumption_line(assumed: Sequence[Assumption]) -> str:
    if not assumed:
        return ""
    changes = list(dict.fromkeys(a.change_by for a in assumed if a.change_by))
    return f"Assumed: {'; '.join(a.text for a in assumed)}." + (f" To change it: {', '.join(changes)}." if changes else "")


def ask_text(questions: Sequence[Question]) -> str:
    lines = []
    for q in questions:
        offers = f" (for example: {'; '.join(q.choices)})" if q.choices else ""
        lines.append(q.text + offers)
    return "\n".join(lines)
