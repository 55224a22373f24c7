"""What a sentence points at: a plan by its name, its alias, its place in the row or its state; a figure by its number; "it" by what was last answered."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.quantities.units import units
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.batch import Batch, Fact
from assistant.session.naming import places_of, same_plant
from assistant.session.year_work import going_on

if TYPE_CHECKING:
    from assistant.session.conversation import Session

PLACES = {"first": 0, "1st": 0, "original": 0, "second": 1, "2nd": 1, "third": 2, "3rd": 2, "fourth": 3, "4th": 3, "last": -1, "latest": -1}
A_PLAN = r"(?:one|batch|plan|jar|lot|tincture|pot|brew|job|version)"
PLACED = re.compile(
    rf"\b(?:the|that|my|our)\s+({'|'.join(PLACES)})\s+{A_PLAN}\b|\bthe\s+(first|second|third|fourth|last)\b(?=\s*[.?!,]|\s*$)"
    rf"|\b(?:{A_PLAN}|number|no\.?)\s+(one|two|three|four|1|2|3|4)\b",
    re.IGNORECASE,
)
OTHER = re.compile(rf"\b(?:the|that|my|our)\s+(?:other|previous|earlier)\s+{A_PLAN}\b|\bthe other\b(?=\s*[.?!,]|\s*$)", re.IGNORECASE)
STATED = re.compile(rf"\bthe\s+(fresh|dried|dry)\s+{A_PLAN}\b", re.IGNORECASE)
NUMBERS = {"one": 0, "1": 0, "two": 1, "2": 1, "three": 2, "3": 2, "four": 3, "4": 3}
ANOTHER = re.compile(
    r"^\W*(?:(?:and|now|then|so|ok|right|also|plus|for|the|a|my|our)\s+)*(?:second|third|fourth|next|another|new|different|other)"
    rf"\s+{A_PLAN[:-1]}|thing)(?:'s|s)?\b",
    re.IGNORECASE,
)


# ── plans ────────────────────────────────────────────────────────────────────────────────────────────────────────────────


def plans_named(reading: Reading, session: Session) -> list[int]:
    """The places of the plans a sentence speaks of, in the order they are named."""
    hits: list[tuple[int, int]] = []
    plans = session.batches
    lowered = reading.heard.lower()
    for i, plan in enumerate(plans):
        if plan.alias and plan.alias.lower() in lowered:
            told = rf"\b{re.escape(plan.alias)}\b" if len(plan.alias) > 2 else rf"\b{A_PLAN}\s+{re.escape(plan.alias)}\b"
            hits += [(m.start(), i) for m in re.finditer(told, reading.heard, re.IGNORECASE)]
    for named in reading.named:
        owners = places_of(named.name, plans)
        exact = [i for i in owners if plans[i].name == named.name]
        owners = exact or owners
        if owners:
            hits.append((named.start, session.current if session.current in owners else owners[-1]))
    for m in PLACED.finditer(reading.heard):
        ordinal = m.group(1) or m.group(2)
        place = PLACES[ordinal.lower()] if ordinal else NUMBERS[m.group(3).lower()]
        if -len(plans) <= place < len(plans) and not (not m.group(1) and len(plans) < 2):
            hits.append((m.start(), place % len(plans)))
    for m in STATED.finditer(reading.heard):
        state = "dried" if m.group(1).lower() != "fresh" else "fresh"
        owners = [i for i, plan in enumerate(plans) if state in plan.tags]
        if len(owners) == 1:
            hits.append((m.start(), owners[0]))
    hits += _by_what_they_are(reading, session)
    if len(plans) > 1:
        for m in OTHER.finditer(reading.heard):
            hits.append((m.start(), other_plan(session)))
    return list(dict.fromkeys(i for _, i in sorted(hits)))


MORE_OR_LESS = re.compile(rf"\bthe\s+(stronger|strongest|weaker|weakest|bigger|biggest|smaller|smallest)\s+{A_PLAN}\b", re.IGNORECASE)
BY_STRENGTH = ("finished_strength", "strength", "blend_strength", "ratio")


def _by_what_they_are(reading: Reading, session: Session) -> list[tuple[int, int]]:
    """ "The stronger one" of two that were laid side by side, "draining" where one of them was drained."""
    plans = session.batches
    if len(plans) < 2 or session.pair is None:
        return []
    pair = [
        i for i, plan in enumerate(plans) if any(plan.title == p.title and dict(plan.facts) == dict(p.facts) and plan.tags == p.tags for p in session.pair[1])
    ]
    hits = []
    for m in MORE_OR_LESS.finditer(reading.heard):
        word = m.group(1).lower()
        keys = BY_STRENGTH if word.startswith(("strong", "weak")) else ("menstruum", "herb", "blend")
        for key in keys:
            sized = [(plans[i].facts[key].value, i) for i in pair if key in plans[i].facts]
            if len(sized) == 2 and sized[0][0] != sized[1][0]:
                most = word.startswith(("strong", "big")) != (key == "ratio")
                hits.append((m.start(), max(sized)[1] if most else min(sized)[1]))
                break
    press = {t for t in reading.tags if t.startswith("press_")}
    if len(press) == 1 and not reading.said:
        owners = [i for i in pair if press <= plans[i].tags]
        if len(owners) == 1 and len(pair) == 2:
            hits.append((0, owners[0]))
    return hits


def other_plan(session: Session) -> int:
    """The plan that was in hand before this one."""
    if session.previous is not None and session.previous != session.current and session.previous < len(session.batches):
        return session.previous
    return session.current - 1 if session.current > 0 else len(session.batches) - 1


def plan_of(reading: Reading, session: Session) -> int | None:
    """The one plan a sentence speaks of, where that is not the one in hand."""
    named = plans_named(reading, session)
    if session.current in named or not named:
        return None
    current = session.batches[session.current] if 0 <= session.current < len(session.batches) else None
    if current is not None and any(n.name in current.members for n in reading.named):
        return None
    return named[0]


THAT_IN = re.compile(
    r"^\W*(?:(?:and|so|then|ok|right)\W+)*(?:how (?:many|much)|what)\b[^.?!]{0,24}\b(?:is|was|does|are|would|makes?|comes?)\b"
    r"[^.?!]{0,8}\b(?:that|it|this|they|those)\b[^.?!]{0,16}[?.!]*\s*$",
    re.IGNORECASE,
)
IN_GRAMS = re.compile(r"\b(?:grams?|g|weight)\b", re.IGNORECASE)
GRAMS_OF = {
    "water_content": "plant_water", "strength": "alcohol_grams", "finished_strength": "alcohol_grams", "alcohol": "alcohol_grams", "brix": "sugar",
}  # fmt: skip


def grams_of_that(session: Session, reading: Reading) -> None:
    """ "How many grams is that?" after a share: what the share comes to. Changes the reading."""
    if session.last is None or reading.said or reading.loose or reading.named or len(reading.asked) > 1:
        return
    if not IN_GRAMS.search(reading.heard) or not THAT_IN.search(reading.heard):
        return
    meant = GRAMS_OF.get(base(session.last_keys[0]), "") if session.last_keys else ""
    if meant in VOCABULARY:
        reading.asked[:] = [Asked(meant, 0, len(reading.heard))]
        reading.acts[:] = [a for a in reading.acts if a.name != "in_unit"]


FOR_IT = re.compile(r"^(.*?)\s+(?:for|of|in|on|with|from)\s+[^.?!,;]*[.?!]*\s*$", re.IGNORECASE)


def ask_before_name(session: Session, reading: Reading) -> None:
    """ "Stock for red", "menstruum of the sage": what stands before a plan's name asks for that of it. Changes the reading."""
    if reading.asked or reading.said or reading.loose or reading.acts or not plans_named(reading, session):
        return
    head = FOR_IT.match(reading.heard)
    if head is not None:
        reading.asked.extend(session.read(head.group(1) + "?").asked)


