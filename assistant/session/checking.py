"""Checking a claim: a figure inside a checking question is compared with what comes out, never put in the batch."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Act, Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.units import of_liquid
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Reply, Used, Value
from assistant.session import answering
from assistant.session.batch import Fact
from assistant.session.beside import clause_of
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import Merged, lay_over
from assistant.session.naming import how_named
from assistant.session.placing import UNIT_OF_KIND
from assistant.session.repeating import refer
from assistant.session.wording import phrase_for, sentence, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

YES_OR_NO = looked_for(
    r"^\W*(?:(?:so|and|then|ok|right|hm+|er+|wait|but|hang on|surely|now)\W+)*"
    r"(?:is|isn['’]?t|are|aren['’]?t|was|wasn['’]?t|does|doesn['’]?t|do|shouldn['’]?t|wouldn['’]?t|won['’]?t|am i right|not)\b",
    re.IGNORECASE,
)
ASKS_HOW = looked_for(r"\b(?:how|what|which|where|why|when|enough|need|fit|keep|safe|too|if|instead|ok|okay|fine|cover)\b", re.IGNORECASE)
BECAUSE = looked_for(r"\b(?:because|since|cos|cause|seeing as|being|that's|given)\b", re.IGNORECASE)
Claim = Said | Loose
IS_IT_SO = looked_for(r"^\W*(?:(?:so|and|then)\W+)*(?:is|isn['’]?t|was) (?:it|that) (?:really |about |only )?\d", re.IGNORECASE)  # asked without its mark
UNIT_WORD = looked_for(r"\b(?:mls?|millilit\w+|grams?|g|percent)\b", re.IGNORECASE)  # names no figure by itself
PRESSING = looked_for(r"\b(?:press\w*|squeez\w*|strain\w*|marc|wrung|back|yield\w*|hand|cloth)\b", re.IGNORECASE)


def check(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The verdict on a claim about the batch in hand, or on one the rest of the sentence settles; None where there is no claim."""
    reading.acts[:] = [a for a in reading.acts if a.name != "check" or not _asks_on(a, reading)]
    if session.wants and not is_questioned(reading):  # "label says 37.5" answers what was asked
        reading.let_go("claim")
    claims = [] if reading.has("doubt") else _claims(session, reading)
    if not claims:
        return None
    claims = [_as_liquid(c, session) for c in claims]
    rest = replace(reading)
    spans = {(c.start, c.end) for c in claims}
    rest.said = [s for s in reading.said if (s.start, s.end) not in spans]
    rest.loose = [f for f in reading.loose if (f.start, f.end) not in spans]
    rest.claims = []
    if not PRESSING.search(reading.heard) and "pressed" not in session.last_keys:  # "I got 134 mL": of whatever was asked
        claims = [replace(c, weak=True) if isinstance(c, Said) and c.quantity == "pressed" else c for c in claims]
    because = BECAUSE.search(reading.heard)
    asides = [f for f in rest.loose if because is not None and f.start > because.start()]
    rest.loose = [f for f in rest.loose if f not in asides]
    target, index = session.target(rest)
    wanted = [c.key for c in claims if isinstance(c, Said) and not c.weak]
    merged = lay_over(target, rest, session.turn, session.wants)
    if merged.bad or merged.doubled or merged.unplaced:
        return None
    worked = work_out(merged.batch.having(wanted=tuple(dict.fromkeys((*wanted, *merged.batch.wanted)))))
    if worked.solution.conflicts:
        return None
    pairs: list[tuple[str, float]] = []
    slacks = {c.value: _said_to(c, reading.heard) for c in claims}
    later = _asked_later(reading)
    if later:
        worked = replace(worked, batch=worked.batch.having(wanted=tuple(k for k in worked.batch.wanted if base(k) not in later)))
    for claim in claims:
        key = _key_of(claim, worked, session, bool(merged.new_keys), reading.heard)
        if key and worked.solution.figures[key].origin != "found" and not reading.has("is_it") and not how_named(key, reading.heard):
            continue  # "would 1:4 save much?" is no claim about the 1:5 that was said
        if key and worked.solution.figures[key].origin == "assumed" and not is_questioned(reading):
            continue  # "I get 85 % back" tells what was taken for granted, it claims nothing
        if key and key not in {k for k, _ in pairs}:
            pairs.append((key, claim.value))
    if not pairs and reading.has("check") and reading.has("claim"):  # "I got 64 g, is that right?": of whatever was worked out
        aside = replace(worked, batch=merged.batch)
        said, is_new = [c for c in claims if isinstance(c, Said)], bool(merged.new_keys)
        unnamed = [(_key_of(replace(c, weak=True), aside, session, is_new, reading.heard.replace("?", "")), c.value) for c in said]
        pairs = [(key, value) for key, value in unnamed if key and worked.solution.figures[key].origin == "found"]
    if "pressed" in wanted and PRESSING.search(reading.heard) and all(base(key) in ("menstruum", "stock", "water") for key, _ in pairs):
        reading.said[:], reading.asked[:] = rest.said, [Asked("pressed", 0, len(reading.heard))]  # held against no pour: what is lacking for it is asked
        reading.references += [Reference("claim", start, end) for start, end in spans]
        return None
    if not pairs:
        return None
    answers.used += [Used(text=reading.heard[a:b][:40], start=a, end=min(b, a + 40), quantity=q) for a, b, q in merged.used]
    refer(answers, reading, *((c.start, c.end) for c in (*claims, *asides, *reading.references)))
    return verdict(session, answers, worked, pairs, index, slacks, later)


