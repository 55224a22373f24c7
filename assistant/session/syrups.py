"""Figures in the talk of a syrup: so many times the weight, a syrup that reads too low, a syrup that spirit is to keep.

"Sugar double by weight", "4 times its weight of honey", "the same volume of honey"; "reads 50 brix, how much more sugar to get 66"; "want it at
10 % alcohol, got 40 % brandy". A percent beside the spirit is the spirit's, beside "alcohol" or what is aimed at it is the syrup's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY
from assistant.session.work import SOME_LIQUID, SOME_WEIGHT, Work, said_as

SPIRIT = r"(?:brandy|brandys|vodka|rum|gin|spirit|spirits|alcohol|whisky|whiskey|everclear|sherry|port|mead|wine(?! vinegar))"
SPIRITS = looked_for(rf"\b{SPIRIT}\b", re.IGNORECASE)
BEFORE_SPIRIT = looked_for(rf"^\s*(?:%|percent|proof|abv)?\s*(?:of |of the |the )?(?!alcohol){SPIRIT}\b", re.IGNORECASE)
BEHIND_SPIRIT = looked_for(rf"\b(?!alcohol){SPIRIT}(?:'s)?(?: is| are| at| of| it's| says| reads|,)*\s*$", re.IGNORECASE)
OF_SPIRIT = looked_for(
    rf"^\s*(?:(?:ml|mls)?\s*(?:of|more)?\s*(?:the|my|that|a|this)?\s*(?:\d+(?:\.\d+)?\s*(?:%|percent)?)?\s*)(?!alcohol){SPIRIT}\b", re.IGNORECASE
)
ALCOHOL = looked_for(r"^\s*(?:%|percent)?\s*(?:of )?(?:alcohol|abv|by volume|in the end|all told|final|finished)\b", re.IGNORECASE)
POURED_FROM = looked_for(
    r"\b(?:use|used|using|with|from|took|take|had|have|got|swap|pour|poured|of)\s+(?:only |just |in )?(?:the|a|an|my|some|that)\s*$", re.IGNORECASE
)
HOW_STRONG = looked_for(r"\bhow strong\b|\bstrength\b|\babv\b|\bpercent\b|\bwhat %|\balcohol\b", re.IGNORECASE)
BRIX = looked_for(r"\bbrix\b|\bbx\b|°bx|\bsugar\b|\bsweet", re.IGNORECASE)
READS = looked_for(
    r"(?:'s|\b(?:reads?|reading|shows?|is|it's|its|at|says|that's|already|came out|comes out|only|got to|made it to|stands at))"
    r"\s*(?:only|just|about|at|already)?\s*$",
    re.IGNORECASE,
)
AIMED = looked_for(r"\b(?:to|get|want|need|needs|reach|hit|for|make it|bring it|up to)\s*(?:it|about|at)?\s*$", re.IGNORECASE)
BOIL_OFF = looked_for(r"\b(?:boil|cook|simmer|reduce|steam|evaporate|drive)\w*\b", re.IGNORECASE)
WATER_OUT = looked_for(
    r"\bwater\b[^.;]*\b(?:go|goes|off|away|out|lose|lost|come)\b|\bhow much\b[^.;]*\b(?:boil|cook|simmer|steam|drive)\w*\b[^.;]*\b(?:off|away)\b", re.IGNORECASE
)
THINNED = looked_for(r"\bhow much (?:more )?water\b[^.;]*\b(?:add|in|thin|to get|let|bring)\b|\bwater\b[^.;]*\bto (?:add|thin|let)\b", re.IGNORECASE)
SUGAR = looked_for(r"\bsugar\b", re.IGNORECASE)
SWEET_ALREADY = looked_for(r"\balready\b|\b(?:juice|sap|must|cider|tea|decoction|infusion)\b[^.;?]{0,24}\b(?:is|reads?|at|of|has)\b", re.IGNORECASE)
BROUGHT = looked_for(r"\bsyrup\b.*\b(?:bring|get|lift|raise|push|take|want|need)\b[^.;?]*\bto\b", re.IGNORECASE)
SWAP = looked_for(
    r"\b(?:swap|change|replace|trade) (?:the |that )?(?:sugar|honey) (?:for|with|to|by) (?:the |some )?(sugar|honey)\b"
    r"|\b(honey|sugar) (?:instead of|in place of|rather than|not) (?:the )?(?:sugar|honey)\b"
    r"|\b(honey|sugar) instead\b",
    re.IGNORECASE,
)
SAME_VOLUME = looked_for(
    r"\b(?:same|equal) (?:again|volume|amount|measure|quantity)? ?(?:again )?(?:of )?honey\b(?=.*\b(?:volume|ml)\b)|\b(?:same|equal) volume(?:s)? of honey\b"
    r"|\bas much honey\b(?=.*\b(?:volume|ml)\b)|\bhoney\b[^.;]*\b(?:same|equal) (?:by )?volume\b",
    re.IGNORECASE,
)
SAME_WEIGHT = looked_for(
    r"\b(?:same|equal|own) weight (?:again )?(?:of|in) (honey|sugar)\b|\b(honey|sugar)\b[^.;,]*\b(?:same|equal|own) (?:by )?weight\b"
    r"|\bas much (honey|sugar) by weight\b",
    re.IGNORECASE,
)
BY_VOLUME = looked_for(r"\bby (?:volume|the cup|cups|jug|ml|mls)\b|\bvolumes?\b|\bv/v\b", re.IGNORECASE)
MOST_TIMES = 20.0


def settle_syrup(said: list[Said], loose: list[Loose], work: Work) -> None:
    """Give the figures of a sentence about a syrup their quantity. Changes both lists in place, and the reading's asked and freed."""
    if "syrup" not in work.frames or work.members or work.reading.ingredients or work.reading.liquids:
        return
    _as_much_as_it_sweetens(said, work)
    _sweetened_to(said, work)
    _swapped(said, work)
    _in_all(work)
    _times(said, loose, work)
    _same(said, work)
    if not _with_spirit(said, loose, work):
        _mended(said, loose, work)


