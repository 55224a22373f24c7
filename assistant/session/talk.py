"""Turns that are talk rather than new facts. Each kind of talk is a room of its own; here it is decided which of them answers."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Act, Reading
from assistant.patterns import looked_for
from assistant.reply import Reply, Used
from assistant.session import comparing, explaining, going_on_from, knowing, lifting, pointing, scaling
from assistant.session.alligation import by_parts
from assistant.session.another_dose import times_meant
from assistant.session.both_countries import both_countries
from assistant.session.bottling import several_sizes
from assistant.session.checking import check, with_theirs
from assistant.session.converting import converted
from assistant.session.fortifying import another_spirit, kept_with_spirit, one_more_in
from assistant.session.from_shelf import from_shelf
from assistant.session.going_back import asks_for_more, bears_figures, going_back, new_figures
from assistant.session.herb_in_it import herb_in_it
from assistant.session.hydrometer_told import gauged
from assistant.session.jar_turns import from_blend
from assistant.session.melting_point import melting_point
from assistant.session.of_all_plans import of_all_plans
from assistant.session.pairs import price_times
from assistant.session.parting import parted
from assistant.session.poured_mixed import poured_mixed
from assistant.session.pressed_alike import pressed_alike
from assistant.session.proof_checked import proof_checked
from assistant.session.reaching import enough_for
from assistant.session.repairing import repair
from assistant.session.repeating import again, refer
from assistant.session.salves import how_soft
from assistant.session.several import several
from assistant.session.shifting import all_of_them, back_in
from assistant.session.spirit_there import of_what_was_converted
from assistant.session.state_asked import state_asked
from assistant.session.strength_terms import in_other_terms
from assistant.session.swapping import carried_by_the_other, swapped
from assistant.session.two_sided import dropped, than_a_press, two_portions, two_presses
from assistant.session.watered import watered
from assistant.session.what_is_meant import what_is_meant

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session



def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence is talk; None where it bears facts to be laid over the batch."""
    what_is_meant(session, reading)
    for act in reading.acts:
        if act.figures and act.name not in ("scale_n", "swap", "swap_back"):
            answers.used += [Used(text=reading.heard[act.start : act.end][:40], start=act.start, end=min(act.end, act.start + 40), quantity="reference")]
    own = (state_asked, proof_checked, gauged, how_soft, parted, from_shelf, herb_in_it, watered)  # sentences whole in themselves
    for reply in (*own, _teaching, going_back, _asking_about_the_talk, _changing_units, _explaining, _comparing, _lifting, _scaling, _beginning):
        said = reply(session, reading, answers)
        if said is not None:
            return said
    return None


WHAT_IS = looked_for(
    r"^\W*(?:(?:and|so|but|ok|okay|please)\W+)*(?:what(?:['’]?s| is| are)|define|explain|(?:teach|tell|show)(?: me| us)? about|teach (?:me|us))\s+"
    r"(?P<article>an? |some |the )?(?P<term>[^?.!,;:\d]{2,40}?)\W*$",
    re.IGNORECASE,
)
# What the school answers to; its rooms are opened only then.
LESSON_ACTS = frozenset(
    {
        "added_of",
        "answer_key",
        "draw",
        "forgot_water",
        "give_up",
        "hint",
        "means",
        "misses",
        "poking_out",
        "practise",
        "rearrange",
        "sheet_file",
        "sheet_form",
        "sheet_number",
        "slow",
        "why",
    }
)