THEN = looked_for(r"then\W*", re.IGNORECASE)
CLAUSE = looked_for(r"[,;.?!](?=\s)")
DIGIT = looked_for(r"\d|\b(?:half|quarter|third|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|thirty|forty|fifty|hundred)\b", re.IGNORECASE)
ASKS_SO_MUCH = looked_for(r"\b(?:how|what|which|where|when)\b", re.IGNORECASE)


def _asks_on(act: Act, reading: Reading) -> bool:
    """Whether a checking word ends a question of its own: "what is the ratio then?", "down to 100 g oatstraw. nettle and mint then?"."""
    if any(q.start <= act.start <= q.end + 1 and q.end for q in reading.asked):
        return True
    if not THEN.fullmatch(reading.heard[act.start : act.end].strip()):
        return False
    clause = CLAUSE.split(reading.heard[: act.start])[-1]
    return not DIGIT.search(clause) or ASKS_SO_MUCH.search(clause) is not None


def _as_liquid(claim: Claim, session: Session) -> Claim:
    """Ounces claimed of a liquid are fluid ounces: "I got 10.7 oz" of the spirit."""
    asked = [VOCABULARY[base(k)].unit for k in session.last_keys]
    if claim.said_unit not in ("oz", "ounce", "ounces") or asked[:1] != ["mL"] or "g" in asked:
        return claim
    return Loose("mL", of_liquid(claim.value, session.measures), "mL", claim.start, claim.end, "", said_unit="fl oz")


def _said_to(claim: Claim, heard: str) -> float:
    """Half of the last digit of a claim in another unit than the bench's: "7.6 fl oz" is right for 224 mL."""
    from assistant.teaching.mistakes import said_to  # opened only then

    return said_to(heard[claim.start : claim.end], claim.value)


def _asked_later(reading: Reading) -> list[str]:
    """ "I make it 1500 mL, that right? And how much of the 96?": what is asked behind the checking question is not what the claim is about."""
    checks = [a for a in reading.acts if a.name == "check" and a.end]
    return [q.quantity for q in reading.asked if checks and q.start >= checks[0].end]


THEIRS = looked_for(r"\b(?:hers|his|theirs|mine|(?:her|his|their|my|that) (?:figure|number|sum|answer|way))\b", re.IGNORECASE)