# ── so many times the weight ─────────────────────────────────────────────────────────────────────────────────────────────


def _sweet(work: Work) -> str:
    heard = work.reading.heard.lower()
    if "syrup" in heard and "honey" not in heard:
        return "sugar"
    if "sugar" in heard or ("sugar_times" in work.facts and "honey" not in heard):
        return "sugar"
    return "honey" if "honey" in heard or work.facts.keys() & {"honey_times", "honey_to_herb"} else ""


def _by(sweet: str, said: Sequence[Said], work: Work) -> str:
    """Times the weight of the liquid, or of the plant where no liquid is spoken of."""
    known = {s.quantity for s in said} | work.facts.keys()
    if sweet == "honey" and "herb" in known and not known & {"decoction", "liquid", "boiled_from", "boiled_to", "menstruum"}:
        return "honey_to_herb"
    return f"{sweet}_times"


OF_THE_SWEET = looked_for(r"\b(?:honey|sugar)\W{0,2}(?:(?:at|in|by|is|of|to|then)\W+)*$", re.IGNORECASE)


TO_THE_SWEET = looked_for(r"\W*(?:(?:parts?|by|weight|volume|of|in|with|the|raw|runny|white|brown|cane|my)\W+)*(?:honey|sugar)\b", re.IGNORECASE)
BOILED = frozenset({"decoction", "boiled_to", "boiled_from", "boiled_share", "boiled_off_share"})


BREW = looked_for(r"\b(?:brew|juice|decoction|infusion|tea|liquid|liquor)\b", re.IGNORECASE)


def _as_much_as_it_sweetens(said: list[Said], work: Work) -> None:
    """ "Only a kilo of sugar in the house, how much brew does that take": the sugar tells the decoction, whatever there was of it."""
    known = {s.quantity for s in said} | work.facts.keys()
    sweets = [s for s in said if s.quantity in ("sugar", "honey", "honey_volume")]
    asked = work.reading.asked
    asked[:] = [replace(a, quantity="decoction") if a.quantity == "herb" and BREW.search(work.reading.heard[a.start : a.end]) else a for a in asked]
    if len(sweets) == 1 and "brix" in known and any(a.quantity == "decoction" for a in work.reading.asked):
        work.reading.freed |= {"decoction", "liquid", "menstruum"} - {s.quantity for s in said}


def _sweetened_to(said: list[Said], work: Work) -> None:
    """ "… boiled down to 600, honey to 65 Brix": the honey is looked for, where none is told and no sugar is spoken of."""
    known = {s.quantity for s in said} | work.facts.keys()
    told = known & {"honey", "honey_volume", "honey_times", "sugar", "sugar_times"}
    if any(s.quantity == "brix" for s in said) and not work.reading.asked and not told:
        sweet = _sweet(work) or ("sugar" if known & OF_THE_SYRUP and not known & {"syrup", "syrup_weight", "brix_had"} else "")
        if sweet == "honey" or known & {"boiled_to", "boiled_share"}:
            work.reading.asked.append(Asked(sweet or "sugar", 0, len(work.reading.heard)))


