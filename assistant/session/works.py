"""What the same words mean in each kind of work: in a mix "25 %" is the mix's strength, in a formula "250 mL" is the bottle."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.quantities.vocabulary import VOCABULARY, about, base, key_for
from assistant.session.batch import Batch, Fact
from assistant.session.beside import clause_of, is_left, is_share, member_beside

LIQUID = frozenset({"formula", "mix"})
WEIGHED = frozenset({"salve", "tea"})
# Figures that only say "so much liquid", "so much stuff", "so strong": which one depends on the work.
SOME_LIQUID = frozenset("menstruum pressed in_jar spirit_in_hand stock racked blend planned_menstruum contents menstruum_served supply rest liquid decoction to_bottle eo_base water batch_volume".split())
SOME_WEIGHT = frozenset("herb picked gross to_gather planned_herb batch dried menstruum_weight dry_matter weight child_weight wilted herb_served liquid all_herb herb_per_dose".split())
SOME_STRENGTH = frozenset("strength stock_strength finished_strength water_content fill yield_share margin dried_water wilted_water eo_share brix".split())
OWN_WORDS = re.compile(r"\b(?:water|moisture|margin|yield|trim|full)\b", re.IGNORECASE)


def settle(said: list[Said], loose: list[Loose], reading: Reading, batch: Batch, frames: set[str], facts: Mapping[str, Fact], members: Sequence[str], wants: Sequence[str]) -> None:
    """Give the figures of a sentence the quantity they have in this work. Changes both lists in place."""
    if "formula" in frames and members and (reading.ingredients or MAKES.search(reading.heard)):
        said.extend(_one_bottle(said, reading))
    _two_ratios(said, frames, reading)
    if reading.has("round"):
        reading.asked.clear()
    _two_macerations(said, reading)
    for row in reading.rows:
        _each_its_own(row, said, loose, frames, members, reading)
    if "essential" in frames and "salve" not in frames:
        for figure in [f for f in loose if f.kind == "#" and f.value <= 30 and not any(s.quantity == "eo_share" for s in said)]:
            loose.remove(figure)
            said.append(_said(figure, "eo_share"))
    if "sugar" in facts and any(a.quantity in ("sugar_more",) for a in reading.asked):
        had = facts["sugar"]
        said.append(Said("sugar_had", had.value, 0, 0))
        reading.freed.add("sugar")
    if "tea" in frames:
        loose[:] = [f for f in loose if f.kind != "cup" or f.number != 1 or reading.references.append(Reference("reference", f.start, f.end, f.value))]
    if members and frames & (LIQUID | WEIGHED | {"written"}):
        here = [_in_recipe(s, reading, frames, facts, members, loose) for s in said]
        said[:] = [s for s in here if s is not None]
        for figure in list(loose):
            named = _loose_in_recipe(figure, said, reading, batch, frames, facts, members, wants)
            if named is not None:
                loose.remove(figure)
                said.extend(named)
    _renamed_all(said, frames, batch, reading)
    if members:
        _made_and_wanted(said, reading)


TWICE = re.compile(r"\b(?:double|second|twice|again|same (?:oil|liquid|menstruum|spirit)|another|fresh lot)\b", re.IGNORECASE)


def _two_macerations(said: list[Said], reading: Reading) -> None:
    """Two plant weights on one liquid: all the herb together, over all the liquid that came out."""
    herbs = [s for s in said if s.quantity == "herb" and not s.member]
    if len(herbs) != 2 or reading.ingredients or not TWICE.search(reading.heard) or not any(s.quantity in ("pressed", "all_out") for s in said):
        return
    first, second = herbs
    said.remove(second)
    said[said.index(first)] = replace(first, quantity="all_herb", value=first.value + second.value)
    reading.references.append(Reference("reference", second.start, second.end, second.value))
    reading.tags.add("double")
    for i, s in enumerate(said):
        if s.quantity == "pressed":
            said[i] = replace(s, quantity="all_out")
    reading.loose[:] = [f for f in reading.loose if f.kind != "times" or reading.references.append(Reference("reference", f.start, f.end, f.value))]


MAKES = re.compile(r"\b(?:make|fill|mix|want|need|do)\b", re.IGNORECASE)


def _two_ratios(said: list[Said], frames: set[str], reading: Reading) -> None:
    """ "3 mL of a 1:3, what would be the same from a 1:5?": the ratio beside the dose is its own, the second is the other's."""
    ratios = [s for s in said if s.quantity == "ratio" and not s.member]
    if "dose" not in frames or len(ratios) != 2 or reading.has("compare"):
        return
    dose = next((s for s in said if s.quantity in ("dose", "daily", "menstruum")), None)
    own = min(ratios, key=lambda r: abs(r.start - dose.end) if dose is not None else r.start)
    other = next(r for r in ratios if r is not own)
    said[said.index(other)] = replace(other, quantity="other_ratio")
    if _fresh_near(own, other, reading):
        reading.tags.add("own_fresh")
    if _fresh_near(other, own, reading):
        reading.tags.add("other_fresh")
        for i, s in enumerate(said):
            if s.quantity == "water_content" and not _fresh_near(own, other, reading):
                said[i] = replace(s, quantity="other_water")
    if not any(a.quantity == "other_dose" for a in reading.asked):
        reading.asked[:] = [Asked("other_dose", other.start, other.end)]
    for i, s in enumerate(said):
        if s.quantity == "menstruum" and s.weak:
            said[i] = replace(s, quantity="dose", weak=False)