def begins_another(reading: Reading) -> bool:
    """ "Second batch: 150 g dry nettle", "next one's 150 g": a new plan by its own words."""
    return ANOTHER.search(reading.heard) is not None and bool(reading.said or reading.ingredients or reading.liquids)


CALLING = re.compile(
    r"\b(?:call|called|calling|name|named|label|labelled)\s+(?:this one|that one|this batch|that batch|it|this|that|him|her)"
    r"\s+(?:the\s+|batch\s+)?(?!(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|a hundred|half)\b)([^\W\d_][\w-]*)",  # noqa: E501  (one sentence, or one expression)
    re.IGNORECASE,
)


LABELLED = re.compile(r"^\W*(?:batch|jar|lot|plan|pot)\s+([a-z][\w-]{0,11})\s*:", re.IGNORECASE)


def alias_of(reading: Reading) -> str:
    """The name a sentence gives a plan ("call it red", "batch A: …"), "" where it gives none."""
    found = CALLING.search(reading.heard) or LABELLED.search(reading.heard)
    return found.group(1).lower() if found is not None else ""


def unnamed(text: str, aliases: Sequence[str]) -> str:
    """The sentence without the names people gave their plans, letter for letter: "green" says nothing of the plant there."""
    lowered = text.lower()  # an expression for each of many plans would be dear
    names = {name for a in aliases if len(a) > 2 and (name := a.lower()) in lowered}
    calling = CALLING.search(text)
    if calling is not None and len(calling.group(1)) > 2:
        names.add(calling.group(1).lower())
    for name in names:
        text = re.sub(rf"\b{re.escape(name)}\b", "it".ljust(len(name)), text, flags=re.IGNORECASE)
    return text


