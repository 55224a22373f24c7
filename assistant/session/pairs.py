"""Figures that are meant together: two ratios of one dose, what a recipe makes and what is wanted of it, one figure for each ingredient."""

from __future__ import annotations

import re
from collections.abc import Collection

from assistant.dataclass import replace
from assistant.listening.statements import Act, Asked, Loose, Reading, Said, forget
from assistant.patterns import looked_for
from assistant.session.work import SOME_STRENGTH, Work, said_as

AGAIN = looked_for(r"\b(?:double|second|twice|again|same (?:oil|liquid|menstruum|spirit)|another|fresh lot)\b", re.IGNORECASE)
SWAPPED = looked_for(
    r"\b(?:instead|in place of|in its place|swap\w*|substitut\w+|equivalent|stands? in|to match|of mine|the same (?:from|of|with|out of))\b", re.IGNORECASE
)
COUNTS_OF_IT = ("tins", "bottles", "jars", "cups", "blend", "batch", "menstruum")
WHOLE_COUNTS = frozenset({"tins", "bottles", "jars", "cups"})
LATER = looked_for(r"\b(?:then|instead|or rather|make that)\b", re.IGNORECASE)
MADE_BY = looked_for(r"\b(?:makes?|made|yields?|gives?|fills?|for|enough|does)\b[^.;]{0,16}$", re.IGNORECASE)
WANTED = looked_for(r"\b(?:need|want|make|for|do|order(?:s|ed)?(?: for)?)\s+(?:me |about |up )*$", re.IGNORECASE)
STATE = looked_for(r"\b(fresh|dried|dry)\b", re.IGNORECASE)
MAKES = looked_for(r"\b(?:make|fill|mix|want|need|do)\b", re.IGNORECASE)
ONE = looked_for(r"^[^,;.?]{0,12}\bbottle\b(?!s)", re.IGNORECASE)
INTO = looked_for(r"\b(?:in|into|fill|fills|for|to fill|one|a|the|my)\s+(?:a|an|the|my|one|1|that|this)?\s*$", re.IGNORECASE)
DRIED_BEHIND = looked_for(r"^\s*(?:of\s+)?(?:it\s+)?(?:as\s+)?(?:dried|dry)\b", re.IGNORECASE)
HOW_MANY_ML = looked_for(r"\bhow (?:many|much)\s+(?:ml|mls|millilit\w+|tincture|of it|a day|do)\b", re.IGNORECASE)
OF_COST = looked_for(r"^\s*(?:the |my |what it )?costs?\b", re.IGNORECASE)
PRICED = {
    "spirit_price": re.compile(r"\b(?:spirit|alcohol|vodka|brandy|ethanol)(?:['’]?s)?\b.{0,24}\b(?:up|down|now|to|at|costs?)\b", re.IGNORECASE),
    "herb_price": re.compile(r"\b(?:herb|root|leaf|flowers?|plant)(?:['’]?s)?\b.{0,24}\b(?:up|down|now|to|at|costs?)\b", re.IGNORECASE),
}
FILLED = looked_for(r"\b(?:fill|fills|filled|got|out of|only|made|came)\b", re.IGNORECASE)
NOW = looked_for(r"\b(?:now|gone|went|up|down)\b", re.IGNORECASE)
CHEAP = 2.0  # bare figures all below this are prices of a mL, not parts


def two_macerations(said: list[Said], work: Work) -> None:
    """Two plant weights on one liquid: all the herb together, over all the liquid that came out."""
    herbs = [s for s in said if s.quantity == "herb" and not s.member]
    if len(herbs) != 2 or work.reading.ingredients or not AGAIN.search(work.reading.heard) or not any(s.quantity in ("pressed", "all_out") for s in said):
        return
    first, second = herbs
    said.remove(second)
    said[said.index(first)] = replace(first, quantity="all_herb", value=first.value + second.value)
    work.refer(second)
    work.reading.tags.add("double")
    for i, s in enumerate(said):
        if s.quantity == "pressed":
            said[i] = replace(s, quantity="all_out")
    for figure in [f for f in work.reading.loose if f.kind == "times"]:
        work.reading.loose.remove(figure)
        work.refer(figure)


