"""What the same words mean in each kind of work: in a mix "25 %" is the mix's strength, in a formula "250 mL" is the bottle."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.alcohol_taken import settle_alcohol
from assistant.session.another_bottle import another_bottle, the_lot_lasts, vessels_asked_alone
from assistant.session.another_dose import another_dose, counted_squeezes, of_the_dose_asked, squeeze_told
from assistant.session.beside import clause_of, is_left
from assistant.session.in_honey import plant_in_honey
from assistant.session.in_recipes import settle_in_recipe
from assistant.session.infusions import settle_infusion
from assistant.session.neat_glycerine import settle_finish
from assistant.session.over_harvest import more_than_planned, still_to_pick
from assistant.session.pairs import (
    bottles_of_what_is_there,
    by_weight_meant,
    dried_of_fresh,
    each_its_own,
    grams_a_day,
    made_and_wanted,
    new_prices,
    not_on_the_scale,
    one_bottle,
    only_so_much,
    recipe_and_hand,
    same_herb_twice,
    times_the_cost,
    two_macerations,
    two_ratios,
    two_strengths,
)
from assistant.session.salves import infused_and_melted, settle_wax_share
from assistant.session.spent_on import priced_by_measure, spent_on, strength_costed
from assistant.session.stands import plant_wanted
from assistant.session.syrups import settle_syrup
from assistant.session.vinegars import settle_vinegar
from assistant.session.work import (
    CHILD_GRAMS,
    CHILD_RULES,
    DAYS_A_MONTH,
    LIQUID,
    RECIPES,
    SOME_LIQUID,
    SOME_STRENGTH,
    SOME_WEIGHT,
    WEIGHED,
    Work,
    said_as,
)
from assistant.session.year_work import add_up

KEEPS = looked_for(r"\b(?:keeps?|preserves?|preserving|keeping)\b", re.IGNORECASE)
SPIRIT = looked_for(r"\b(?:brandy|vodka|rum|spirit|alcohol|gin)\b", re.IGNORECASE)
AIMED_AT = looked_for(r"\b(?:leaves?|left|stay|keep|above|at least|end|finish|under|below|drop|reach|get|to)\b", re.IGNORECASE)
IN_ALL = looked_for(r"\b(?:if|has to|have to|needs? to|must|should|want it to|was to)\b.*\b(?:finish|end|land|come out|be)\b", re.IGNORECASE)
MORE = looked_for(r"\b(?:more|add|adding|extra|top|lift|bring)\b", re.IGNORECASE)
HERB_ASKED = looked_for(r"\b(?:herb|plant|leaf|root|flowers)\b[^.;?]*\b(?:only|just|got|have|left)\b", re.IGNORECASE)
POUR = looked_for(r"\bpour(?:ing|ed|s)?(?: it)?(?: at)?\s*$", re.IGNORECASE)
LEAST_POURED, STRONGEST = 20.0, 96.0  # percent
MOST_ESSENTIAL = 30.0  # percent: no more essential oil goes into anything
PURE = 100.0  # percent: none is poured so
LARGEST_DOSE = 15.0  # mL: a tablespoon
BY_BRIX = frozenset({"sugar_more", "honey_more"})
LEAST_BRIX, MOST_BRIX = 20.0, 90.0
MONTH = looked_for(r"\b(?:months?|mos?|mths?)\b", re.IGNORECASE)
ONE_CUP = looked_for(r"^\s*(?:an?|one|each|per|the|every)?\s*(?:cup|mug)\s*$", re.IGNORECASE)
WHAT_BOTTLE = looked_for(r"\b(?:what|which)(?: size)?(?: of)? bottle\b(?! size)", re.IGNORECASE)
EMPTY = looked_for(r"\b(?:tins?|bottles?|jars?|pots?|glass|empties)(?: with [a-z ]{1,20})?(?: are| is| at| cost| costs)? $", re.IGNORECASE)
# What is asked, and what the same words do not ask besides.
ONE_QUESTION = {
    "eo": ("menstruum",),  # "how much rosemary essential oil": not the carrier's too
    "herb_per_ml": ("herb",),  # "how much root is in each mL": not the root's weight too
    "wilted_water": ("water", "water_content"),  # "what's the water content now": no water to add
}

FOR_SO_SWEET = looked_for(r"\b(?:for|to|at|make it|want|need|reach|of)\s+(?:a |about |it )*$", re.IGNORECASE)


def settle(said: list[Said], loose: list[Loose], work: Work) -> None:
    """Give the figures of a sentence the quantity they have in this work. Changes both lists in place, and the reading's asked, loose and freed."""
    reading = work.reading
    if "ledger" in work.frames:
        add_up(said, work)
    dried_of_fresh(said, work)
    grams_a_day(said, work)
    plant_wanted(said, work)
    times_the_cost(said, loose, work)
    one_bottle(said, work)
    squeeze_told(said, loose, work)
    another_dose(said, loose, work)
    still_to_pick(said, work)
    counted_squeezes(said, loose, work)
    more_than_planned(said, work)
    vessels_asked_alone(said, work)
    another_bottle(said, work)
    the_lot_lasts(said, work)
    two_ratios(said, work)
    two_strengths(said, loose, work)
    bottles_of_what_is_there(said, work)
    not_on_the_scale(said, loose, work)
    only_so_much(said, work)
    new_prices(said, loose, work)
    strength_costed(said, loose, work)
    spent_on(said, loose, work)
    priced_by_measure(said, loose, work)
    recipe_and_hand(said, loose, work)
    settle_infusion(said, loose, work)
    by_weight_meant(said, work)
    settle_wax_share(said, work)
    settle_alcohol(said, loose, work)
    _all_of_it_poured(said, work)
    if reading.has("round"):
        reading.asked.clear()
    two_macerations(said, work)
    same_herb_twice(said, loose, work)
    each_its_own(said, loose, work)
    of_the_dose_asked(said, work)
    if "essential" in work.frames and any(s.quantity == "eo_share" for s in said):
        reading.asked[:] = [a for a in reading.asked if a.quantity != "menstruum"]  # "200 mL body oil, 1.5 % essential oils": no pour is asked
    if "essential" in work.frames and "salve" not in work.frames and not any(s.quantity == "eo_share" for s in said):
        for figure in [f for f in loose if f.kind == "#" and f.value <= MOST_ESSENTIAL]:
            loose.remove(figure)
            said.append(said_as(figure, "eo_share"))
    for meant, no_others in ONE_QUESTION.items():
        for one in [a for a in reading.asked if a.quantity == meant]:
            reading.asked[:] = [a for a in reading.asked if a.quantity not in no_others or a.end <= one.start or one.end < a.start]
    _pour_at(said, work)
    if "cost" in work.frames and not any(s.quantity == "empty_bottle" for s in said):
        for figure in [f for f in loose if f.kind == "#" and f.value % 1 and EMPTY.search(reading.heard[: f.start])][:1]:
            loose.remove(figure)  # "tins 0.70"
            said.append(said_as(figure, "empty_bottle"))
    if "cost" in work.frames and not reading.asked and [s.quantity for s in said] == ["mark_up"] and "?" in reading.heard:
        reading.asked.append(Asked("selling_price", 0, len(reading.heard)))  # "and at a 40 % margin?"
    for sweet in ("sugar", "honey"):  # "how much more?": what is in it already, and what it takes in all
        if sweet in work.facts and any(a.quantity == f"{sweet}_more" for a in reading.asked):
            said.append(Said(f"{sweet}_had", work.facts[sweet].value, 0, 0))
            reading.freed.add(sweet)
    settle_finish(said, loose, work)
    if any(s.quantity == "wanted_glycerine" for s in said):
        if "glycerite" in work.batch.frames and IN_ALL.search(reading.heard) and not MORE.search(reading.heard):  # "if it has to finish at 80": how much in all
            said[:] = [replace(s, quantity="finished_glycerine") if s.quantity == "wanted_glycerine" else s for s in said]
            reading.freed |= {"ratio", "menstruum"}
            reading.asked[:] = [Asked("glycerine_volume", 0, len(reading.heard))]
        else:
            reading.asked[:] = [Asked("top_up", 0, len(reading.heard))]
    _of_a_childs_age(said, work)
    if work.frames & CHILD_RULES and any(s.quantity == "dose_drops" for s in said):  # "adult dose 60 drops": the child's is asked in drops too
        said[:] = [replace(s, quantity="adult_drops", weak=False) if s.quantity == "dose_drops" else s for s in said]
        reading.asked[:] = [Asked("child_drops", 0, len(reading.heard))]
    if "syrup" in work.frames and any(a.quantity in BY_BRIX for a in reading.asked) and not any(s.quantity == "brix" for s in said):
        for figure in [f for f in loose if f.kind == "#" and LEAST_BRIX <= f.value <= MOST_BRIX][:1]:
            loose.remove(figure)  # "need 65, how much more sugar?"
            said.append(said_as(figure, "brix"))
    if "syrup" in work.frames and any(a.quantity in ("sugar", "honey") for a in reading.asked) and not any(s.quantity == "brix" for s in said):
        for figure in [f for f in loose if f.kind == "#" and LEAST_BRIX <= f.value <= MOST_BRIX and FOR_SO_SWEET.search(reading.heard[: f.start])][:1]:
            loose.remove(figure)  # "how much sugar for 65 then"
            said.append(said_as(figure, "brix"))
    if "oxymel" in reading.denied:
        work.frames.discard("syrup")  # a vinegar after all
    plant_in_honey(said, work)
    settle_syrup(said, loose, work)
    settle_vinegar(said, loose, work)
    forts = {s.quantity for s in said} | work.facts.keys()
    if "syrup" in work.frames and "syrup_alcohol" not in forts and KEEPS.search(reading.heard) and SPIRIT.search(reading.heard):
        reading.asked[:] = [a for a in reading.asked if a.quantity == "keeping_spirit"] or [Asked("keeping_spirit", 0, len(reading.heard))]
    _dropperfuls(said, loose, work)
    if "dose" in work.frames and "course" in {s.quantity for s in said} | work.facts.keys() and WHAT_BOTTLE.search(reading.heard):
        reading.asked[:] = [replace(a, quantity="supply") if a.quantity == "bottles_needed" else a for a in reading.asked]
    if "bottle_size" in forts and "course" not in forts and not work.members and forts & {"ratio", "syrup", "brix", "sugar"}:
        reading.asked[:] = [replace(a, quantity="bottles") if a.quantity == "bottles_needed" else a for a in reading.asked]  # how many it fills
    if any(a.quantity == "per_cup" for a in reading.asked):
        said[:] = [s for s in said if not ONE_CUP.match(reading.heard[s.start : s.end])]  # "grams of root a cup": no cup is poured
    if "tea" in work.frames:
        if {"per_cup", "cups_a_day"} <= work.facts.keys():
            reading.asked[:] = [replace(a, quantity="batch") if a.quantity == "supply" else a for a in reading.asked]  # "how much for 2 weeks?"
        for figure in [f for f in loose if f.kind == "cup" and f.number == 1]:
            loose.remove(figure)  # "and that makes a cup": a measure, no count
            work.refer(figure)
    if work.members and (work.frames & RECIPES or ("bought" in work.frames and "cost" in work.frames)):
        infused_and_melted(said, work)
        settle_in_recipe(said, loose, work)
    _rename(said, work)
    if any(s.quantity == "menstruum" for s in said) and work.frames & {"oil", "vinegar", "glycerite"} and HERB_ASKED.search(reading.heard):
        reading.asked[:] = [replace(a, quantity="herb") if a.quantity == "herb_per_ml" else a for a in reading.asked]  # "the herb, if I've only 400 mL"
    if work.members:
        made_and_wanted(said, work)