IN_ALL = looked_for(
    r"\b(?:total|whole|in all|altogether|all told|all in all)\b|"
    r"\bhow much (?:will|do|would|did|does|shall|is|have)\b[^.;?]*\b(?:get|make|come|have|there|it|that|i|be)\b|"
    r"\bhow much (?:syrup|volume)\b",
    re.IGNORECASE,
)
OF_A_JAR = frozenset({"menstruum", "pressed", "yield_share", "blend", "ratio", "contents", "racked"})


def _in_all(work: Work) -> None:
    """ "Total volume?", "how much will I get" of a syrup told by its liquid and its sweet: the syrup, with the spirit that is in it."""
    known, asked = work.facts.keys(), work.reading.asked
    sweet = known & {"sugar", "honey", "honey_volume", "honey_times", "sugar_times", "honey_volumes", "brix"}
    if not sweet or not known & OF_THE_SYRUP or not asked or {a.quantity for a in asked} - OF_A_JAR or "vinegar" in work.frames:
        return
    if IN_ALL.search(work.reading.heard) and not SPIRITS.search(work.reading.heard):
        asked[:] = [Asked("fortified" if "keeping_spirit" in known else "syrup", 0, len(work.reading.heard))]


def _times(said: list[Said], loose: list[Loose], work: Work) -> None:
    sweet = _sweet(work)
    if not sweet or any(s.quantity in ("sugar_times", "honey_times", "honey_to_vinegar") for s in said):
        return
    key = _by(sweet, said, work)
    by_weight = re.search(r"\bweight\b", work.reading.heard, re.IGNORECASE) is not None or key in work.facts
    known = {s.quantity for s in said} | work.facts.keys()
    boiled = bool(known & BOILED)
    watery = boiled or "liquid" in known
    for figure in [f for f in loose if f.kind in ("times", "x", "#") and 0 < f.value <= MOST_TIMES]:
        if by_weight and (figure.kind != "#" or key in work.facts):
            loose.remove(figure)
            said.append(said_as(figure, key))
            return
    for i, s in enumerate(said):
        beside = OF_THE_SWEET.search(work.reading.heard[: s.start]) or TO_THE_SWEET.match(work.reading.heard[s.end :])
        planted = "herb" in known and not (boiled and beside)
        if s.quantity in ("ratio", "ratio_by_weight") and (key in work.facts or ((by_weight or watery) and not planted)):
            value = s.value if key == "honey_to_herb" else 1 / s.value  # sugar to liquid, as it is said; a plant comes first
            key = "honey_volumes" if key == "honey_times" and boiled and BY_VOLUME.search(work.reading.heard) else key
            said[i] = replace(s, quantity=key, value=value, weak=False)
            return


def _swapped(said: list[Said], work: Work) -> None:
    """ "Swap the sugar for honey", "honey instead of sugar": the same weight of the other."""
    heard = work.reading.heard
    hit = SWAP.search(heard)
    if hit is None or said:
        return
    new = next(g for g in hit.groups() if g).lower()
    old = "sugar" if new == "honey" else "honey"
    for quantity in ("{}_times", "{}"):
        fact = work.facts.get(quantity.format(old))
        if fact is not None:
            said.append(Said(quantity.format(new), fact.value, 0, 0))
            work.reading.freed |= {quantity.format(old), "brix"}
            work.reading.asked[:] = [Asked(new, 0, len(heard)), Asked("brix", 0, len(heard))]
            return
    if "brix" in work.facts:  # the sweetness was the aim: so much of the other reaches it
        work.reading.asked[:] = [Asked(new, 0, len(heard))]


def _same(said: list[Said], work: Work) -> None:
    heard = work.reading.heard
    hit = SAME_WEIGHT.search(heard)
    if SAME_VOLUME.search(heard):
        said.append(Said("honey_volumes", 1.0, 0, 0))
        if not any(a.quantity in ("honey", "honey_volume") for a in work.reading.asked):
            grams = re.search(r"\bgrams?\b|\bweigh", heard, re.IGNORECASE)
            work.reading.asked[:] = [Asked("honey" if grams else "honey_volume", 0, len(heard))]
    elif hit is not None and not any(s.quantity.endswith("_times") or s.quantity == "honey_to_herb" for s in said):
        said.append(Said(_by(next(g for g in hit.groups() if g).lower(), said, work), 1.0, 0, 0))


# ── spirit in a syrup ────────────────────────────────────────────────────────────────────────────────────────────────────