COUNTS_OF_IT = ("tins", "bottles", "jars", "cups", "blend", "batch", "menstruum")


def _made_and_wanted(said: list[Said], reading: Reading) -> None:
    """ "… makes 20 tins; I want 50 tins": so many times the recipe."""
    for quantity in COUNTS_OF_IT:
        told = sorted((s for s in said if s.quantity == quantity and not s.member), key=lambda s: s.start)
        if len(told) == 2 and re.search(r"\b(?:then|instead|or rather|make that)\b", reading.heard[told[0].end : told[1].start]):
            said.remove(told[0])  # "… 500 mL. then make it a litre": the last one holds
            reading.references.append(Reference("reference", told[0].start, told[0].end, told[0].value))
        elif len(told) == 2 and told[0].value > 0 and told[0].value != told[1].value and MADE_BY.search(reading.heard[: told[0].start]):
            said[:] = [s for s in said if s not in told]
            said.append(replace(told[1], quantity="times", value=told[1].value / told[0].value))
            reading.references.append(Reference("reference", told[0].start, told[0].end, told[0].value))


WANTED = re.compile(r"\b(?:need|want|make|for|do|order(?:s|ed)?(?: for)?)\s+(?:me |about |up )*$", re.IGNORECASE)
MADE_BY = re.compile(r"\b(?:makes?|made|yields?|gives?|fills?|for|enough|does)\b[^.;]{0,16}$", re.IGNORECASE)
STATE = re.compile(r"\b(fresh|dried|dry)\b", re.IGNORECASE)


def _fresh_near(ratio: Said, other: Said, reading: Reading) -> bool:
    """Whether the nearest word of state to a ratio, nearer to it than to the other one, says fresh."""
    middle = (ratio.start + ratio.end) / 2
    words = [(abs((m.start() + m.end()) / 2 - middle), m.group(1).lower()) for m in STATE.finditer(reading.heard)
             if abs(m.start() - middle) <= abs(m.start() - (other.start + other.end) / 2)]  # fmt: skip
    return bool(words) and min(words)[1] == "fresh"


SINGLE = re.compile(r"^[^,;.?]{0,12}\bbottle\b(?!s)", re.IGNORECASE)
INTO = re.compile(r"\b(?:in|into|fill|fills|for|to fill|one|a|the|my)\s+(?:a|an|the|my|one|1|that|this)?\s*$", re.IGNORECASE)


def _one_bottle(said: Sequence[Said], reading: Reading) -> list[Said]:
    """"Into the 100 mL bottle: …": it is one bottle that is filled, so the parts have to make it up."""
    if any(s.quantity == "bottles" for s in said) or any(a.quantity in ("bottles", "rest") for a in reading.asked):
        return []
    for s in said:
        if s.quantity == "bottle_size" and SINGLE.search(reading.heard[s.end :]) and INTO.search(reading.heard[: s.start]):
            return [Said("bottles", 1.0, s.start, s.end)]
    return []


def _each_its_own(row: tuple[Loose, ...], said: list[Said], loose: list[Loose], frames: set[str], members: Sequence[str], reading: Reading) -> None:
    """A row of figures, one for each ingredient in the order they were named: prices, strengths, ratios or parts."""
    if len(row) != len(members):
        loose.extend(row)
        return
    kind = row[0].kind
    priced = kind in ("per", "money") or kind == "#" and ("cost" in frames or max(f.value for f in row) < 2)
    quantity = "price_of" if priced else {"%": "strength_of", ":": "ratio_of"}.get(kind, "part")
    said.extend(_said(figure, quantity, member) for figure, member in zip(row, members, strict=True))


# ── recipes ──────────────────────────────────────────────────────────────────────────────────────────────────────────────


