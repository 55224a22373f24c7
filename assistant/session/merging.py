"""What a sentence does to a batch: which figures replace which, where a loose figure belongs, whether a new job begins."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from assistant.dataclass import dataclass, field, replace
from assistant.listening.statements import Loose, Reading, Said
from assistant.listening.tags import TagsHeard, keep
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base, key_for
from assistant.session.added_on import added_on
from assistant.session.asked_for import asked_keys
from assistant.session.batch import STATES, Batch, Fact
from assistant.session.checks import wrong_with
from assistant.session.frames import relation_tags
from assistant.session.naming import same_plant, settled
from assistant.session.oil_strained import goes_on_as_salve
from assistant.session.placing import place_loose, place_weak
from assistant.session.proportions import proportions
from assistant.session.recipes import lay_recipe
from assistant.session.regimens import lay_regimen
from assistant.session.shifting import difference_to, more_of, other_way_round
from assistant.session.stepping import lay_stepping
from assistant.session.taken_out import taken_out
from assistant.session.work import CHILD_RULES, Work, renamed
from assistant.session.works import settle
from assistant.session.year_work import another_work

CONTINUES = ("whatif", "correct", "same", "scale", "scale_n", "scale_first", "scale_dose", "in_unit", "gap", "shrink", "drop_share", "undo", "first", "why")
BOTH_WAYS = looked_for(r"by (?:volume|ml|mls) and (?:by |in )?(?:weight|grams|g)\b|by (?:weight|grams) and (?:by |in )?(?:volume|ml|mls)\b", re.IGNORECASE)
WEIGHED_OUT = looked_for(r"\b(?:oz|ounces?|g|grams?|lbs?|pounds?)\b[^,;.:\d]*\bby weight\b ?(?=[,;.])[^:]*\b(?:1 ?: ?\d|one to|1 to)", re.IGNORECASE)
RECIPE_WORK = frozenset({"tea", "salve", "formula", "cost"})
SHOULD_HAVE = looked_for(
    r"\b(?:should|ought|would|could|must) (?:i|we) (?:to )?(?:have|'ve)? ?(?:pour|used?|start|tak|put|bought|buy|need|want)", re.IGNORECASE
)
RATIOS = frozenset({"ratio", "ratio_by_weight", "dry_ratio"})
INFANT_MONTHS = 24
OF_DRYING = frozenset({"dried", "dry_matter", "dry_ratio", "drying_ratio"})
MOST_SLACK = 0.02  # "1 litre" is not half a litre to two: nobody pours so
FRAME_GROUPS = {"dilution", "mix", "oil", "salve", "syrup", "vinegar", "glycerite", "tea", "formula", "essential"}
# On a clash with what was said before, the older figure that gives way: what is poured gives way to a new plant weight, and so on.
GIVES_WAY = (
    "pressed",
    "racked",
    "to_bottle",
    "yield_share",
    "held_per_gram",
    "finished_strength",
    "in_jar",
    "herb_per_ml",
    "held_back",
    "contents",
    "dry_matter",
    "dried",
    "stock",
    "water",
    "menstruum",
    "to_gather",
    "gross",
    "picked",
    "herb",
    "blend",
    "batch",
    "volume",
    "weight",
    "bottles",
    "tins",
    "jars",
    "daily",
    "dose_drops",
    "dose",
    "strength",
    "glycerine",
    "share",
    "part",
    "ratio",
    "stock_strength",
    "water_content",
)


WHOLES = frozenset({"bottle_size", "bottles", "blend", "batch", "times"})  # a new one asks for amounts, whatever was asked before
# Two ways of setting the same thing: what is said now takes the place of the other, said before.
RIVALS = {
    "finished_strength": "strength", "strength": "finished_strength", "finished_glycerine": "glycerine", "glycerine": "finished_glycerine",
    "yield_share": "held_per_gram",
    "rack_loss": "rack_lost",
    "rack_lost": "rack_loss",
    "held_per_gram": "yield_share",
    "mark_up": "on_cost",
    "on_cost": "mark_up",
    "dose": "dose_drops",
    "dose_drops": "dose",
    "honey": "honey_volume",
    "honey_volume": "honey",
    "boiled_share": "boiled_off_share",
    "boiled_off_share": "boiled_share",
    "times": "count_wanted",
    "count_wanted": "times",
    "sugar_times": "brix",
    "brix": "sugar_times",
    "finished_acidity": "acidity_wanted",
    "growth": "fall",
    "fall": "growth",
    "ratio": "dry_ratio",
    "dry_ratio": "ratio",
} | {"drip_rate": "drip_drops", "drip_drops": "drip_rate"}


@dataclass
class Merged:
    """What came of laying a sentence over a batch."""

    batch: Batch
    used: list[tuple[int, int, str]] = field(default_factory=list)  # (start, end, quantity)
    unplaced: list[Loose] = field(default_factory=list)
    bad: list[tuple[str, Said | None, str]] = field(default_factory=list)  # (key, said, what is wrong)
    doubled: list[tuple[str, list[float]]] = field(default_factory=list)
    new_keys: set[str] = field(default_factory=set)
    replaced: dict[str, float] = field(default_factory=dict)
    asked: tuple[str, ...] = ()  # what this very sentence asks


def _strength_meant(said: list[Said], batch: Batch, wants: Sequence[str]) -> None:
    """A strength said where a finish was asked for, in a batch that bears no strength poured, is the finish."""
    if "finished_strength" in wants and "strength" not in batch.facts and not any(s.quantity == "finished_strength" for s in said):
        for i, s in enumerate(said):
            if s.quantity == "strength":
                said[i] = renamed(s, "finished_strength")


def fact_of(said: Said, turn: int) -> Fact:
    """A figure of a sentence as a fact; a range ("75 to 85 %") is its middle, give or take half of it."""
    give_or_take = said.plus_minus
    if give_or_take is None and said.low is not None and said.high is not None:
        give_or_take = (said.high - said.low) / 2
    slack = 0.0 if VOCABULARY[said.quantity].unit == "1" else min(max(said.slack, _slack(said.value)), MOST_SLACK * abs(said.value))
    origin = "measured" if said.said_unit == "calendar" else "said"
    return Fact(said.value, origin, turn, said.said_unit, give_or_take, said.low, said.high, slack, said.words, said.tool)


def _keep_slacks(reading: Reading, facts: dict[str, Fact]) -> None:
    """The ± of the figures of a recipe or a mix, which are laid down by their values alone."""
    if not reading.slacks:
        return
    for one in (*reading.ingredients, *reading.liquids):
        for quantity, value, start, _ in one.figures:
            key = key_for(quantity, one.name) if VOCABULARY[quantity].indexed else quantity
            fact = facts.get(key)
            if fact is not None and fact.plus_minus is None and fact.value == value and start in reading.slacks:
                facts[key] = replace(fact, plus_minus=reading.slacks[start] * abs(value))


def _slack(value: float) -> float:
    """Half of the last digit a person would have said: 112 → 0.5, 62.5 → 0.05; nothing for small whole numbers, which are exact."""
    text = f"{value:.6g}"
    if "e" in text:
        return abs(value) * 0.005
    if "." in text:
        return 0.5 * 10 ** -len(text.split(".")[1]) if len(text.split(".")[1]) <= 3 else 0.0
    return 0.5 if abs(value) >= 20 else 0.0


def begins_anew(reading: Reading, batch: Batch, _batches: Sequence[Batch]) -> bool:
    """Whether a sentence opens a new job: a new plant with figures, or a kind of work that shares nothing with the one in hand."""
    if not batch.facts and not batch.members:
        return False
    told = {s.quantity for s in reading.said}
    if another_work(reading.frames, batch.frames) and (reading.said or reading.ingredients):
        return True  # the year's work is a job of its own
    if "essential" in reading.frames - batch.frames and "eo_share" in told and told & {"eo_base", "menstruum", "bottle_size"}:
        return True  # essential oil in a volume of its own
    if any(reading.has(a) for a in CONTINUES):
        return False
    if "essential" in reading.frames and "salve" in batch.frames and told <= {"eo_share", "strength"}:
        return False  # "1 % lavender eo" of a comfrey salve
    names = [n.name for n in reading.named]
    recipe = reading.ingredients or reading.liquids
    if recipe and len(reading.ingredients) + len(reading.liquids) >= 2:
        known = set(batch.members)
        if "honey_to_vinegar" in batch.facts and not known and {i.name.split()[-1] for i in reading.ingredients} == {"honey", "vinegar"}:
            return False  # an oxymel by other parts
        if not known and batch.frames & RECIPE_WORK and not any(s.quantity in ("batch", "blend", "bottle_size", "menstruum", "herb") for s in reading.said):
            return False  # the tea was reckoned by its cups: now come the herbs that go in
        if goes_on_as_salve(reading, batch):
            return False
        return not known & {i.name for i in (*reading.ingredients, *reading.liquids)}
    figures = [s for s in reading.said if not s.weak]
    if settled(batch.plants, names) != batch.plants:
        return False  # "snakeroot", then "the black cohosh": which of the plants of that name
    if names and batch.name and not any(same_plant(names[0], own) for own in (batch.name, *batch.plants)) and names[0] not in batch.members:
        return bool(reading.said)
    state, own = reading.tags & STATES, batch.tags & STATES
    if names and state and own and not state & own and {"herb", "ratio"} <= {s.quantity for s in reading.said}:
        return True  # "fresh sage, 250 g, 1:2" after the dried: another jar of the same plant
    frames = reading.frames & FRAME_GROUPS
    return bool(frames and not frames & batch.frames and batch.frames & FRAME_GROUPS and len(figures) >= 2)


def lay_over(batch: Batch, reading: Reading, turn: int, wants: Sequence[str]) -> Merged:
    """The batch with a sentence laid over it."""
    merged = Merged(batch)
    frames = (set(batch.frames) - reading.left) | reading.frames
    if reading.frames & CHILD_RULES:
        frames -= CHILD_RULES - reading.frames  # "what does Clark make of it": one rule of thumb at a time
    of_drying = {a.quantity for a in reading.asked} & OF_DRYING or any(a.name == "set" and a.arguments[:1] == ("dried_water",) for a in reading.acts)
    fresh_in_hand = {"herb", "water_content"} <= batch.facts.keys() or "drying_ratio" in batch.facts
    if "dried" in reading.tags and fresh_in_hand and (of_drying or any(s.quantity == "dried" for s in reading.said)):
        reading.tags.discard("dried")  # "what is that in dried herb?": the plant in hand is still fresh
    heard = TagsHeard(frozenset(reading.tags), frozenset(reading.denied), frozenset(reading.passing))
    held, denied = keep(batch.tags, batch.denied, heard)
    tags = set(held)
    if any(t.startswith("press_") for t in reading.tags):
        facts_without = {"held_per_gram", "yield_share"} - {s.quantity for s in reading.said}
        batch = batch.without(*facts_without)  # another way of pressing holds back its own
        tags -= {t for t in tags if t.startswith("press_")} - reading.tags
    facts = dict(batch.facts)
    members = list(batch.members)
    name, plants = batch.name, settled(batch.plants, [n.name for n in reading.named])
    if plants != batch.plants and name == batch.plants[0]:
        name = plants[0]
    if reading.named and not (len(reading.ingredients) >= 2 or len(reading.liquids) >= 2) and not batch.members and (not name or reading.has("same")):
        name, plants = reading.named[0].name, tuple(dict.fromkeys(n.name for n in reading.named))
    lay_recipe(reading, frames, facts, members, turn, merged)
    lay_regimen(reading, frames, tags, facts, members, turn, merged)
    lay_stepping(reading, frames, facts, members, turn, merged)
    taken_out(reading, facts, members, merged.new_keys, turn)
    other_way_round(reading, facts, members, merged.new_keys, turn)
    more_of(reading, facts, members, merged.new_keys, turn)
    said, loose = list(reading.said), list(reading.loose)
    settle(said, loose, Work(reading, batch, frames, facts, members, wants))
    for key in [k for k in facts if k in reading.freed]:
        del facts[key]
    _strength_meant(said, batch, () if "neat" in reading.tags or any(a.quantity == "finished_strength" for a in reading.asked) else wants)
    before = dict(facts)
    place_weak(said, batch, wants)
    place_loose(loose, said, batch, reading, wants, merged)
    said = added_on(said, before, reading)
    by_key: dict[str, list[Said]] = {}
    for s in said:
        by_key.setdefault(s.key, []).append(s)
        merged.used.append((s.start, s.end, s.quantity))
    for key, sayings in by_key.items():
        values = list(dict.fromkeys(round(s.value, 9) for s in sayings))
        chosen = sayings[0]
        if len(values) > 1:
            merged.doubled.append((key, values))
        fault = wrong_with(key, chosen.value)
        if fault:
            merged.bad.append((key, chosen, fault))
            continue
        if key in facts and abs(facts[key].value - chosen.value) > 1e-9:
            merged.replaced[key] = facts[key].value
        facts.pop(key, None)
        facts[key] = fact_of(chosen, turn)
        merged.new_keys.add(key)
    difference_to(reading, facts, members, merged.new_keys, merged.replaced, turn)
    if "dropperfuls" in merged.new_keys:
        facts.pop("dose", None)  # counted in dropperfuls from here on
        facts.pop("dose_drops", None)
    elif merged.new_keys & {"dose", "dose_drops"}:
        facts.pop("dropperfuls", None)
    for key in list(merged.new_keys):
        rival = RIVALS.get(key)
        if rival is not None and rival not in merged.new_keys:
            facts.pop(rival, None)
    _keep_slacks(reading, facts)
    _implied_tags(tags, facts, reading, frames, merged)
    if merged.new_keys & RATIOS:
        for key in RATIOS - merged.new_keys:
            facts.pop(key, None)  # one ratio at a time: "1:5 by weight, I should have said"
    proportions(reading, frames, facts, members, merged.new_keys, turn)
    for old in ("ratio", "menstruum"):  # "what ratio would get it to 60?": the old one is what is looked for
        if "finished_strength" in merged.new_keys and old in facts and old not in merged.new_keys and any(a.quantity == old for a in reading.asked):
            del facts[old]
    if SHOULD_HAVE.search(reading.heard):
        for key in [k for k in asked_keys(reading, members, frames, facts) if k in facts and k not in merged.new_keys]:
            del facts[key]  # "what strength should I have poured?": what was poured is what is looked for
    asked = tuple(dict.fromkeys(asked_keys(reading, members, frames, facts)))
    merged.asked = asked
    merged.batch = batch.having(
        name=name,
        plants=plants,
        frames=frozenset(frames),
        tags=frozenset(tags),
        denied=frozenset(denied),
        facts=facts,
        members=tuple(members),
        wanted=asked or (() if merged.new_keys & WHOLES and {base(w) for w in batch.wanted} <= {"share"} else _wanted_of_all(batch, members)),
        changed=tuple(k for k in facts if k in merged.new_keys) or batch.changed,
    )
    return merged


def _wanted_of_all(batch: Batch, members: Sequence[str]) -> tuple[str, ...]:
    """What was asked of every ingredient is asked of one that has come in as well."""
    whole = {base(k) for k in batch.wanted if about(k) and all(f"{base(k)}[{m}]" in batch.wanted for m in batch.members)}
    new = [f"{q}[{m}]" for q in sorted(whole) for m in members if m not in batch.members]
    return (*batch.wanted, *new)


def _implied_tags(tags: set[str], facts: dict[str, Fact], reading: Reading, frames: set[str], merged: Merged) -> None:
    tags |= reading.tags & {"double", "over_marc", "marc_again", "own_fresh", "other_fresh"}
    if "water_content" in merged.new_keys and "dried" not in reading.tags:
        tags.discard("dried")
        tags.add("fresh")
    if merged.new_keys & {"water_content", "dried_per_day"}:
        tags.add("fresh")
    if "child_months" in merged.new_keys and facts["child_months"].value < INFANT_MONTHS:
        tags |= {"infant", "child"}
    if {"herb", "dried"} <= facts.keys() and merged.new_keys & {"herb", "dried"} and not facts.keys() & {"ratio", "menstruum", "planned_herb"}:
        tags.discard("dried")
        tags.add("fresh")  # so much went in to dry, so much came out
    if {"fresh", "dried"} <= tags and "fresh" in reading.tags and "dried" in reading.tags:
        tags.discard("dried")
    let_down = "strength" in merged.new_keys and "stock_strength" in facts and facts["stock_strength"].value != facts["strength"].value
    if let_down or "neat" in reading.denied:
        tags.discard("neat")
    if {"planned_herb", "herb", "menstruum"} <= merged.new_keys and "ratio" not in merged.new_keys and "ratio" not in facts:
        facts["planned_menstruum"] = facts.pop("menstruum")  # the plan's pour; the plant in hand gets its own
        merged.new_keys -= {"menstruum"}
        merged.new_keys.add("planned_menstruum")
    if (
        {"spirit_in_hand", "stock_strength"} <= facts.keys()
        and not facts.keys() & {"herb", "planned_herb", "menstruum", "stock", "ratio"}
        and not members_named(reading)
    ):
        facts["stock"] = facts.pop("spirit_in_hand")  # nothing to pour it on was said: all of it is made up
        merged.new_keys = {("stock" if k == "spirit_in_hand" else k) for k in merged.new_keys}
    if BOTH_WAYS.search(reading.heard):
        tags.discard("by_weight")  # "how much oil, by volume and by weight?" asks for both, and says nothing of the ratio
    if "by_weight" in tags and "ratio" in merged.new_keys and WEIGHED_OUT.search(reading.heard):
        tags.discard("by_weight")  # "4 oz comfrey by weight, oil 1:5": the ounces are of weight, the ratio is as ever
    if "by_weight" in tags and "ratio" in merged.new_keys and "ratio_by_weight" not in facts and not frames & {"salve", "tea", "formula"}:
        facts["ratio_by_weight"] = facts.pop("ratio")
        merged.new_keys.discard("ratio")
        merged.new_keys.add("ratio_by_weight")
    if "by_volume" in reading.tags and "ratio_by_weight" in facts and "ratio" not in facts and not any(a.quantity == "ratio" for a in reading.asked):
        facts["ratio"] = facts.pop("ratio_by_weight")
        tags.discard("by_weight")
        merged.new_keys.add("ratio")
    if any(a.quantity == "dried_equivalent" for a in reading.asked):
        tags.discard("dry_basis")  # "dried equivalent g per mL?": what is asked for, not how the ratio counts
    if "dry_basis" in tags and "ratio" in merged.new_keys and "dry_ratio" not in facts:
        facts["dry_ratio"] = facts.pop("ratio")
        merged.new_keys.discard("ratio")
        merged.new_keys.add("dry_ratio")


WATERY_MEMBERS = ("decoction", "infusion", "water", "tea")


def members_named(reading: Reading) -> bool:
    return bool(reading.ingredients or reading.liquids)


def gives_way(keys: Iterable[str], new: Iterable[str], batch: Batch) -> str | None:
    """Of figures that clash, the older one that gives way to what was just said: what is asked for first, then what follows from the rest."""
    fresh = set(new)
    older = [k for k in keys if k not in fresh]

    def rank(key: str) -> tuple[int, int, int]:
        if key in batch.wanted or (about(key) and about(key) in WATERY_MEMBERS and base(key) == "volume"):
            return (0, 0, 0)
        place = GIVES_WAY.index(base(key)) if base(key) in GIVES_WAY else len(GIVES_WAY)
        return (1, place, 0)

    return min(older, key=rank, default=None)


__all__ = ["Merged", "begins_anew", "gives_way", "lay_over", "relation_tags", "wrong_with"]