OF_THE_SYRUP = frozenset({"decoction", "liquid", "juice", "boiled_to", "boiled_share", "sugar"})
PERCENT = looked_for(r"%|\bpercent\b", re.IGNORECASE)
SO_MUCH_SPIRIT = looked_for(rf"\d\s*(?:ml|mls|l|cl|oz|pints?|cups?)?\s*(?:of |more |the |my )*(?!alcohol){SPIRIT}\b", re.IGNORECASE)


def _follows(work: Work) -> bool:
    """Whether the syrup follows from its liquid and its sugar, and needs no volume of its own."""
    return "brix" in work.facts and bool(work.facts.keys() & OF_THE_SYRUP)


def _with_spirit(said: list[Said], loose: list[Loose], work: Work) -> bool:
    """Whether the sentence speaks of the strength of a syrup with spirit in it; its figures then are the spirit's or the syrup's."""
    heard = work.reading.heard
    running = bool(work.facts.keys() & {"syrup_alcohol", "keeping_strength", "keeping_spirit"} or set(work.wants) & {"keeping_strength", "keeping_spirit"})
    if not SPIRITS.search(heard) and not (running and "syrup_alcohol" in work.facts):
        return False
    there = {s.quantity for s in said} | work.facts.keys()
    if not running and not there & {"syrup", "syrup_weight"} and not _follows(work):
        return False
    if BRIX.search(heard) and not ALCOHOL.search(heard) and not running:
        return False
    placed: dict[str, Said] = {}
    figures: list[Said | Loose] = sorted([*said, *loose], key=lambda f: f.start)
    for figure in figures:
        quantity = _of_the_spirit(figure, heard, work)
        if quantity and quantity not in placed:
            placed[quantity] = said_as(figure, quantity) if isinstance(figure, Loose) else replace(figure, quantity=quantity, weak=False)
            if isinstance(figure, Loose):
                loose.remove(figure)
            else:
                said.remove(figure)
    _by_name(placed, said, work)
    known = placed.keys() | work.facts.keys()
    told = "syrup_alcohol" in known
    asks = HOW_STRONG.search(heard) is not None and not told and "keeping_spirit" in known
    if not told and not asks and "keeping_spirit" not in placed:
        said.extend(placed.values())
        return bool(placed)
    said.extend(placed.values())
    if "syrup_alcohol" in placed:
        work.reading.freed.add("keeping_spirit") if "keeping_spirit" not in placed else None
        work.reading.asked[:] = [Asked("keeping_spirit", 0, len(heard))]
    elif "keeping_spirit" in placed:
        work.reading.freed.add("syrup_alcohol")
        work.reading.asked[:] = [Asked("syrup_alcohol", 0, len(heard))]
    elif asks:
        work.reading.asked[:] = [Asked("syrup_alcohol", 0, len(heard))]
    return True


def _by_name(placed: dict[str, Said], said: list[Said], work: Work) -> None:
    """ "40 % brandy", then "50 % vodka", then "with the brandy": a spirit told by name keeps its strength."""
    heard = work.reading.heard
    strength = placed.get("keeping_strength")
    for hit in SPIRITS.finditer(heard):
        name = hit.group().lower().rstrip("s")
        if name in ("alcohol", "spirit"):
            continue
        if strength is not None and abs(hit.start() - strength.end) < NEAR:
            said.append(replace(strength, quantity="strength_of", member=name))
        elif strength is None and f"strength_of[{name}]" in work.facts:
            placed["keeping_strength"] = Said("keeping_strength", work.facts[f"strength_of[{name}]"].value, hit.start(), hit.end(), words=frozenset({name}))
        return


GLASS = looked_for(r"\s*(?:bottles?|jars?|flasks?)\b", re.IGNORECASE)
NEAR = 14  # characters between a strength and the name of its spirit