def _in_recipe(s: Said, reading: Reading, frames: set[str], facts: Mapping[str, Fact], members: Sequence[str], loose: list[Loose]) -> Said | None:
    if s.member:
        return s
    member = member_beside(s.start, s.end, reading, members)
    if s.quantity in SOME_LIQUID:
        return _liquid(s, member, reading, frames, facts)
    if s.quantity in SOME_WEIGHT:
        if member:
            return _as(s, "have_weight" if is_left(s.start, s.end, reading.heard) and _determined(facts, members) else "weight", member)
        return _as(s, "batch") if frames & WEIGHED else s
    if s.quantity in SOME_STRENGTH and not (s.quantity in ("water_content", "fill", "margin") and OWN_WORDS.search(clause_of(s.start, s.end, reading.heard))):
        if not member and frames & LIQUID and _bare_number(s, reading) and not any(base(k) == "strength_of" for k in facts):
            loose.append(Loose("#", s.value, "", s.start, s.end, reading.heard[s.start : s.end], s.words))
            return None
        if member:
            by_share = any(base(k) == "share" for k in facts) and not any(base(k) == "strength_of" for k in facts)
            return _as(s, "share" if by_share or is_share(s.start, s.end, reading.heard) else "strength_of", member)
        if frames & LIQUID and "dose" not in s.quantity:
            return _as(s, "blend_strength")
    if s.quantity == "ratio" and member and frames & LIQUID:
        return _as(s, "ratio_of", member)
    if s.quantity == "ratio" and frames & {"salve"} and len(members) == 2:
        wax = _wax_first(members)
        loose.append(Loose("as said", s.value, "1", s.start, s.end, wax[1]))
        return _as(s, "part", wax[0], 1.0)
    if s.quantity == "dose" and member and s.weak:
        return _liquid(s, member, reading, frames, facts)
    return s


def _wax_first(members: Sequence[str]) -> list[str]:
    """ "1 to 5" in a salve is wax to oil, in whatever order they were named."""
    return sorted(members, key=lambda m: "wax" not in m)


def _liquid(s: Said, member: str, reading: Reading, frames: set[str], facts: Mapping[str, Fact]) -> Said | None:
    if s.weak and any(base(k) == "volume" and f.value == s.value for k, f in facts.items()) and re.search(r"\bthe\s*$", reading.heard[: s.start]):
        reading.references.append(Reference("reference", s.start, s.end, s.value))  # "how much could the 320 mL take"
        return None
    if member:
        return _as(s, "have" if is_left(s.start, s.end, reading.heard) and not frames & {"salve"} else "volume", member)
    if s.quantity in ("water", "decoction", "liquid", "eo_base") and not s.weak:
        return s
    if frames & {"formula", "mix", "written"}:
        return _as(s, "blend")
    return s


def _bare_number(s: Said, reading: Reading) -> bool:
    return not s.said_unit and not re.search(r"%|percent|proof|abv", reading.heard[s.start : s.end + 12], re.IGNORECASE)


def _determined(facts: Mapping[str, Fact], members: Sequence[str]) -> bool:
    """Whether the recipe says how much of each there is to the others."""
    return any(all(key_for(q, m) in facts for m in members) for q in ("part", "share", "volume", "weight", "once_volume", "once_weight"))


def _as(s: Said, quantity: str, member: str = "", value: float | None = None) -> Said:
    return replace(s, quantity=quantity, member=member, weak=False, value=s.value if value is None else value)


