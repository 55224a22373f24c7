"""How exact a figure is, and what would have to be measured better: each source of its ± with its share, and what halving it brings."""

from __future__ import annotations

from math import hypot, sqrt
from typing import TYPE_CHECKING

from assistant.dataclass import dataclass
from assistant.listening.statements import Reading
from assistant.matter import FUNCTIONS
from assistant.quantities.vocabulary import VOCABULARY, about, base, bracket
from assistant.reply import Question, Reply, Value
from assistant.session import answering
from assistant.session.figuring import Worked, work_out
from assistant.session.instruments import at_hand
from assistant.session.sources import MEASURED_OUT, Source, as_poured, name_of, sources_of, with_sources
from assistant.session.wording import give_or_take, phrase_for, shown, slack_text
from assistant.solving.linearity import LIMIT, misfit

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

#: what comes of it all, by the kind of work: the figure that a person cares for most
OUTCOMES = (
    "finished_strength",
    "finished_acidity",
    "finished_glycerine",
    "brix",
    "blend_strength",
    "pressed",
    "strength",
    "in_jar",
    "dried",
    "days",
    "batch",
    "blend",
)
ROUGH = "That ± is rough: over so wide a range the figure does not move in a straight line."
OFFER = "Tell me what you weigh and measure with, and I reckon with that: “my kitchen scale reads in 1 g steps”, “my cylinder is 100 mL, class B”."
LEAST_SHARE = 0.5  # [percent of the square] below it a source is not told
HOW_BETTER = {
    "water_content": "dry 20 g of it and weigh it",
    "stock_strength": "read it with a hydrometer",
    "strength": "mix it from a stock of known strength, or read it with a hydrometer",
    "held_per_gram": "weigh the marc, or keep what a pressing gave",
    "drops_per_ml": "count the drops of 2 mL again",
}


@dataclass(frozen=True, slots=True)
class Part:
    """One source of a figure's ±: how much of it, in the figure's unit, and its share of the square [percent]."""

    source: Source
    size: float
    share: float


def parts_of(key: str, worked: Worked, sources: dict[str, Source]) -> list[Part]:
    """The sources of a figure's ±, the largest first. Their sizes add in quadrature to the ± (JCGM 100:2008, 5.1.2)."""
    figure = worked.solution.figures.get(key)
    if figure is not None and figure.origin != "found" and key in sources:
        return [Part(sources[key], sources[key].plus_minus, 100.0)]
    moved = worked.solution.moved_by(key)
    sizes = [(sources[k], abs(change) * sources[k].plus_minus) for k, change in moved.items() if k in sources and change]
    whole = sum(size * size for _, size in sizes)
    parts = [Part(source, size, 100 * size * size / whole) for source, size in sizes if whole and size > 1e-12]
    return sorted(parts, key=lambda p: -p.size)


def total(parts: list[Part]) -> float:
    return hypot(*(p.size for p in parts)) if parts else 0.0


def is_rough(key: str, worked: Worked) -> bool:
    """Whether the first-order ± of a figure is more than a twentieth off what draws of its sources would show."""
    figure = worked.solution.figures[key]
    if figure.origin != "found" or not figure.plus_minus:
        return False
    rests_on = {f.key: worked.known[f.key] for f in worked.solution.leaves(key) if f.key in worked.known}  # what was said twice over would stand in the way
    return misfit(key, figure.value, worked.solution.moved_by(key), rests_on, worked.relations, worked.batch.members, FUNCTIONS, bracket) > LIMIT


def asked_keys(session: Session, reading: Reading, worked: Worked) -> list[str]:
    """The figures a question about exactness means: those it names, else those last given."""
    figures = worked.solution.figures
    named = [a.key for a in reading.asked if a.key in figures]
    stand_ins = [k for a in reading.asked for k in answering.STANDS_FOR.get(a.quantity, ()) if k in figures]
    return named or stand_ins[:1] or [k for k in session.last_keys if k in figures]


def nothing_yet(answers: Answers) -> Reply:
    question = Question(text="Which figure? Give me a batch first.", choices=("112 g give or take 5 g fresh nettle, 1:2 at 60 %",))
    return answers.reply("asking", question.text, questions=(question,))


# ── how exact is that ────────────────────────────────────────────────────────────────────────────────────────────────────