SAME = re.compile(r"\bsame\s+(press|squeeze|cloth|pressing|stock|spirit|shelf|strength|ratio|jars?|bottles?|margin)\b", re.IGNORECASE)
SAME_KEYS = {
    "press": ("held_per_gram",), "squeeze": ("held_per_gram",), "cloth": ("held_per_gram",), "pressing": ("held_per_gram",),
    "stock": ("stock_strength",),
    "spirit": ("stock_strength", "strength"), "shelf": ("stock_strength",), "strength": ("strength",), "ratio": ("ratio",),
    "jar": ("jar_size",), "jars": ("jar_size",),
    "bottle": ("bottle_size",), "bottles": ("bottle_size",), "margin": ("margin",),
}  # fmt: skip


def with_the_same(session: Session, reading: Reading, fresh: Batch) -> Batch:
    """A new plan with what the sentence takes over from the one before: "same press", "same ratio"."""
    fresh = going_on(session.batch, reading, fresh)
    if session.last is None:
        return fresh
    facts = {}
    for found in SAME.finditer(reading.heard):
        for key in SAME_KEYS[found.group(1).lower()]:
            value = session.last.value(key)
            if value is not None:
                facts[key] = Fact(value, "said", session.turn)
    return fresh.with_facts(facts) if facts else fresh


# ── figures ──────────────────────────────────────────────────────────────────────────────────────────────────────────────


def size_said(unit: str, measures: str) -> float:
    """Bench units in one of the unit a figure was said in; one where it has none of its own."""
    known = units().spellings.get(unit.lower()) if unit else None
    return known.size(measures) if known is not None else 1.0


PROOF_SIZES = {"US proof": 0.5, "UK proof": 0.5715}


def said_number(fact: Fact, measures: str) -> float:
    """A fact's number as it was said: 4 for 4 oz, 80 for 80 proof."""
    return fact.value / PROOF_SIZES.get(fact.said_unit, size_said(fact.said_unit, measures))


def same_number(fact: Fact, number: float, measures: str) -> bool:
    """Whether a fact is this number, in bench units or as it was said ("4" for 4 oz)."""
    return any(abs(value - number) <= 0.001 * max(abs(number), 1e-9) for value in (fact.value, said_number(fact, measures)))


Figure = Said | Loose
CUE = re.compile(
    r"\b(?:mean|meant|really|actually|not|should|instead|but|rather|wrong|mistake|misread|sorry|oops|said|say|now|turned out|wasn['’]?t|isn['’]?t)\b",
    re.IGNORECASE,
)


def swap(session: Session, reading: Reading) -> None:
    """ "Not 60, 65", "change the 1:2 to 1:3": the second figure takes the place of the first. Changes the reading."""
    if not reading.has("swap") and not reading.has("swap_back"):
        _swap_by_cue(session, reading)
        return
    for act in reading.acts:
        if act.name not in ("swap", "swap_back"):
            continue
        figures = [f for f in reading.figures if act.start <= f.start and f.end <= act.end]
        if len(figures) < 2:
            continue
        old, new = (figures[0], figures[1]) if act.name == "swap" else (figures[1], figures[0])
        key, fact = _holder(session, old)
        if not key:
            _forget(reading, old)
            reading.references.append(_reference(old))
            continue
        _forget(reading, old)
        _forget(reading, new)
        reading.references.append(_reference(old))
        reading.said.append(as_like(new, key, fact, session.measures))


