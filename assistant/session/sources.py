"""What each figure of a batch is worth: the ± of everything it rests on, and where that ± is from.

said      "112 g give or take 5", "75 to 85 %"
read      by the instrument it was read on
table     the range a plant's water or a press runs through
label     the strength on a bottle
digits    nothing was said: at best half of the last digit
"""

from __future__ import annotations

from collections.abc import Mapping

from assistant.dataclass import dataclass, replace
from assistant.matter import FUNCTIONS, cylinders
from assistant.quantities.vocabulary import VOCABULARY, about, base, bracket
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked
from assistant.session.instruments import POURED, WEIGHED, at_hand
from assistant.session.wording import in_working, number
from assistant.solving import Known, solve

# The label of a spirit may be out by this much: Regulation (EU) 1169/2011, annex XII; 27 CFR 5.65(b). Memory.
LABEL = 0.3  # [percent by volume]
LABELLED = frozenset({"stock_strength", "strength_of"})
TOLD_IN_PERCENT = frozenset(
    {"strength", "water_content", "other_water", "wilted_water", "dried_water", "acidity", "glycerine", "glycerine_stock", "hydrometer"}
)
#: what is measured out at the bench once it was worked out, in the order in which it is
MEASURED_OUT = ("menstruum", "stock", "volume", "weight", "decoction", "honey", "sugar", "glycerine_volume")
KITCHEN_STEP = 1.0  # [g] of a scale of which nothing was said


@dataclass(frozen=True, slots=True)
class Source:
    """Something a figure rests on, with its ± in its own unit, what kind of ± that is, and why in a few words."""

    key: str
    value: float
    plus_minus: float
    kind: str  # said | read | table | label | digits | glass
    why: str


def source_of(key: str, worked: Worked, known: Known) -> Source | None:
    """The source a given figure is; None for what is exact (a ratio, a count, a price)."""
    fact = worked.batch.facts.get(key)
    if fact is None:
        assumed = worked.taken.get(key)
        if assumed is None or not assumed.plus_minus:
            return None
        return Source(key, assumed.value, assumed.plus_minus, "table", _in_parentheses(assumed.text))
    if fact.plus_minus is not None:
        if fact.low is not None and fact.high is not None:
            unit = VOCABULARY[base(key)].unit
            return Source(key, fact.value, fact.plus_minus, "said", f"{number(fact.low, unit)} to {number(fact.high, unit)}, as you said")
        return Source(key, fact.value, fact.plus_minus, "said", "as you said")
    instrument = at_hand().for_reading(key, fact.value, fact.tool)
    error = None if instrument is None else instrument.error(fact.value)
    if instrument is not None and error is not None:
        taken = "" if fact.tool or sum(i.kind == instrument.kind for i in at_hand()) == 1 else ", taken to be the one"
        return Source(key, fact.value, error.plus_minus, "read", f"{instrument.name}{taken}: {error.why}")
    if base(key) in LABELLED:
        return Source(key, fact.value, LABEL, "label", "a label may be that far out")
    if base(key) in WEIGHED | POURED | TOLD_IN_PERCENT:
        half = _half_a_digit(fact)
        return Source(key, fact.value, half, "digits", "at best, by its last digit") if half else None
    del known
    return None


def _in_parentheses(text: str) -> str:
    """What stands in the parentheses of an assumption, where it tells its range; else the assumption itself.

    >>> _in_parentheses("nettle taken at 80 % water (it runs 75 to 85 %)")
    'it runs 75 to 85 %'
    """
    return text[text.index("(") + 1 : -1] if text.endswith(")") and "(" in text else text


def _half_a_digit(fact: Fact) -> float:
    """Half of the last digit as said; the whole-number ends of hundreds were said to no finer than their zeros would have it."""
    if fact.digits:
        return fact.digits
    text = f"{fact.value:.6g}"
    if "e" in text:
        return abs(fact.value) * 0.005
    return 0.5 * 10.0 ** -len(text.split(".")[1]) if "." in text else 0.5


def sources_of(worked: Worked) -> dict[str, Source]:
    """Every given figure of a batch that is not exact."""
    found = ((key, source_of(key, worked, known)) for key, known in worked.known.items())
    return {key: source for key, source in found if source is not None}