def _of_the_spirit(figure: Said | Loose, heard: str, work: Work) -> str:
    unit = VOCABULARY[figure.quantity].unit if isinstance(figure, Said) else {"%": "percent", "#": "", "n": "", "mL": "mL"}.get(figure.kind, "-")
    before, behind = heard[: figure.start], heard[figure.end :]
    bare = unit == "" or (isinstance(figure, Said) and not figure.said_unit)
    if unit == "percent" or (bare and 0 < figure.value <= 100):
        if isinstance(figure, Said) and figure.quantity == "brix" and BRIX.search(heard[figure.start : figure.end + 8]):
            return ""
        if BEFORE_SPIRIT.match(behind) or BEHIND_SPIRIT.search(before):
            return "keeping_spirit" if bare and _is_poured(figure, heard, work) else "keeping_strength"
        if "keeping_strength" in work.facts and POURED_FROM.search(before) and not ALCOHOL.match(behind):
            return "keeping_strength"  # "if I use the 96 instead"
        if unit == "percent" and not bare:
            other = "keeping_strength" in work.facts and "syrup_alcohol" not in work.facts  # "and with vodka, it's 45 %"
            told = other or SO_MUCH_SPIRIT.search(before) or any(a.quantity == "keeping_spirit" for a in work.reading.asked)
            of_the_pour = told and len(PERCENT.findall(heard)) == 1
            return "keeping_strength" if of_the_pour and not (AIMED.search(before) or ALCOHOL.match(behind)) else "syrup_alcohol"
        if ALCOHOL.match(behind) or AIMED.search(before) or "syrup_alcohol" in work.facts:
            return "keeping_spirit" if _is_poured(figure, heard, work) else "syrup_alcohol"
        return ""
    if unit == "mL" and isinstance(figure, Said) and figure.quantity in SOME_LIQUID | {"bottle_size", "syrup", "keeping_spirit"}:
        if OF_SPIRIT.match(behind):
            return "keeping_spirit"
        if GLASS.match(behind):
            return ""  # "how many 100 mL bottles"
        if figure.quantity != "syrup" and _follows(work):
            return "keeping_spirit"
        return "syrup" if figure.quantity == "syrup" or not work.facts.keys() & {"syrup"} else ""
    return "keeping_spirit" if unit in ("", "mL") and OF_SPIRIT.match(behind) else ""


def _is_poured(figure: Said | Loose, heard: str, work: Work) -> bool:
    """ "Another 100 of brandy": behind it "of", and what there was of it was told before."""
    return "keeping_spirit" in work.facts and re.match(r"\s*(?:ml )?(?:more )?of\b|\s*more\b", heard[figure.end :], re.IGNORECASE) is not None


# ── a syrup that reads too low ───────────────────────────────────────────────────────────────────────────────────────────


def _mended(said: list[Said], loose: list[Loose], work: Work) -> None:
    heard, asked = work.reading.heard, work.reading.asked
    running = bool(work.facts.keys() & {"syrup_had", "brix_had"})
    more = any(a.quantity in ("sugar_more", "sugar") for a in asked) and re.search(r"\bmore\b|\bextra\b|\badd\b", heard, re.IGNORECASE) is not None
    off = BOIL_OFF.search(heard) is not None and (WATER_OUT.search(heard) is not None or any(a.quantity in ("water", "boiled_off") for a in asked))
    thin = THINNED.search(heard) is not None
    already = SWEET_ALREADY.search(heard) is not None and SUGAR.search(heard) is not None
    juice = next((s for s in said if already and s.quantity in ("decoction", "liquid", "menstruum") and s.said_unit), None)
    more = more or (not off and not thin and not running and (juice is not None or BROUGHT.search(heard) is not None))
    if not (more or off or thin or running) or (not running and "sugar" in work.facts):
        return
    figures: list[Said | Loose] = sorted([*said, *loose], key=lambda f: f.start)
    degrees = [f for f in figures if _may_be_brix(f)]
    there = next((f for f in degrees if READS.search(heard[: f.start]) and not AIMED.search(heard[: f.start])), None)
    aimed = next((f for f in degrees if f is not there and AIMED.search(heard[: f.start])), None)
    if len(degrees) == 2 and (there is None) != (aimed is None):
        there, aimed = there or next(f for f in degrees if f is not aimed), aimed or next(f for f in degrees if f is not there)
    elif len(degrees) == 2 and there is None:
        there, aimed = sorted(degrees, key=lambda f: f.value)
    if not running and (there is None or aimed is None):
        return
    weight = next((f for f in figures if isinstance(f, Said) and f.quantity in SOME_WEIGHT | {"syrup_weight", "sugar"} and f.said_unit), None)
    for figure, quantity in ((there, "brix_had"), (aimed, "brix"), (weight, "syrup_had"), (juice if weight is None else None, "juice")):
        if figure is None:
            continue
        if isinstance(figure, Loose):
            loose.remove(figure)
            said.append(said_as(figure, quantity))
        else:
            said[said.index(figure)] = replace(figure, quantity=quantity, weak=False)
    if more or off or thin:
        asked[:] = [Asked("water_more" if thin else "water_off" if off else "sugar_more", 0, len(heard))]
        work.frames.discard("decoction") if off else None


def _may_be_brix(figure: Said | Loose) -> bool:
    if not 1 <= figure.value <= 90:
        return False
    if isinstance(figure, Loose):
        return figure.kind in ("#", "bx", "%")
    return VOCABULARY[figure.quantity].unit == "percent" or (not figure.said_unit and figure.quantity in ("pressed", "decoction", "menstruum", "syrup"))