def _swap_by_cue(session: Session, reading: Reading) -> None:
    """ "Did I say 42? I mean 45", "that 68 was with the lid on, really 61": of two figures of a kind the one that stands already is the old one."""
    batch = session.batch
    free = [f for f in reading.figures if isinstance(f, Loose) or f.weak]
    if batch is None or len(free) != 2 or not CUE.search(reading.heard):
        return
    kinds = {f.kind if isinstance(f, Loose) else VOCABULARY[f.quantity].unit for f in free}
    held = [f for f in free if any(same_number(fact, n, session.measures) for fact in batch.facts.values() for n in (f.value, number_of(f)))]
    if len(kinds) != 1 or len(held) != 1:
        return
    old = held[0]
    new = free[1] if old is free[0] else free[0]
    key, fact = _holder(session, old)
    if key:
        _forget(reading, old)
        _forget(reading, new)
        reading.references.append(_reference(old))
        reading.said.append(as_like(new, key, fact, session.measures))


def _reference(figure: Figure) -> Reference:
    return Reference("reference", figure.start, figure.end, figure.value)


def _forget(reading: Reading, figure: Figure) -> None:
    reading.said[:] = [s for s in reading.said if s is not figure]
    reading.loose[:] = [f for f in reading.loose if f is not figure]


def _holder(session: Session, old: Figure) -> tuple[str, Fact | None]:
    """The key that bears this figure: one that was said, else one that was found."""
    batch = session.batch
    if batch is None:
        return "", None
    number = number_of(old)
    said = [k for k, f in batch.facts.items() if same_number(f, old.value, session.measures) or same_number(f, number, session.measures)]
    if isinstance(old, Said) and old.key in said:
        return old.key, batch.facts[old.key]
    if said:
        key = next((k for k in batch.changed if k in said), said[-1])
        return key, batch.facts[key]
    if session.last is not None:
        for key, figure in session.last.solution.figures.items():
            if figure.origin in ("found", "assumed") and abs(figure.value - old.value) <= max(0.5, 0.005 * abs(old.value)):
                return key, None
    return "", None


def number_of(figure: Figure) -> float:
    """A figure's bare number where it has no unit, else its value."""
    return figure.number if isinstance(figure, Loose) and figure.number is not None else figure.value


def as_like(figure: Figure, key: str, like: Fact | None, measures: str) -> Said:
    """A figure as this key's; a bare number is in the unit its like was said in."""
    value, unit = figure.value, figure.said_unit
    if isinstance(figure, Loose) and figure.kind in ("#", "n") and like is not None:
        value, unit = number_of(figure) * size_said(like.said_unit, measures), like.said_unit
    return Said(base(key), value, figure.start, figure.end, about(key), unit, figure.low, figure.high, None, False, figure.words)


# ── results ──────────────────────────────────────────────────────────────────────────────────────────────────────────────

IT = re.compile(
    r"\b(?:it|that|them|those|this|the lot|the whole|the whole lot|whole of it|all of it|all of that|what i get|what comes out|what's left)\b", re.IGNORECASE
)
DRIED = re.compile(r"\b(?:dried|dry|once dry|when dry|dries)\b", re.IGNORECASE)
FRESH_ONLY = (
    "water_content",
    "dried_water",
    "drying_ratio",
    "plant_water",
    "trim_loss",
    "margin",
    "wilted",
    "wilted_water",
    "to_gather",
    "gross",
    "tare",
    "picked",
)