def _pour_at(said: list[Said], work: Work) -> None:
    """ "1:2, pour 70": a bare number far below what the ratio takes is how strong, not how much."""
    known = {s.quantity: s.value for s in said} | {k: f.value for k, f in work.facts.items() if k not in {s.quantity for s in said}}
    herb, ratio = known.get("herb"), known.get("ratio")
    if herb is None and ratio is not None and "finished_strength" in known and len(said) > 2:  # "finished at 52, poured 70, 1:2": no volume told at all
        herb = 100.0
    if herb is None or ratio is None or any(s.quantity == "strength" for s in said) or work.frames & {"oil", "vinegar", "glycerite", "syrup"}:
        return
    for i, s in enumerate(said):
        bare = s.quantity == "menstruum" and not s.said_unit and LEAST_POURED <= s.value <= STRONGEST
        if bare and POUR.search(work.reading.heard[: s.start]) and herb * ratio > 2 * s.value:
            said[i] = replace(s, quantity="strength", weak=False)


def _all_of_it_poured(said: list[Said], work: Work) -> None:
    """ "I've only 200 mL of vodka, how much berry at 1:3?": with no strength in play the spirit there is goes in as it is."""
    known = {s.quantity for s in said} | work.facts.keys()
    if known & {"strength", "stock_strength", "finished_strength"} or "ratio" not in known:
        return
    if not any(a.quantity == "herb" for a in work.reading.asked) and "herb" not in work.facts:
        return
    for i, s in enumerate(said):
        if s.quantity == "spirit_in_hand":
            said[i] = replace(s, quantity="menstruum", weak=False)