def _teaching(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    if reading.has("means") and _is_in_hand(session, reading):
        reading.let_go("means")
    if (
        not session.at_school
        and not LESSON_ACTS & {a.name for a in reading.acts}
        and "given" not in reading.heard[:40].lower()
        and "why" not in reading.heard.lower()
        and not _asks_a_word(session, reading)
    ):
        return None
    from assistant.session import lessons, practising

    word = WHAT_IS.match(reading.heard)["term"] if _asks_a_word(session, reading) else ""  # type: ignore[index]
    return practising.handle(session, reading, answers) or lessons.handle(session, reading, answers, word)


def _asks_a_word(session: Session, reading: Reading) -> bool:
    """ "What is a succus": a word of the trade, unless a figure of the batch in hand goes by it."""
    hit = WHAT_IS.match(reading.heard)
    if hit is None:
        return False
    plainly = (hit["article"] or "").strip() in ("a", "an") or reading.heard.strip().lower().startswith("define")
    return plainly or session.batch is None or not reading.asked


def _is_in_hand(session: Session, reading: Reading) -> bool:
    """ "What's the brix" of a syrup in hand: its figure, and not the word."""
    hit = WHAT_IS.match(reading.heard)
    if hit is None or (hit["article"] or "").strip().lower() != "the" or session.last is None or session.batch is None or session.at_school:
        return False
    return any(session.last.value(a.quantity) is not None for a in reading.asked)


# ── about the talk itself ────────────────────────────────────────────────────────────────────────────────────────────────


def _asking_about_the_talk(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    figures = bears_figures(reading)
    if reading.has("help") and not figures:
        return answers.noted(knowing.HELP)
    if reading.has("known") and not figures and not reading.has("caution_why_that"):
        return knowing.known(session, answers)
    told = knowing.habits(session, reading)
    if told and not figures and not reading.asked and not reading.named:
        return answers.noted(" ".join(told))
    if reading.has("alias") and session.batch is not None and not figures and not reading.named:
        return _named(session, reading, answers)
    if not figures and not reading.named and any(a.name == "small_talk" and _is_all(a, reading) for a in reading.acts):
        return knowing.small_talk(session, answers)
    return None


def _is_all(act: Act, reading: Reading) -> bool:
    """Whether an act's words are the whole sentence."""
    return not any(c.isalnum() for c in reading.heard[: act.start] + reading.heard[act.end :])


def _named(session: Session, reading: Reading, answers: Answers) -> Reply:
    batch = session.batch
    assert batch is not None
    called = batch.having(alias=pointing.alias_of(reading))
    session.keep(called, session.current)
    return answers.noted(f"That is “{called.alias}” from here on.", called)


def _changing_units(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    for turned in (both_countries, in_other_terms, melting_point, converted):
        reply = turned(session, reading, answers)
        if reply is not None:
            return reply
    return None


# ── why, and is it so ────────────────────────────────────────────────────────────────────────────────────────────────────


def _explaining(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    if session.last is None:
        return None
    carried_by_the_other(session, reading)
    if (
        reading.has("why")
        and reading.heard.lower()
        .lstrip(" ,.")
        .startswith(("why", "how come", "but why", "and why", "explain why", "so why", "but how come", "and how come", "so how come"))
        and all(s.weak for s in reading.said)
    ):
        other = pointing.plan_of(reading, session)
        if other is not None and any(t.startswith("press_") for t in reading.tags):
            again(answers, session.batches[other], other)
        return explaining.why(session, reading, answers)
    if reading.has("gap") and not new_figures(session, reading) and session.gap is None and not reading.has("why"):
        shrunk = explaining.shrinkage(reading, session.last, answers)
        if shrunk is not None:
            refer(answers, reading)
            return shrunk
    if reading.has("why") and not new_figures(session, reading) and not asks_for_more(session, reading):
        crosswise = by_parts(session, reading, answers)
        if crosswise is not None:
            return crosswise
        other = pointing.plan_of(reading, session)
        if other is not None:
            again(answers, session.batches[other], other)
        return explaining.why(session, reading, answers)
    if reading.has("numbers") and not bears_figures(reading):
        return explaining.just_numbers(session.last, explaining.meant(session, reading, session.last), answers)
    return None


# ── two plans ────────────────────────────────────────────────────────────────────────────────────────────────────────────


def _comparing(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    for two_sided in (of_all_plans, enough_for, several_sizes, two_portions, two_presses, than_a_press, swapped, dropped, by_parts):
        both = two_sided(session, reading, answers)
        if both is not None:
            return both
    plans = comparing.two_plans(session, reading, answers) or comparing.once_more(session, reading, answers)
    if plans is not None:
        return plans
    counted = all(f.value == 2 and f.kind == "#" for f in reading.loose)
    bare = not (reading.said or reading.ingredients or reading.liquids) and counted
    if reading.has("gap") and bare and session.gap is not None and not reading.asked:
        refer(answers, reading)
        return comparing.gap(session, answers)
    if bare and (comparing.asks_to_compare(reading) or reading.has("gap")) and session.draft is None and not reading.has("whatif"):
        return comparing.kept_plans(session, reading, answers)
    return comparing.against_this(session, reading, answers)


# ── larger, smaller, stronger ────────────────────────────────────────────────────────────────────────────────────────────


def _lifting(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    if session.last is None or session.batch is None:
        return None
    wanted = reading.act("had_wanted")
    if wanted is not None and wanted.figures:
        reply = lifting.had_wanted(session, reading, answers, wanted.figures[-1])
        if reply is not None:
            return reply
    if reading.has("ceiling") and not new_figures(session, reading):
        reply = lifting.ceiling(session, answers)
        if reply is not None:
            return reply
    for name, figures in (("top_up_water", 1), ("top_up", 2), ("top_up_to", 2)):
        act = reading.act(name)
        if act is not None and len(act.figures) >= figures:
            reply = lifting.topped_up(session, answers, act)
            if reply is not None:
                return reply
    return None


def _scaling(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    act = next((a for name in scaling.ACTS for a in reading.acts if a.name == name), None)
    if act is None or session.batch is None or reading.ingredients or reading.liquids or times_meant(reading, session.batch.facts) is not None:
        return None
    if price_times(reading, session.batch.frames) is not None or (new_figures(session, reading) and not _within(act, reading)):
        return None
    if reading.mentions or reading.named or act.name == "scale_one":
        one = scaling.one_scaled(session, reading, answers, act)
        if one is not None:
            return one
    other = pointing.plan_of(reading, session)
    if act.name == "scale_one" and not (reading.named or reading.mentions):
        return None
    return scaling.scaled(session, reading, answers, act, session.current if other is None else other)


def _within(act: Act, reading: Reading) -> bool:
    """Whether every figure of the sentence is the factor's own."""
    return all(act.start <= f.start and f.end <= act.end for f in reading.figures)


# ── a plan begun by what was said before ─────────────────────────────────────────────────────────────────────────────────


def _beginning(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    mended = repair(session, reading, answers)
    if mended is not None:
        return mended
    plans = several(session, reading, answers)
    if plans is not None:
        return plans
    theirs = with_theirs(session, reading, answers)
    if theirs is not None:
        return theirs
    verdict = check(session, reading, answers)
    if verdict is not None:
        return verdict
    pointing.grams_of_that(session, reading)
    shared = going_on_from.same_for(session, reading)
    if shared is not None:
        return session.take(reading, answers, onto=shared[0], index=shared[1])
    whole = all_of_them(session, reading) or back_in(session, reading)
    if whole is not None:
        return session.take(reading, answers, onto=whole)
    for begun in (pressed_alike, going_on_from.copied, going_on_from.from_mix, from_blend):
        plan = begun(session, reading)
        if plan is not None:
            return session.take(reading, answers, onto=plan, index=-1)
    for mixed in (kept_with_spirit, one_more_in, another_spirit):
        told = mixed(session, reading, answers)
        if told is not None:
            return told
    lifting.brought_down(session, reading)
    poured_mixed(session, reading)
    of_what_was_converted(session, reading)
    going_on_from.same_question(session, reading)
    result = going_on_from.from_result(session, reading)
    if result is not None:
        return session.take(reading, answers, onto=result)
    return None