def with_theirs(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "What ratio would hers have been?" after a claim was found wrong: what was asked, with the claimed figure in place of the right one. Keeps nothing."""
    batch = session.batch
    if batch is None or not session.claimed or len(reading.asked) != 1 or reading.said or reading.loose or not THEIRS.search(reading.heard):
        return None
    key, claim = session.claimed[0]
    asked = reading.asked[0].quantity
    if asked == base(key):
        return None
    trial = batch.without(asked, key).with_facts({key: Fact(claim, "said", session.turn)})
    worked = work_out(trial, wanted=(asked,))
    figure = worked.solution.figures.get(asked)
    if figure is None or figure.origin != "found" or worked.solution.conflicts:
        return None
    text = f"With {shown(key, claim)}: {phrase_for(asked, figure.value)}."
    steps = tuple(answering.steps_for(worked, [asked]))
    values = (answering.value_of(worked, asked), answering.value_of(worked, key))
    return answers.reply("answered", text, batch=worked.batch, steps=steps, values=values)


def _claims(session: Session, reading: Reading) -> list[Claim]:
    if reading.claims and is_questioned(reading):
        return list(reading.claims)
    reading.said.extend(c for c in reading.claims if c not in reading.said)  # told on the way to a question of its own: a fact like any other
    reading.claims = []
    _out_of_the_lists(reading)
    figures: list[Claim] = sorted([*reading.said, *reading.loose], key=lambda f: f.start)
    questioning = is_questioned(reading)
    if not figures or reading.has("correct_it"):
        return []
    if reading.has("check") and len(figures) > 1:
        made = [f for f in figures if OUTCOME.search(reading.heard[: f.start])]
        if made:
            return made[-1:]
    for act in reading.acts:
        if act.name == "claim" and re.search(r"\b(?:most|how|what|much|can|could|do|does|will|should)\W+$", reading.heard[: act.start], re.IGNORECASE):
            continue  # "the most I get at seventy?" claims nothing
        if act.name in ("is_it",) or (act.name == "claim" and (questioning or _is_reckoned(act, session, reading))):
            stop = STOP.search(reading.heard, act.end)
            tells = [f for f in figures if isinstance(f, Said) and f.quantity in LOSSES and act.start <= f.start < act.end]
            if act.name == "claim" and tells and not reading.has("check"):
                continue  # "I get 75 % of it back" tells, it claims nothing
            inside = [f for f in figures if act.start <= f.start and f.end <= (act.end if stop is None or act.name == "is_it" else stop.start())]
            inside = [f for f in inside if not _is_its_spirit(f, inside, reading.heard)]
            if inside and len(inside) < len(figures) + _in_lists(reading) + (session.batch is not None):
                return inside
    tail = next((a for a in reversed(reading.acts) if a.name == "check" and not reading.heard[a.end :].strip(" ?!.")), None)
    ahead = next((a for a in reading.acts if a.name == "check_that"), None)
    if tail is not None or ahead is not None:
        before = [f for f in figures if (tail is None or f.end <= tail.start) and (ahead is None or f.start >= ahead.end)]
        made = [f for f in before if OUTCOME.search(reading.heard[: f.start])]
        return (made or before)[-1:]
    if (
        session.batch is not None
        and ("?" in reading.heard or IS_IT_SO.search(reading.heard))
        and YES_OR_NO.search(reading.heard)
        and not ASKS_HOW.search(reading.heard)
        and not reading.has("whatif")
    ):
        return figures[-1:]
    return []


def _is_its_spirit(figure: Claim, claims: Sequence[Claim], heard: str) -> bool:
    """ "300 mL of 95": which spirit it is is told, only how much of it is claimed."""
    spirit = isinstance(figure, Said) and figure.quantity == "stock_strength"
    return spirit and any(c.end <= figure.start and heard[c.end : figure.start].strip() == "of" for c in claims)


LOSSES = frozenset({"yield_share", "press_loss", "rack_loss", "trim_loss"})
STOP = looked_for(r"[.,;?!](?:\s|$)|\b(?:because|but|so|from|with|for)\b")


def _is_reckoned(act: Act, session: Session, reading: Reading) -> bool:
    """ "My notes say 351", "Ada got 342": a claim about the batch in hand without a question mark."""
    return act.arguments == ("reckoned",) and session.batch is not None and not any(reading.has(a) for a in ("correct", "swap", "swap_back"))


def _in_lists(reading: Reading) -> int:
    return sum(len(line.figures) for line in (*reading.liquids, *reading.ingredients))


def is_questioned(reading: Reading) -> bool:
    """Whether a sentence asks if its figure is so, rather than for a figure."""
    return reading.has("check") or reading.has("check_that") or reading.has("really") or ("?" in reading.heard and not reading.asked)


def _out_of_the_lists(reading: Reading) -> None:
    """A claimed amount that was read as one of the liquids ("I worked out 450 mL of water") stands by itself. Changes the reading."""
    if not is_questioned(reading):
        return
    for act in reading.acts:
        if act.name != "claim":
            continue
        stop = STOP.search(reading.heard, act.end)
        last = len(reading.heard) if stop is None else stop.start()
        for row in (reading.liquids, reading.ingredients):
            for line in list(row):
                placed = [f for f in line.figures if f[3] > f[2]]
                own = [f for f in placed if act.start <= f[2] and f[3] <= last]
                if own and own == placed and line.name.endswith("%"):  # "I got 600 mL at 55 %": no third liquid, but what the others came to
                    row.remove(line)
                    reading.loose += [
                        Loose("mL" if q == "volume" else "%" if q == "strength_of" else "g", v, "", a, b, reading.heard[a:b]) for q, v, a, b in own
                    ]
                elif own:
                    row[row.index(line)] = replace(line, figures=tuple(f for f in line.figures if f not in own))
                    reading.said += [Said(q, v, a, b, line.name) for q, v, a, b in own]


# What stands right before a figure that is said to come out.
OUTCOME = looked_for(
    r"\b(?:makes?|made|gives?|gave|becomes?|(?:comes?|came) (?:out )?(?:to|at)|(?:dries|dry|dried) (?:down )?to|needs?|takes?|weighs?|yields?"
    r"|finish(?:es|ed)? (?:up )?at|ends? (?:up )?at|works out (?:at|to)|is|are|be|it's|that's|thats|its)"
    r"\s+(?:(?:a|an|about|around|roughly|some|only|just)\s+)*$",
    re.IGNORECASE,
)


def _named_found(worked: Worked, claim: Said, clause: str) -> bool:
    """Whether the clause names another figure that was worked out: "is the jar 550 mL?" is about the jar, whatever the figure looked like."""
    unit = VOCABULARY[claim.quantity].unit
    return any(f.origin == "found" and VOCABULARY[base(k)].unit == unit and how_named(k, clause) > 0 for k, f in worked.solution.figures.items())


def _key_of(claim: Claim, worked: Worked, session: Session, is_new: bool, heard: str) -> str:
    """Which figure of the batch the claim is about, "" where none can be it."""
    figures = worked.solution.figures
    clause = UNIT_WORD.sub("", clause_of(claim.start, claim.end, heard))
    strong = isinstance(claim, Said) and not claim.weak and claim.key in figures
    if isinstance(claim, Said) and strong and (claim.member or how_named(claim.key, clause) or not _named_found(worked, claim, clause)):
        return claim.key
    unit = VOCABULARY[claim.quantity].unit if isinstance(claim, Said) else UNIT_OF_KIND.get(claim.kind, "")
    asked = [k for k in worked.batch.wanted if k in figures]
    likely = [] if is_new else [k for k in session.last_keys if k in figures and figures[k].origin == "found"]
    told = answering.told(worked)
    rest = [k for k, f in figures.items() if f.origin == "found" and k != "strength_by_weight"]  # nobody means that who does not name it
    if "?" in heard:
        rest += [k for k, f in figures.items() if f.origin in ("said", "measured")]  # "is it still 1:2?"
    by_name = [
        k for k in dict.fromkeys((*likely, *asked, *told, *rest))
        if k in figures and figures[k].origin == "found" and (not unit or VOCABULARY[base(k)].unit == unit) and how_named(k, clause) > 0
    ]  # fmt: skip
    if by_name:
        return max(by_name, key=lambda k: how_named(k, clause))
    if unit == "percent" and _is_an_end(worked, claim.value, [*likely, *asked, *told, *rest]):
        return "finished_strength"
    for group in (likely, asked, told, rest):
        fitting = [k for k in group if (not unit or VOCABULARY[base(k)].unit == unit) and (VOCABULARY[base(k)].unit != "1" or unit)]
        if unit == "1":
            fitting = [k for k in fitting if base(k).endswith("ratio") or base(k).startswith("ratio")]
        from assistant.teaching.mistakes import is_right  # the catalogue of slips is opened only when a claim is checked
        exact = [k for k in fitting if is_right(k, claim.value, figures[k].value, _said_to(claim, heard))]
        if exact:
            return exact[0]
        if fitting and group is not rest:
            return fitting[0]
        if fitting:
            return min(fitting, key=lambda k: abs(math.log(max(figures[k].value, 1e-9) / max(claim.value, 1e-9))))
    return ""


def _is_an_end(worked: Worked, claim: float, keys: Sequence[str]) -> bool:
    """Whether a percent that is none of these figures is where the jar ends after a known wrong move, the finish having been the aim."""
    figures = worked.solution.figures
    finish = figures.get("finished_strength")
    if finish is None or finish.origin not in ("said", "measured"):
        return False
    from assistant.session.cases import case_of
    from assistant.teaching.ends import diagnose_end
    from assistant.teaching.mistakes import diagnose, is_right

    percents = [k for k in dict.fromkeys(keys) if k in figures and VOCABULARY[base(k)].unit == "percent"]
    if any(is_right(k, claim, figures[k].value) for k in percents):
        return False
    case = case_of(worked)
    if any(f.kind == "trade" for k in percents if figures[k].origin == "found" for f in diagnose(case, k, claim)):
        return False
    return any(f.kind == "trade" for f in diagnose_end(case, claim))


# ── after it was laid over: the claim is one of the facts ────────────────────────────────────────────────────────────────


def claimed(session: Session, reading: Reading, merged: Merged, answers: Answers) -> Reply | None:
    """ "100 g in 300 ml, that's 1:2, right?" where the claim was taken for a fact: the one that follows from the others is compared."""
    if reading.has("doubt") or not (reading.has("check") or (reading.has("claim") and "?" in reading.heard)):
        return None
    index = session.current if session.batch is not None else -1
    fresh = sorted((s for s in reading.said if s.key in merged.new_keys), key=lambda s: s.start)
    act = reading.act("claim")
    candidates = [s for s in fresh if act is not None and any(abs(s.value - f) < 1e-9 for f in act.figures)] or list(reversed(fresh))
    for claim in candidates:
        worked = work_out(merged.batch.without(claim.key), wanted=(claim.key,))
        right = worked.value(claim.key)
        if right is None or worked.solution.conflicts or worked.solution.figures[claim.key].origin != "found":
            continue
        refer(answers, reading, *((f.start, f.end) for f in merged.unplaced))
        return verdict(session, answers, worked, [(claim.key, claim.value)], index)
    return None


# ── the verdict ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def verdict(
    session: Session,
    answers: Answers,
    worked: Worked,
    pairs: Sequence[tuple[str, float]],
    index: int,
    slacks: Mapping[float, float] | None = None,
    also: Sequence[str] = (),
) -> Reply:
    """Yes or no for each claim, the figure and its working; then what was asked beside it.

    slacks   for a claim, how far the digits it was said with leave it open
    """
    if session.draft is None or index < 0:
        session.keep(worked.batch, index)
    keys = tuple(key for key, _ in pairs)
    session.last, session.last_keys = worked, keys
    lines: list[str] = []
    values: list[Value] = []
    for key, claim in pairs:
        right = worked.solution.figures[key].value
        from assistant.session.cases import case_of
        from assistant.session.practising import ask_for_steps
        from assistant.teaching.ends import diagnose_end
        from assistant.teaching.mistakes import as_text as findings_as_text
        from assistant.teaching.mistakes import diagnose, is_right

        close = is_right(key, claim, right, (slacks or {}).get(claim, 0.0))
        session.gap = (key, abs(claim - right), f"{shown(key, claim)} against {shown(key, right)}")  # "so what was I out by?"
        lines.append(f"Yes: {phrase_for(key, right)}." if close else f"No: {phrase_for(key, right)}, not {shown(key, claim)}.")
        if not close:
            found = diagnose(case_of(worked), key, claim) or (diagnose_end(case_of(worked), claim) if key == "finished_strength" else ())
            lines.append(findings_as_text(found))
            ask_for_steps(session, key, asked=not found)
        value = answering.value_of(worked, key)
        values += [
            value,
            Value(
                quantity=base(key),
                about=value.about,
                batch=worked.batch.title,
                verdict=close,
                unit=value.unit,
                origin="found",
                text="right" if close else "wrong",
            ),
        ]
    session.claimed = tuple(pairs)
    says = answering.steps_for(worked, keys)
    lines += [s.working for s in says]
    beside = [k for k in also if k in worked.solution.figures and k not in keys]
    beside += [k for k in answering.companions(worked, beside) if k not in keys]
    if beside:
        lines.append(sentence([phrase_for(k, worked.solution.figures[k].value) for k in beside]))
        values += [answering.value_of(worked, k) for k in beside]
        says += [s for s in answering.steps_for(worked, beside) if s not in says]
    return answers.reply("answered", "\n".join(lines), batch=worked.batch, steps=tuple(says), values=tuple(values))