TWICE = looked_for(
    r"\b(?:second|twice|2nd|again|re-?macerat\w+|(?:both|two) (?:pours?|press\w*|runs?|lots?|macerat\w+)|(?:same|on the|over the) marc)\b",
    re.IGNORECASE,
)
CAME = looked_for(r"\b(?:gave|gives|got|came|yield\w*|pressed|out|back|giving|getting)\b[\w\s']{0,12}$", re.IGNORECASE)
CAME_OUT = looked_for(r"^\s*(?:ml|mls)?\s*(?:out|back|pressed|came)\b", re.IGNORECASE)


def same_herb_twice(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "First pour 800 ml gave 620, then 500 on the same marc gave 480": one plant, and all that came out of both.

    Changes both lists in place; what was poured stands in no figure asked for.
    """
    reading, heard = work.reading, work.reading.heard
    if not TWICE.search(heard) or not any(a.quantity in ("herb_per_ml", "herb_per_dose", "ratio") for a in reading.asked):
        return
    herbs = [s for s in said if s.quantity == "herb" and not s.member]
    wet: list[Said | Loose] = [s for s in said if s.quantity in ("menstruum", "pressed", "all_out", "blend", "stock") and not s.member]
    wet += [f for f in loose if f.kind in ("mL", "#")]
    out = [f for f in wet if CAME_OUT.match(heard[f.end :]) or CAME.search(heard[: f.start])]
    if len(herbs) != 1 or len(out) != 2 or len(wet) not in (2, 4) or reading.ingredients or reading.liquids:
        return
    for figure in wet:
        forget(figure, said, loose)
        work.refer(figure)
    poured = [f for f in wet if f not in out]
    if len(poured) == 2:
        said.append(Said("menstruum", sum(f.value for f in poured), poured[0].start, poured[0].end))
    said.append(Said("pressed", sum(f.value for f in out), out[0].start, out[0].end))
    for times in [f for f in loose if f.kind == "times"]:
        loose.remove(times)
        work.refer(times)
    reading.let_go("same", "scale_n")
    reading.tags |= {"over_marc", "marc_again"}


def two_ratios(said: list[Said], work: Work) -> None:
    """ "3 mL of a 1:3, what would be the same from a 1:5?": the ratio beside the dose is its own, the second is the other's."""
    reading = work.reading
    ratios = [s for s in said if s.quantity == "ratio" and not s.member]
    if SWAPPED.search(reading.heard) and len(ratios) == 2 and any(s.quantity == "menstruum" for s in said) and not any(s.quantity == "herb" for s in said):
        work.frames.add("dose")
    if "dose" not in work.frames or work.members or len(ratios) != 2 or reading.has("compare"):
        return
    dose = next((s for s in said if s.quantity in ("dose", "daily", "menstruum")), None)
    own = min(ratios, key=lambda r: _apart(r, dose, reading.heard) if dose is not None else r.start)
    other = next(r for r in ratios if r is not own)
    said[said.index(other)] = replace(other, quantity="other_ratio")
    own_is_fresh = _fresh_near(own, other, reading.heard)
    if own_is_fresh:
        reading.tags.add("own_fresh")
    if _fresh_near(other, own, reading.heard):
        reading.tags.add("other_fresh")
    if not any(a.quantity == "other_dose" for a in reading.asked):
        reading.asked[:] = [Asked("other_dose", other.start, other.end)]
    for i, s in enumerate(said):
        if s.quantity == "water_content" and "other_fresh" in reading.tags and not own_is_fresh:
            said[i] = replace(s, quantity="other_water")
        elif s.quantity == "menstruum" and s.weak:
            said[i] = replace(s, quantity="dose", weak=False)


def _apart(ratio: Said, dose: Said, heard: str) -> float:
    """How far a ratio stands from a dose, in letters; another clause is farther than any word of the same."""
    between = heard[dose.end : ratio.start] if ratio.start >= dose.end else heard[ratio.end : dose.start]
    return len(between) + OTHER_CLAUSE * len([c for c in between if c in ",;?"])


OTHER_CLAUSE = 20
LIQUID_THERE = frozenset({"pressed", "racked", "blend", "syrup", "to_bottle"})


def bottles_of_what_is_there(said: list[Said], work: Work) -> None:
    """ "How many bottles?" where no course was told, and so much liquid was: what it fills, not what a course takes. Changes the reading's asked."""
    have = {s.quantity for s in said} | work.facts.keys()
    if have & {"course", "supply"} or not have & LIQUID_THERE or "bottle_size" not in have:
        return
    asked = work.reading.asked
    asked[:] = [replace(a, quantity="bottles") if a.quantity == "bottles_needed" else a for a in asked]


TWIN = looked_for(r"^(?:\s*(?:%|percent))?\s*(?:and|or|&|vs|versus|against)\s+(?:at\s+)?$", re.IGNORECASE)


def two_strengths(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "The same at 50 and 40": a bare number joined to a strength is another strength, to set beside it. Changes both lists in place."""
    reading, facts = work.reading, work.batch.facts
    strengths = [s for s in said if s.quantity == "strength"]
    if len(said) != 1 or len(strengths) != 1 or len(loose) != 1 or not facts.keys() & {"ratio", "menstruum"} or work.members:
        return
    first, other = strengths[0], loose[0]
    if other.kind not in ("#", "%") or not LEAST_STRENGTH <= other.value <= MOST_STRENGTH or not TWIN.match(reading.heard[first.end : other.start]):
        return
    loose.clear()
    said.append(said_as(other, "strength"))
    reading.acts.append(Act("side_by_side", (), first.start, other.end))


LEAST_STRENGTH, MOST_STRENGTH = 15.0, 97.0  # percent


def not_on_the_scale(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "It's at 45 now" is a weight only of a plant that dries, and lighter than it was. Changes both lists in place."""
    heard, facts = work.reading.heard, work.batch.facts
    for s in [s for s in said if s.quantity == "wilted" and heard[s.start : s.end].strip().isdigit()]:
        herb = next((o.value for o in said if o.quantity == "herb"), facts["herb"].value if "herb" in facts else 0.0)
        if "wilted" in work.reading.tags and s.value < herb:
            continue  # "wilted down to 160"
        if not s.value < herb or (facts.keys() | {o.quantity for o in said}) & {"ratio", "menstruum", "materials", "bottles"}:
            said.remove(s)
            loose.append(Loose("#", s.value, "1", s.start, s.end, heard[s.start : s.end], s.words))


def only_so_much(said: list[Said], work: Work) -> None:
    """ "No, only 2 litres left": where the spirit one starts from was said, that is it. Changes the list in place."""
    if not work.reading.has("correct") or "dilution" not in work.batch.frames or "stock" not in work.batch.facts:
        return
    said[:] = [replace(s, quantity="stock", weak=False) if s.quantity == "spirit_in_hand" else s for s in said]


def new_prices(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "Spirit's gone up to 30", "only got 14 out of it": where the cost was told before, a new price is by the litre or kilo as the old one was,
    and a bare count of what came out is of bottles. Changes both lists in place."""
    if "cost" not in work.frames or "bottles" not in work.batch.facts:
        return
    for key, words in PRICED.items():
        old = work.batch.facts.get(key)
        if old is None or not 0 < old.value < 1 or not words.search(work.reading.heard):
            continue
        bare = [f for f in loose if f.kind in ("#", "money")]
        if len(bare) == 1 and not said:
            loose.remove(bare[0])
            said.append(said_as(bare[0], key, "", bare[0].value / 1000))
        elif len(said) == 1 and not bare and said[0].quantity in ("stock_strength", "strength") and not said[0].said_unit and NOW.search(work.reading.heard):
            said[0] = replace(said[0], quantity=key, value=said[0].value / 1000, weak=False)  # "spirit is now 25"
    for i, s in enumerate(said):
        if s.quantity == "pressed" and work.reading.heard[s.start : s.end].strip().isdigit() and len(said) == 1:
            said[i] = replace(s, quantity="bottles", weak=False)
    one = next((s for s in said if s.quantity == "bottles" and s.value == 1 < work.batch.facts["bottles"].value), None)
    if one is not None and not FILLED.search(work.reading.heard):  # "glass went up to 1.10. one bottle now": what one of them costs
        said.remove(one)
        work.refer(one)
        work.reading.asked[:] = [a for a in work.reading.asked if a.quantity != "bottles_needed"] or [Asked("bottle_cost", one.start, one.end)]


def _fresh_near(ratio: Said, other: Said, heard: str) -> bool:
    """Whether the word of state nearest to a ratio, and nearer to it than to the other one, says fresh."""
    here, there = (ratio.start + ratio.end) / 2, (other.start + other.end) / 2
    words = [(abs(m.start() - here), m.group(1).lower()) for m in STATE.finditer(heard) if abs(m.start() - here) <= abs(m.start() - there)]
    return bool(words) and min(words)[1] == "fresh"


def made_and_wanted(said: list[Said], work: Work) -> None:
    """ "… makes 20 tins; I want 50 tins": so many times the recipe. "… 500 mL. then make it a litre": the last one holds."""
    heard = work.reading.heard
    for quantity in COUNTS_OF_IT:
        told = sorted((s for s in said if s.quantity == quantity and not s.member), key=lambda s: s.start)
        if len(told) != 2 or told[0].value == told[1].value:
            continue
        if LATER.search(heard[told[0].end : told[1].start]):
            said.remove(told[0])
            work.refer(told[0])
        elif told[0].value > 0 and MADE_BY.search(heard[: told[0].start]) and quantity in WHOLE_COUNTS:
            said[:] = [s for s in said if s not in told]
            said += [replace(told[0], quantity="once_count"), replace(told[1], quantity="count_wanted")]
        elif told[0].value > 0 and MADE_BY.search(heard[: told[0].start]):
            said[:] = [s for s in said if s not in told]
            said.append(replace(told[1], quantity="times", value=told[1].value / told[0].value))
            work.refer(told[0])


def times_as_many(figure: Loose, said: list[Said], work: Work) -> list[Said]:
    """ "makes 24 tins …; I need 60": a bare number after what the recipe makes."""
    heard = work.reading.heard
    made = next((s for s in said if s.quantity in COUNTS_OF_IT and not s.member and s.value > 0 and MADE_BY.search(heard[: s.start])), None)
    if figure.kind != "#" or made is None or not WANTED.search(heard[: figure.start]):
        return []
    said.remove(made)
    if made.quantity in WHOLE_COUNTS:
        return [replace(made, quantity="once_count"), said_as(figure, "count_wanted")]
    work.refer(made)
    return [said_as(figure, "times", "", figure.value / made.value)]


def counted_again(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "No hang on, 24", "16 tins then": another number of what the recipe fills, where that was told before."""
    if "once_count" not in work.facts or "tin_size" in work.facts or work.reading.ingredients:
        return
    for i, s in enumerate(said):
        if s.quantity in WHOLE_COUNTS and not s.member:
            said[i] = replace(s, quantity="count_wanted")
    for figure in [f for f in loose if f.kind in ("#", "n")]:
        if not any(s.quantity == "count_wanted" for s in said) and not _beside_a_name(figure, work):
            loose.remove(figure)
            said.append(said_as(figure, "count_wanted"))


def _beside_a_name(figure: Loose, work: Work) -> bool:
    return any(0 <= n.start - figure.end < 5 or 0 <= figure.start - n.end < 5 for n in work.reading.mentions)


def recipe_and_hand(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "The book says 200 g of root to a litre, but I've just 130 g": the recipe's weight and volume tell its ratio, the last weight goes in."""
    if len([s for s in said if s.quantity in WEIGHTS_SAID]) == 1:  # "… and I've got 80": grams like the recipe's
        heard = work.reading.heard
        figures: list[Said | Loose] = [f for f in loose if f.kind == "#"]
        twice = [s for s in said if sum(o.quantity == s.quantity and o.value == s.value for o in said) > 1]  # "only got 95 here. how much 95"
        figures += [s for s in said if heard[s.start : s.end].strip().isdigit() and s not in twice and s.quantity not in SOME_STRENGTH]
        bare = [f for f in figures if IN_HAND.search(heard[max(0, f.start - 12) : f.start]) and RECIPE_SAYS.search(heard[: f.start])]
        if len(bare) == 1 and not PERCENT_BEHIND.match(heard[bare[0].end :]):
            forget(bare[0], said, loose)
            said.append(Said("picked", bare[0].value, bare[0].start, bare[0].end))
    weights = sorted((s for s in said if s.quantity in WEIGHTS_SAID and not s.member), key=lambda s: s.start)
    poured = [s for s in said if s.quantity in ("menstruum", "planned_menstruum") and not s.member]
    if len(weights) != 2 or len(poured) != 1 or work.members or not RECIPE_SAYS.search(work.reading.heard[: weights[0].start]):
        return
    told, hand = weights
    liquid = poured[0]
    between = work.reading.heard[max(told.end, liquid.end) : hand.start]
    if hand.start < liquid.start or not IN_HAND.search(between) or any(s.quantity == "ratio" for s in said):
        return
    said[:] = [s for s in said if s not in (told, hand, liquid)]
    said += [replace(hand, quantity="herb", weak=False), replace(liquid, quantity="ratio", value=liquid.value / told.value, weak=False, said_unit="")]
    work.refer(told)


PERCENT_BEHIND = looked_for(r"^\s*(?:%|percent|proof|abv)", re.IGNORECASE)
RECIPE_SAYS = looked_for(
    r"\b(?:book|recipe|monograph|card|notes?|sheet|label|original|formulary|teacher|it)\b[^.;]*\b(?:says?|calls?|has|wants?|gives?|uses?|is|was)\b",
    re.IGNORECASE,
)
IN_HAND = looked_for(r"\b(?:but|only|just|have|got|i've|ive|there's|theres)\b", re.IGNORECASE)
WEIGHTS_SAID = frozenset({"herb", "dried", "planned_herb", "picked"})


def dried_of_fresh(said: list[Said], work: Work) -> None:
    """ "To get 1.5 g dried, how many mL": of a fresh tincture that is taken, the day's dried herb, and the mL that carry it are asked."""
    heard = work.reading.heard
    fresh = "fresh" in work.batch.tags | work.reading.tags and ("ratio" in work.facts or any(s.quantity == "ratio" for s in said))
    if not fresh or "dose" not in work.frames or work.members or not (work.reading.asked or HOW_MANY_ML.search(heard)):
        return
    for i, s in enumerate(said):
        if s.quantity in ("herb", "herb_per_day", "herb_per_dose", "dried") and not s.member and DRIED_BEHIND.match(heard[s.end :]):
            said[i] = replace(s, quantity="dried_per_day", weak=False)
            work.reading.tags.discard("dried")  # the plant stays fresh
            if HOW_MANY_ML.search(heard):
                work.reading.freed |= {"dose", "dose_drops", "daily"}
                work.reading.asked[:] = [Asked("daily", s.start, s.end)]
            return


def grams_a_day(said: list[Said], work: Work) -> None:
    """The grams of a day are told: asked how strong it has to be, the ratio gives way; asked how many mL "for the 6 g", the dose does."""
    reading, told = work.reading, {s.quantity for s in said}
    if "dose" not in work.frames or work.members or not ("herb_per_day" in work.facts or "herb_per_day" in told):
        return
    asked = {a.quantity for a in reading.asked}
    if "ratio" in asked and "ratio" not in told and work.facts.keys() & {"dose", "daily"}:
        reading.freed.add("ratio")
    if "daily" in asked and "herb_per_day" in told and not told & {"dose", "daily", "dose_drops"}:
        reading.freed |= {"dose", "dose_drops"}


def price_times(reading: Reading, frames: Collection[str]) -> Act | None:
    """ "I sell at three times that": so many times the cost in hand, and no larger batch."""
    if "cost" not in frames or not SELLS.search(reading.heard):
        return None
    return next((a for a in reading.acts if a.name == "scale_n" and len(a.figures) == 1 and a.figures[0] > 1), None)


SELLS = looked_for(r"\b(?:sell|sells|selling|charge|charging|price|priced|retail|shelf|stall)\b", re.IGNORECASE)


def times_the_cost(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "What is it at three times cost": a price, and so much laid on the cost."""
    reading = work.reading
    if "cost" not in work.frames:
        return
    act = price_times(reading, work.frames) if "bottle_size" not in {s.quantity for s in said} else None
    if act is not None and not any(s.quantity in ("on_cost", "mark_up", "selling_price") for s in said):
        said.append(Said("on_cost", (act.figures[0] - 1) * 100, act.start, act.end))
        reading.acts[:] = [a for a in reading.acts if not a.name.startswith("scale")]
        reading.freed |= {"mark_up", "selling_price"}
        reading.asked[:] = [Asked("selling_price", act.start, act.end)]
        return
    for figure in [f for f in loose if f.kind == "times" and f.value > 1 and (OF_COST.match(reading.heard[f.end :]) or SELLS.search(reading.heard))][:1]:
        loose.remove(figure)
        said.append(said_as(figure, "on_cost", value=(figure.value - 1) * 100))
        reading.freed |= {"mark_up", "selling_price"}
        if not any(a.quantity == "selling_price" for a in reading.asked):
            reading.asked.append(Asked("selling_price", figure.start, figure.end))


def one_bottle(said: list[Said], work: Work) -> None:
    """ "Into the 100 mL bottle: …": it is one bottle that is filled, so the parts have to make it up."""
    reading = work.reading
    if "formula" not in work.frames or not work.members or ("dose" in work.frames and not (reading.ingredients or MAKES.search(reading.heard))):
        return
    if any(s.quantity == "bottles" for s in said) or any(a.quantity in ("bottles", "rest") for a in reading.asked):
        return
    for s in said:
        if s.quantity == "bottle_size" and ONE.search(reading.heard[s.end :]) and INTO.search(reading.heard[: s.start]):
            said.append(Said("bottles", 1.0, s.start, s.end))
            return


BY_WEIGHT_MEANT = looked_for(
    r"\b(?:mean|meant|it'?s|that'?s|was|should|sorry|no,?|actually|rather)\b[^.;?]*\bby weight\b|"
    r"\bby weight\b[^.;?]*\b(?:mean|meant|sorry|actually|rather|not)\b",
    re.IGNORECASE,
)


def by_weight_meant(said: list[Said], work: Work) -> None:
    """ "By weight, I meant": the ratio said before is one of weights."""
    weighed = {s.quantity for s in said}
    if {"herb", "ratio_by_weight"} <= weighed and not weighed & {"menstruum", "menstruum_weight"}:  # "100 g, 1:3 by weight, how many grams": to pour
        asked = work.reading.asked
        asked[:] = [replace(a, quantity="menstruum_weight") if a.quantity == "herb" else a for a in asked]
    if said or work.members or "ratio" not in work.facts or "by_weight" not in work.reading.tags or not BY_WEIGHT_MEANT.search(work.reading.heard):
        return
    said.append(Said("ratio", work.facts["ratio"].value, 0, 0))


def each_its_own(said: list[Said], loose: list[Loose], work: Work) -> None:
    """Rows of figures, one for each ingredient in the order they were named: prices, strengths, ratios or parts."""
    for row in work.reading.rows:
        if len(row) != len(work.members):
            loose.extend(row)
            continue
        kind = row[0].kind
        priced = kind in ("per", "money") or (kind == "#" and ("cost" in work.frames or max(f.value for f in row) < CHEAP))
        quantity = "price_of" if priced else {"%": "strength_of", ":": "ratio_of"}.get(kind, "part")
        said.extend(said_as(figure, quantity, member) for figure, member in zip(row, work.members, strict=True))