def told(session: Session, reading: Reading, answers: Answers) -> Reply:
    """Each figure with its ±, what that rests on, and whether it can be trusted."""
    batch = session.last.batch if session.last is not None and session.draft is None else session.batch
    if batch is None or not batch.facts:
        return nothing_yet(answers)
    plain = work_out(batch)
    sources = sources_of(plain)
    worked = with_sources(plain, sources)
    keys = asked_keys(session, reading, worked)
    if not keys:
        return nothing_yet(answers)
    shown_keys = keys if reading.asked else list(dict.fromkeys([*keys, *(k for k in answering.told(worked) if worked.solution.figures[k].origin == "found")]))
    lines, values, rested = [], [], {}
    rough = False
    for key in shown_keys:
        parts = parts_of(key, worked, sources)
        figure = worked.solution.figures[key]
        if figure.low is None and (not parts or (key not in keys and not give_or_take(key, figure.value, figure.plus_minus))):
            if key in keys:
                lines.append(f"{as_phrase(key, figure.value)}: exact, as far as what was said is.")
                values.append(answering.value_of(worked, key))
            continue
        rested.update({p.source.key: p.source for p in parts if p.share >= LEAST_SHARE})
        lines.append(f"{as_phrase(key, figure.value, _sure(worked, key))}.")
        values.append(answering.value_of(worked, key))
        rough = rough or is_rough(key, worked)
    lines += [f"- {_told_source(source)}" for source in rested.values()]
    values += [_source_value(source, batch.title) for source in rested.values() if source.key not in {v.quantity for v in values}]
    poured = _once_poured(worked, sources, shown_keys)
    if poured is not None:
        lines.append(poured[0])
        values += poured[1]
    if rough:
        lines.append(ROUGH)
    if rested and all(source.kind in ("digits", "table", "label") for source in rested.values()) and not at_hand():
        lines.append(OFFER)
    return answers.reply("answered", "\n".join(lines), batch=batch, values=tuple(values))


def as_phrase(key: str, value: float, sure: str = "") -> str:
    text = phrase_for(key, value, sure)
    return text[:1].upper() + text[1:]


def _sure(worked: Worked, key: str) -> str:
    figure = worked.solution.figures[key]
    unit = VOCABULARY[base(key)].unit
    if figure.low is not None and figure.high is not None:
        return answering.at_the_limits(key, figure.low, figure.high)
    return f" ± {slack_text(figure.plus_minus, unit)}" if figure.plus_minus else ""


def _told_source(source: Source) -> str:
    unit = VOCABULARY[base(source.key)].unit
    return f"{name_of(source.key)} {shown(source.key, source.value)} ± {slack_text(source.plus_minus, unit)} ({source.why})"


def _source_value(source: Source, title: str) -> Value:
    return Value(
        quantity=base(source.key), about=about(source.key), batch=title, value=source.value, unit=VOCABULARY[base(source.key)].unit,
        origin="assumed" if source.kind == "table" else "said" if source.kind not in ("glass", "read") else "measured",
        plus_minus=source.plus_minus, text=shown(source.key, source.value),
    )  # fmt: skip


def _once_poured(worked: Worked, sources: dict[str, Source], keys: list[str]) -> tuple[str, list[Value]] | None:
    """What comes of it, where measuring the pour once makes its ± another: with a ratio held the weight seems to cancel, in the jar it does not."""
    figures = worked.solution.figures
    outcomes = [k for k in keys if base(k) in OUTCOMES and figures[k].origin == "found" and figures[k].low is None]
    if not outcomes or not any(figures[k].origin == "found" for k in figures if base(k) in MEASURED_OUT):
        return None
    poured, all_sources = as_poured(worked)
    parts, values = [], []
    for key in outcomes:
        spread = total(parts_of(key, poured, all_sources))
        before = total(parts_of(key, worked, sources))
        if spread and abs(spread - before) > 0.2 * max(spread, before) and key in poured.solution.figures:
            unit = VOCABULARY[base(key)].unit
            parts.append(f"{phrase_for(key, figures[key].value, f' ± {slack_text(spread, unit)}')}")
            values.append(Value(quantity=base(key), about=about(key), batch=worked.batch.title, value=figures[key].value, unit=unit, plus_minus=spread,
                                text=shown(key, figures[key].value)))  # fmt: skip
    if not parts:
        return None
    return f"Once it is measured out and poured: {', '.join(parts)}. “What matters most” says why.", values


# ── what matters most ────────────────────────────────────────────────────────────────────────────────────────────────────