def _loose_in_recipe(
    figure: Loose, said: list[Said], reading: Reading, batch: Batch, frames: set[str], facts: Mapping[str, Fact], members: Sequence[str], wants: Sequence[str]
) -> list[Said] | None:
    """A figure that no phrase claimed, in a recipe: beside a name it is that ingredient's, by itself it is the whole's."""
    sums = [sum(f.value for k, f in facts.items() if base(k) == q) for q in ("part", "volume", "weight")]
    made = next((s for s in said if s.quantity in COUNTS_OF_IT and not s.member and MADE_BY.search(reading.heard[: s.start])), None)
    if figure.kind == "#" and made is not None and made.value > 0 and WANTED.search(reading.heard[: figure.start]):
        said.remove(made)  # "makes 24 tins …; I need 60"
        reading.references.append(Reference("reference", made.start, made.end, made.value))
        return [_said(figure, "times", "", figure.value / made.value)]
    if figure.kind in ("#", "mL", "g") and any(t and abs(t - figure.value) < 1e-6 for t in sums) and re.search(r"\b(?:per|in|of|out of|every)\s*$", reading.heard[: figure.start]):
        reading.references.append(Reference("reference", figure.start, figure.end, figure.value))  # "50 linden, 30 hawthorn, 20 rose per 100"
        return []
    member = member_beside(figure.start, figure.end, reading, members)
    if member and figure.kind in ("#", "n") and _asks_for(member, figure, reading):
        member = ""
    open_ = [w for w in wants if about(w) and (not member or about(w) == member)]
    if figure.kind in ("#", "n") and open_:
        return [_said(figure, base(open_[0]), about(open_[0]))]
    if figure.kind == ":" and frames & {"salve"} and len(members) == 2:
        wax = _wax_first(members)
        return [_said(figure, "part", wax[0], 1.0), _said(figure, "part", wax[1])]
    if figure.kind == "as said":
        return [_said(figure, "part", figure.text)]
    if member:
        quantity = _of_member(figure, member, reading, frames, facts, members)
        return [_said(figure, quantity, member)] if quantity else None
    if figure.kind == "mL" and frames & LIQUID:
        return [_said(figure, "blend")]
    if figure.kind == "%" and frames & LIQUID:
        return [_said(figure, "blend_strength")]
    if figure.kind in ("g", "oz") and frames & WEIGHED:
        return [_said(figure, "batch")]
    if figure.kind in ("#", "n"):
        return _bare(figure, frames, facts)
    return None


ASKS = re.compile(r"\b(?:how much|how many|which amount|what amount|what volume|how little|most|limit|least)\b", re.IGNORECASE)


def _asks_for(member: str, figure: Loose, reading: Reading) -> bool:
    """"Which amount of decoction would have been right for 35": the figure is what is aimed at, not the decoction's own."""
    return ASKS.search(reading.heard[: figure.start]) is not None


def _of_member(figure: Loose, member: str, reading: Reading, frames: set[str], facts: Mapping[str, Fact], members: Sequence[str]) -> str:
    left = is_left(figure.start, figure.end, reading.heard)
    match figure.kind:
        case "mL":
            return "have" if left and not frames & {"salve"} else "volume"
        case "g" | "oz":
            return "have_weight" if left and _determined(facts, members) else "weight"
        case "%":
            return "share" if is_share(figure.start, figure.end, reading.heard) or key_for("share", member) in facts else "strength_of"
        case ":":
            return "ratio_of"
        case "part":
            return "part"
        case "per" | "money":
            return "price_of"
        case "#" | "n":
            own = [(k, f) for k, f in facts.items() if about(k) == member and base(k) not in ("density_of",)]
            if not own:
                return "part" if any(base(k) == "part" for k in facts) else ""
            if key_for("price_of", member) in facts and figure.value < 5:
                return "price_of"
            return base(min(own, key=lambda kf: abs(kf[1].value - figure.value) if kf[1].value else 1e9)[0])
    return ""


def _bare(figure: Loose, frames: set[str], facts: Mapping[str, Fact]) -> list[Said] | None:
    """"and for a 250?", "had I wanted 25": the whole's volume, or its strength."""
    volumes = [f.value for k, f in facts.items() if base(k) == "volume"]
    if volumes and abs(sum(volumes) - figure.value) < 1e-6 or "blend" in facts and facts["blend"].value == figure.value:
        return [_said(figure, "blend")]
    if "blend_strength" in facts and "bottle_size" not in facts or frames >= {"mix"} and figure.value <= 96:
        return [_said(figure, "blend_strength")]
    if frames & LIQUID and figure.value >= 5 and "price_of" not in {base(k) for k in facts}:
        return [_said(figure, "bottle_size" if "bottle_size" in facts else "blend")]
    if frames & WEIGHED and figure.value >= 5 and not facts.keys() & {"per_cup", "spoon"}:
        return [_said(figure, "batch")]
    return None


def _said(figure: Loose, quantity: str, member: str = "", value: float | None = None) -> Said:
    return Said(quantity, figure.value if value is None else value, figure.start, figure.end, member, figure.said_unit, figure.low, figure.high, None, False, figure.words)


# ── work without ingredients ─────────────────────────────────────────────────────────────────────────────────────────────

# kind of work → what a figure is called there
NAMES_HERE: Mapping[str, Mapping[str, str]] = {
    "vinegar": {"strength": "acidity", "stock_strength": "acidity", "finished_strength": "finished_acidity"},
    "syrup": {"strength": "brix", "finished_strength": "brix", "stock_strength": "brix", "blend_strength": "brix"},
    "tea": {q: "batch" for q in SOME_WEIGHT - {"batch", "liquid", "herb_per_dose"}} | {"herb_per_dose": "per_cup", "times_a_day": "cups_a_day"},
    "dose": {"stock_strength": "strength"},
    "percolation": {"menstruum": "percolate", "pressed": "percolate"},
    "decoction": {"menstruum": "boiled_from", "water": "boiled_from"},
    "glycerite": {"strength": "glycerine", "finished_strength": "finished_glycerine", "stock_strength": "glycerine"},
}