def with_sources(worked: Worked, sources: Mapping[str, Source]) -> Worked:
    """The batch worked out again with the ± of these sources."""
    known = {k: replace(v, plus_minus=sources[k].plus_minus if k in sources else None) for k, v in worked.known.items()}
    return _again(worked, worked.batch, known)


def as_poured(worked: Worked) -> tuple[Worked, dict[str, Source]]:
    """The batch as it stands once it was measured out, with the ± of everything in it.

    What is worked out is then poured or weighed once, and has an error of its own: the pour no longer follows the plant weight by the ratio, and
    what comes of it (the finish, what is pressed) hangs on both. Ratios and wished strengths give way to what was measured.
    """
    figures = worked.solution.figures
    firm: dict[str, Known] = {}
    sources: dict[str, Source] = {}
    for key, known in worked.known.items():
        source = source_of(key, worked, known)
        if source is not None and key in figures and figures[key].origin != "found":
            firm[key] = replace(known, plus_minus=source.plus_minus)
            sources[key] = source
    for name in MEASURED_OUT:
        for key in [k for k in figures if base(k) == name and figures[k].origin == "found" and figures[k].value > 0 and _was_wished(worked, k)]:
            source = measured_out(key, figures[key].value)
            firm[key] = Known(figures[key].value, "said", 0.0, source.plus_minus)
            sources[key] = source
    made_up = "stock" in firm and "menstruum" in firm and "stock_strength" in worked.known
    wished = {"finished_strength", "in_jar", "pressed", "herb_per_ml", "blend_strength"}
    if made_up:
        firm.pop("strength", None)
        sources.pop("strength", None)
    elif "strength" in figures and figures["strength"].origin == "found" and wished & worked.known.keys():
        firm["strength"] = Known(figures["strength"].value, "said")
    for key in [k for k in firm if k in wished]:
        firm.pop(key)
        sources.pop(key, None)
    rest = {k: replace(v, origin="assumed", plus_minus=None) for k, v in worked.known.items() if k not in firm}
    poured = _again(worked, worked.batch, {**firm, **rest})
    if poured.solution.conflicts or any(
        k in poured.solution.figures and abs(poured.solution.figures[k].value - f.value) > 1e-3 * max(abs(f.value), 1e-3) for k, f in figures.items()
    ):
        sources = sources_of(worked)
        return with_sources(worked, sources), sources
    return poured, {k: s for k, s in sources.items() if k in poured.solution.figures}


def _was_wished(worked: Worked, key: str) -> bool:
    """Whether an amount follows from something wished (a ratio, parts, a strength), and not only from what was measured already in other units."""
    return any(base(f.key) not in WEIGHED | POURED and f.origin != "assumed" for f in worked.solution.leaves(key))


def measured_out(key: str, value: float) -> Source:
    """The source that an amount becomes once it is measured out: by the person's own glass or scale, else by an everyday one."""
    instrument = at_hand().for_reading(key, value)
    error = None if instrument is None else instrument.error(value)
    if instrument is not None and error is not None:
        return Source(key, value, error.plus_minus, "read", f"{instrument.name}: {error.why}")
    if VOCABULARY[base(key)].unit == "g":
        return Source(key, value, KITCHEN_STEP / 2, "glass", "a kitchen scale in 1 g steps, half a step")
    glass = cylinders.cylinder_for(value)
    fills = max(1, -(-int(value) // int(glass.capacity)))
    return Source(
        key, value, glass.class_b * fills, "glass", f"an everyday {glass.capacity:g} mL cylinder, class B" + (f", filled {fills} times" if fills > 1 else "")
    )


def _again(worked: Worked, batch: Batch, known: Mapping[str, Known]) -> Worked:
    solution = solve(known, worked.relations, batch.members, FUNCTIONS, bracket, batch.wanted, in_working)
    return Worked(batch, solution, worked.taken, worked.relations, worked.tags, known)


def name_of(key: str) -> str:
    caption = VOCABULARY[base(key)].caption
    return f"{about(key)} {caption}" if about(key) else caption