def target_of(session: Session, reading: Reading, worked: Worked, wanted: str = "") -> str:
    """The figure whose ± is looked into: the one named, else what comes of it all, else what was last given."""
    figures = worked.solution.figures
    if wanted:
        return wanted if wanted in figures else next((k for k in answering.STANDS_FOR.get(wanted, ()) if k in figures), "")
    if reading.asked:
        keys = asked_keys(session, reading, worked)
        if keys:
            return keys[0]
    last = [k for k in session.last_keys if k in figures and figures[k].origin == "found"]
    poured, sources = as_poured(worked)
    if last and base(last[0]) not in MEASURED_OUT and last[0] != "water":
        return next((k for k in last if parts_of(k, poured, sources)), last[0])  # a count has no ± of its own
    outcomes = [k for k in OUTCOMES if k in figures and figures[k].origin == "found"]
    hanging = [k for k in outcomes if sum(p.share >= LEAST_SHARE for p in parts_of(k, poured, sources)) > 1]  # of one thing alone there is no ranking
    return (hanging or last[:1] or outcomes or [""])[0]


def looked_into(session: Session, reading: Reading, wanted: str = "") -> tuple[str, Worked, dict[str, Source]] | None:
    """The figure, the batch as it is once poured, and its sources; for an amount that is measured out itself, the batch as it was worked out."""
    batch = session.last.batch if session.last is not None and session.draft is None else session.batch
    if batch is None or not batch.facts:
        return None
    plain = work_out(batch)
    key = target_of(session, reading, plain, wanted)
    if not key:
        return None
    if base(key) in MEASURED_OUT or key == "water":
        sources = sources_of(plain)
        return key, with_sources(plain, sources), sources
    poured, sources = as_poured(plain)
    return key, poured, sources


def ranked(session: Session, reading: Reading, answers: Answers) -> Reply:
    """What matters most: the sources of a figure's ± by their share, and what halving each would bring."""
    found = looked_into(session, reading)
    if found is None:
        return nothing_yet(answers)
    key, worked, sources = found
    figure = worked.solution.figures[key]
    parts = parts_of(key, worked, sources)
    unit = VOCABULARY[base(key)].unit
    title = worked.batch.title
    if not parts:
        return answers.reply("answered", f"{as_phrase(key, figure.value)}: nothing it rests on has a ± that I know of. {OFFER}", batch=worked.batch,
                             values=(answering.value_of(worked, key),))  # fmt: skip
    spread = total(parts)
    poured = ", once it is poured" if any(s not in worked.batch.facts and s not in worked.taken for s in sources) else ""
    lines = [f"{as_phrase(key, figure.value, f' ± {slack_text(spread, unit)}')}{poured}. What that comes from:"]
    values = [Value(quantity=base(key), about=about(key), batch=title, value=figure.value, unit=unit, plus_minus=spread, text=shown(key, figure.value))]
    for n, part in enumerate([p for p in parts if p.share >= LEAST_SHARE], 1):
        halved = halving(spread, part)
        lines.append(f"{n}. {_told_source(part.source)}: {_share(part.share)} of it; halved, ± {slack_text(halved, unit)}.")
        name = name_of(part.source.key)
        values += [
            Value(quantity="share_of_error", about=name, batch=title, value=part.share, unit="percent", text=_share(part.share)),
            Value(quantity="error_if_halved", about=name, batch=title, value=halved, unit=unit, text=f"± {slack_text(halved, unit)}"),
            _source_value(part.source, title),
        ]
    lines.append(f"To know it better: {better(parts[0].source)}.")
    if is_rough(key, worked):
        lines.append(ROUGH)
    if all(p.source.kind in ("digits", "table", "label", "glass") for p in parts) and not at_hand():
        lines.append(OFFER)
    return answers.reply("answered", "\n".join(lines), batch=worked.batch, values=tuple(values))


def halving(spread: float, part: Part) -> float:
    """The ± of a figure once one of its sources is halved.

    >>> from assistant.session.sources import Source
    >>> halving(5.0, Part(Source("herb", 100.0, 4.0, "said", ""), 4.0, 64.0)) == (3.0**2 + 2.0**2) ** 0.5
    True
    """
    return sqrt(max(0.0, spread * spread - 0.75 * part.size * part.size))


def _share(share: float) -> str:
    return f"{share:.0f} %" if share >= 1 else f"{share:.1f} %"


def better(source: Source) -> str:
    """How the source can be had more exactly."""
    name = base(source.key)
    if name in HOW_BETTER:
        return HOW_BETTER[name]
    unit = VOCABULARY[name].unit
    if unit == "g":
        return f"weigh the {name_of(source.key).replace(' weight', '')} on a finer scale"
    if unit == "mL":
        return f"measure the {name_of(source.key)} in the smallest glass that holds it, or in one of class A"
    return f"measure the {name_of(source.key)} again"