def _renamed_all(said: list[Said], frames: set[str], batch: Batch, reading: Reading) -> None:
    given = {s.key for s in said}
    for i, s in enumerate(said):
        if s.member:
            continue
        new = ""
        for frame, names in NAMES_HERE.items():
            if frame == "tea" and frames & {"syrup", "salve", "oil", "decoction", "vinegar"}:
                continue
            if frame == "decoction" and (frames & {"mix", "syrup", "formula", "written"} or not {"boiled_to", "boiled_off"} & given or "boiled_from" in given):
                continue
            if frame == "dose" and (given | batch.facts.keys()) & {"strength", "herb", "menstruum", "ratio", "stock"}:
                continue
            if frame in frames and not (frames & LIQUID and frame != "syrup"):
                new = new or names.get(s.quantity, "")
        if frames & {"vinegar"} and s.quantity in ("strength", "stock_strength") and "acidity" in (given | batch.facts.keys()) and "finished_acidity" not in given:
            if re.search(r"\b(?:stay|keep|above|at least|end|finish|under|below|drop|reach|get|to)\b", clause_of(s.start, s.end, reading.heard), re.IGNORECASE):
                new = "finished_acidity"
        if s.quantity in ("dose", "pressed", "menstruum") and frames & {"child_rule", "young", "fried"} and "adult_dose" not in given and "adult_dose" not in batch.facts:
            new = "adult_dose"
        if s.quantity in ("menstruum", "bottle_size") and "dose" in frames and s.value <= 15 and "dose" not in (given | batch.facts.keys()) and "other_ratio" in given:
            new = "dose"
        if frames & WEIGHED and s.quantity in ("strength", "stock_strength") and s.value > 100:
            new = "share"
        if frames & {"child_rule", "young", "fried"} and s.quantity in SOME_WEIGHT and 2000 <= s.value <= 150000 and "child_weight" not in given:
            new = "child_weight"
        if "dose" in frames and s.quantity == "herb" and any(a.quantity in ("dose", "daily", "other_dose") for a in reading.asked) and not (given | batch.facts.keys()) & {"menstruum", "bottle_size", "herb_per_day"}:
            new = "herb_per_dose"
        if "percolation" in frames and s.quantity == "strength":
            new = ""
        if s.weak and s.quantity == "menstruum" and "dose" in frames and not new and not {"bottle_size", "ratio"} & given and not batch.facts.keys() & {"herb", "bottle_size", "blend"}:
            if not members_like(batch):
                new = "bottle_size"
        if "glycerite" in frames and s.quantity in SOME_STRENGTH - {"water_content"} and "glycerine_volume" in batch.facts and not batch.facts.keys() & {"glycerine", "menstruum"}:
            new = "glycerine_stock"
        if "essential" in frames and not frames & {"salve"} and s.quantity in SOME_LIQUID | {"bottle_size"} and not {"eo_base", "bottles"} & given:
            new = "eo_base"
        if frames & {"essential", "essential_in_it"} and s.quantity in SOME_STRENGTH and "eo_share" not in given and s.value <= 30:
            new = "eo_share"
        if new and new not in given:
            said[i] = replace(s, quantity=new, weak=False)
            given.add(new)


def members_like(batch: Batch) -> bool:
    return bool(batch.members)


def asked_here(quantity: str, member: str, frames: frozenset[str] | set[str], facts: Mapping[str, Fact]) -> str:
    """What a question about one ingredient asks: "what percent is rose" its share, "how much hawthorn herb a day" its herb."""
    if quantity in ("strength", "stock_strength", "finished_strength", "blend_strength"):
        return "share" if frames & {"tea", "salve", "written"} or key_for("strength_of", member) not in facts and frames & {"formula"} else "strength_of"
    if quantity in ("herb_per_day", "daily"):
        return "herb_a_day_of"
    if quantity in ("herb_per_dose",):
        return "herb_a_dose_of"
    if VOCABULARY[quantity].unit in ("g", "mL") and quantity in SOME_WEIGHT | SOME_LIQUID | {"sugar"}:
        by_weight = frames & {"tea", "salve"} or any(key_for(q, member) in facts for q in ("weight", "once_weight", "have_weight"))
        return "weight" if by_weight else "volume"
    if quantity in ("bottle_cost", "materials"):
        return "cost_of"
    return ""