def from_result(session: Session, reading: Reading) -> Batch | None:
    """ "And the whole of it at 1:5?" after a drying question: what it dried to is now the plant that goes in."""
    worked, batch = session.last, session.batch
    if worked is None or batch is None or session.draft is not None or "dried" not in session.last_keys:
        return None
    if ("fresh" not in worked.tags and "fresh" not in batch.tags and "herb" not in batch.facts) or "fresh" in reading.tags:
        return None
    given = {s.quantity for s in reading.said}
    if given & {"herb", "dried", "water_content", "dried_water", "drying_ratio", "picked"} or not given & {"ratio", "menstruum"} or "ratio" in batch.facts:
        return None
    if not (IT.search(reading.heard) or DRIED.search(reading.heard)):
        return None
    dried = worked.value("dried")
    figure = worked.solution.figures.get("dried")
    if dried is None or figure is None or figure.origin != "found":
        return None
    clean = batch.without("herb", "dried", *FRESH_ONLY)
    clean = clean.having(tags=(clean.tags - {"fresh", "wilted"}) | {"dried"}, wanted=())
    reading.tags.discard("fresh")
    return clean.with_facts({"herb": Fact(dried, "said", session.turn)})


OF_THAT = re.compile(r"\b(?:of|from|out of) (?:it|that|this|those|the (?:mix|result|lot|dilution))\b", re.IGNORECASE)


def from_mix(session: Session, reading: Reading) -> Batch | None:
    """ "She takes 960 mL of that and brings it to 30 %": what was made down is now the spirit one starts from."""
    batch = session.batch
    if batch is None or session.draft is not None or batch.members or reading.named or not OF_THAT.search(reading.heard) or session.last is None:
        return None
    said = {s.quantity: s for s in reading.said}
    made = session.last.value("strength")
    volume = said.get("menstruum") or said.get("stock")
    if volume is None or len(said) != 2 or "strength" not in said or made is None or "stock_strength" not in batch.facts or "herb" in batch.facts:
        return None
    if not said["strength"].value < made or reading.heard.find("%") < volume.start:
        return None
    reading.said[:] = [replace(s, quantity="stock", weak=False) if s is volume else s for s in reading.said]
    return Batch(frames=batch.frames, tags=batch.tags, spoken=batch.spoken).with_facts({"stock_strength": Fact(made, "said", session.turn)})


def copied(session: Session, reading: Reading) -> Batch | None:
    """ "The same but dried", "the same with sage, 90 g": a new plan that keeps what was said of the one in hand."""
    batch = session.batch
    if batch is None or session.draft is not None or not reading.has("same") or batch.members:
        return None
    names = [n.name for n in reading.named if not any(same_plant(n.name, own) for own in (batch.name, *batch.plants))]
    state = next((t for t in ("dried", "fresh") if t in reading.tags and t not in batch.tags), "")
    if not names and not (state and batch.tags & {"fresh", "dried"}):
        return None
    copy = batch.having(spoken=frozenset(), alias="")
    if state == "dried" or names:
        gone = [k for k in FRESH_ONLY if k in copy.facts and (state == "dried" or k == "water_content")]
        copy = copy.without(*gone)
    if names:
        copy = copy.having(name=names[0], plants=tuple(dict.fromkeys(names)))
    if state:
        copy = copy.having(tags=(copy.tags - {"fresh", "dried"}) | {state})
    return copy


OF_THE_SHELF = frozenset(
    """strength stock_strength finished_strength dried_water held_per_gram yield_share bottle_size jar_size dose times_a_day margin trim_loss
    rack_loss fill""".split()
)


def same_for(session: Session, reading: Reading) -> tuple[Batch, int] | None:
    """ "Same for the mullein?": a plan that was begun already takes over what was said since and is not of the plant, and is asked the same."""
    current = session.batch
    if current is None or session.draft is not None or not reading.has("same") or reading.said or reading.loose:
        return None
    place = plan_of(reading, session)
    if place is None or not reading.named:
        return None
    plan = carried(session, session.batches[place], sorted(OF_THE_SHELF))
    press = {t for t in current.tags if t.startswith("press_")}
    if press and not any(t.startswith("press_") for t in plan.tags):
        plan = plan.having(tags=plan.tags | press)
    wanted = tuple(k for k in current.wanted if not about(k)) or tuple(base(k) for k in session.last_keys[:1])
    return plan.having(wanted=wanted), place


def carried(session: Session, target: Batch, keys: Sequence[str]) -> Batch:
    """A plan that lacks what is of the shelf and not of the plant (the stock's strength) takes it over from the plan in hand."""
    if session.batch is None:
        return target
    shared = {k: replace(f) for k, f in session.batch.facts.items() if k in keys and k not in target.facts}
    return target.with_facts(shared) if shared else target