def _dropperfuls(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "Two dropperfuls": counted; asked about as long as nobody told what one of them lifts."""
    size_known = "dropper_size" in work.facts or any(s.quantity == "dropper_size" for s in said)
    for figure in [f for f in loose if f.kind == "dropperful"]:
        said.append(said_as(figure, "dropperfuls"))
        if size_known:
            loose.remove(figure)


def _of_a_childs_age(said: list[Said], work: Work) -> None:
    """A time told to Fried's rule is the child's age, and no course."""
    if "fried" not in work.frames or any(s.quantity == "child_months" for s in said):
        return
    for i, s in enumerate(said):
        if s.quantity in ("course", "days") and MONTH.search(work.reading.heard[s.start : s.end]):
            said[i] = replace(s, quantity="child_months", value=s.value / DAYS_A_MONTH, weak=False)


# ── what a figure is called in a kind of work ────────────────────────────────────────────────────────────────────────────

NAMES_HERE: Mapping[str, Mapping[str, str]] = {
    "vinegar": {"strength": "acidity", "stock_strength": "acidity", "finished_strength": "finished_acidity"},
    "syrup": {"strength": "brix", "finished_strength": "brix", "stock_strength": "brix", "blend_strength": "brix"},
    "tea": dict.fromkeys((SOME_WEIGHT | {"tare"}) - {"batch", "liquid", "herb_per_dose"}, "batch") | {"herb_per_dose": "per_cup", "times_a_day": "cups_a_day"},
    "dose": {"stock_strength": "strength"},
    "percolation": {"menstruum": "percolate", "pressed": "percolate"},
    "decoction": {"menstruum": "boiled_from", "water": "boiled_from"},
    "oil": {"tin_size": "bottle_size"},
    "glycerite": {"strength": "glycerine", "finished_strength": "finished_glycerine", "stock_strength": "glycerine"},
}
# Frames in whose presence another's names do not hold.
NOT_BESIDE = {
    "tea": frozenset({"syrup", "salve", "oil", "decoction", "vinegar"}),
    "oil": frozenset({"salve", "essential"}),
    "decoction": frozenset({"mix", "syrup", "formula", "written"}),
}


def _rename(said: list[Said], work: Work) -> None:
    given = {s.key for s in said}
    for i, s in enumerate(said):
        if s.member:
            continue
        answer = _answers(s, said, work)
        names = [answer] if answer else [name for rule in RULES if (name := rule(s, given, work))]
        new = names[-1] if names else ""
        if new and new not in given:
            said[i] = replace(s, quantity=new, weak=False)
            given.add(new)


NAMED_BY = {
    "water_content": looked_for(r"\b(?:water|moisture|wet|dry matter)\b", re.IGNORECASE),
    "brix": looked_for(r"\b(?:brix|sugar|bx)\b|°", re.IGNORECASE),
    "margin": looked_for(r"\b(?:margin|spare|extra|over)\b", re.IGNORECASE),
    "trim_loss": looked_for(r"\b(?:stalks?|stems?|trim\w*|waste|lose|lost|loss|goes off)\b", re.IGNORECASE),
}


def _answers(s: Said, said: list[Said], work: Work) -> str:
    """The one figure of a sentence said right after a question answers that, where its unit fits: "it's 40 %"."""
    if len(said) != 1 or s.quantity in {base(w) for w in work.wants} or s.quantity in ("spoon", "per_cup"):
        return ""
    named = NAMED_BY.get(s.quantity)
    if named is not None and named.search(work.reading.heard):
        return ""  # asked for the strength and told "about 70 % water": the plant's water, and the question stands
    fitting = [base(w) for w in work.wants if not about(w) and VOCABULARY[base(w)].unit == VOCABULARY[s.quantity].unit and not work.members]
    return fitting[0] if len(fitting) == 1 and VOCABULARY[s.quantity].unit != "1" else ""


def _by_table(s: Said, given: set[str], work: Work) -> str:
    known = given | work.batch.facts.keys()
    for frame, names in NAMES_HERE.items():
        if frame not in work.frames or work.frames & NOT_BESIDE.get(frame, frozenset()) or (work.frames & LIQUID and frame != "syrup"):
            continue
        if frame == "decoction" and (not {"boiled_to", "boiled_off", "boiled_share", "boiled_off_share"} & given or "boiled_from" in given):
            continue
        if frame == "dose" and known & {"strength", "herb", "menstruum", "ratio", "stock"}:
            continue
        if s.quantity in names and not (frame == "percolation" and s.quantity == "strength"):
            return names[s.quantity]
    return ""


def _of_a_sober_pour(s: Said, given: set[str], work: Work) -> str:
    """ "Only got 450 mL in the can": of oil, vinegar or glycerine that is what can be poured."""
    of_plant = any(a.quantity == "herb" for a in work.reading.asked)
    had = of_plant and "pressed" not in work.facts and "yield_share" not in given and is_left(s.start, s.end, work.reading.heard)
    there_is = s.quantity in ("spirit_in_hand", "stock") or (s.quantity == "pressed" and had)
    poured = there_is and work.frames & {"oil", "vinegar", "glycerite"} and not work.frames & LIQUID
    return "menstruum" if poured and "menstruum" not in given else ""


def _sour(s: Said, given: set[str], work: Work) -> str:
    """A second acidity is what the jar shall keep."""
    told = "vinegar" in work.frames and s.quantity in ("strength", "stock_strength") and "acidity" in given | work.batch.facts.keys()
    return "finished_acidity" if told and "finished_acidity" not in given and AIMED_AT.search(clause_of(s.start, s.end, work.reading.heard)) else ""


def _of_a_child(s: Said, given: set[str], work: Work) -> str:
    if not work.frames & (CHILD_RULES | {"child_dose"}):
        return ""
    if s.quantity in ("dose", "pressed", "menstruum") and "adult_dose" not in given | work.batch.facts.keys():
        return "adult_dose"
    return "child_weight" if s.quantity in SOME_WEIGHT and CHILD_GRAMS[0] <= s.value <= CHILD_GRAMS[1] else ""


def _of_a_cup(s: Said, given: set[str], work: Work) -> str:
    """ "5 g?" where the tea by the cup and the bag were told: the one it is like."""
    cup, bag = work.facts.get("per_cup"), work.facts.get("batch")
    if "tea" not in work.frames or s.quantity not in SOME_WEIGHT or not s.weak or cup is None or bag is None or "per_cup" in given:
        return ""
    return "per_cup" if s.value > 0 and s.value / cup.value < bag.value / s.value else ""


def _of_a_dose(s: Said, given: set[str], work: Work) -> str:
    known = given | work.batch.facts.keys()
    if "dose" not in work.frames or work.frames & CHILD_RULES:
        return ""
    if s.quantity == "stock_strength" and not s.said_unit and s.value >= PURE and not known & {"strength", "herb", "ratio", "menstruum", "bottle_size"}:
        return "bottle_size"  # "5 mL 3 x d from 100": no spirit is taken so
    of_the_own = {"other_ratio", "ratio"} <= work.facts.keys() and "ratio" in given and "dose" not in given
    own = [o for o in work.reading.said if o.quantity == "ratio" and of_the_own and o.value == work.facts["ratio"].value]
    if s.quantity in ("menstruum", "bottle_size") and own:
        return "dose"  # "and for 20 mL of the 1:5?"
    if s.quantity in ("menstruum", "bottle_size") and s.value <= LARGEST_DOSE and "dose" not in known and "other_ratio" in given:
        return "dose"
    if s.quantity in ("menstruum", "bottle_size") and s.value <= LARGEST_DOSE and "other_ratio" in work.batch.facts:
        return "dose"  # "and for 3 mL"
    if s.quantity == "menstruum" and s.weak and s.value <= LARGEST_DOSE and "dose" in work.facts and not given & {"dose", "dose_drops"}:
        return "dose"  # "if it was 25 %, at the full 5 mL"
    asks_dose = any(a.quantity in ("dose", "daily", "other_dose") for a in work.reading.asked)
    if s.quantity == "herb" and asks_dose and not known & {"menstruum", "bottle_size", "herb_per_day"}:
        return "herb_per_dose"
    nothing_else = not {"bottle_size", "ratio"} & given and not work.batch.facts.keys() & {"herb", "bottle_size", "blend"} and not work.batch.members
    had = s.quantity in ("spirit_in_hand", "stock") or (s.weak and s.quantity == "menstruum")
    return "bottle_size" if had and nothing_else else ""


def _of_a_melt(s: Said, _: set[str], work: Work) -> str:
    """A share of a salve or a tea that cannot be, told as what it is."""
    return "share" if work.frames & WEIGHED and s.quantity in ("strength", "stock_strength") and s.value > 100 else ""


def _of_glycerine(s: Said, given: set[str], work: Work) -> str:
    """With the glycerine measured and nothing beside it, a percent is what it was sold at."""
    facts = work.batch.facts.keys()
    if (
        "glycerite" in work.frames and {"strength", "stock_strength"} <= given and not given & {"water_content", "herb", "ratio"}
    ):  # "thin 250 mL of 70 % to 60 %"
        return {"stock_strength": "glycerine_stock", "stock": "glycerine_volume", "strength": "glycerine"}.get(s.quantity, "")
    neat = "glycerite" in work.frames and "glycerine_volume" in facts and not facts & {"glycerine", "menstruum"}
    return "glycerine_stock" if neat and s.quantity in SOME_STRENGTH - {"water_content"} else ""


def _of_essential_oil(s: Said, given: set[str], work: Work) -> str:
    if not work.frames & {"essential", "essential_in_it"}:
        return ""
    if s.quantity in SOME_STRENGTH and s.value <= MOST_ESSENTIAL:
        return "eo_share"
    if "salve" in work.frames and not work.members and s.quantity in SOME_WEIGHT - {"batch"} and "batch" not in given:
        return "batch"  # "2 % lavender oil in 300 g salve": what it goes into
    base_said = "essential" in work.frames and "salve" not in work.frames and not {"eo_base", "bottles"} & given
    return "eo_base" if base_said and s.quantity in SOME_LIQUID | {"bottle_size"} else ""


# The last one that has a name for a figure gives it.
RULES: tuple[Callable[[Said, set[str], Work], str], ...] = (
    _by_table,
    _of_a_sober_pour,
    _sour,
    _of_a_dose,
    _of_a_child,
    _of_a_cup,
    _of_a_melt,
    _of_glycerine,
    _of_essential_oil,
)
