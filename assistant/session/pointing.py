"""What a sentence points at: a plan by its name, its alias, its place in the row or its state; "that" by what was last answered."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.session.batch import STATES, Batch, Fact
from assistant.session.year_work import going_on

if TYPE_CHECKING:
    from assistant.session.conversation import Session

PLACES = {"first": 0, "1st": 0, "original": 0, "second": 1, "2nd": 1, "third": 2, "3rd": 2, "fourth": 3, "4th": 3, "last": -1, "latest": -1}
A_PLAN = r"(?:one|batch|plan|jar|lot|tincture|pot|brew|job|version)"
PLACED = looked_for(
    rf"\b(?:the|that|my|our)\s+({'|'.join(PLACES)})\s+{A_PLAN}\b|\bthe\s+(first|second|third|fourth|last)\b(?=\s*[.?!,]|\s*$)"
    rf"|\b(?:{A_PLAN}|number|no\.?)\s+(one|two|three|four|1|2|3|4)\b",
    re.IGNORECASE,
)
OTHER = looked_for(rf"\b(?:the|that|my|our)\s+(?:other|previous|earlier)\s+{A_PLAN}\b|\bthe other\b(?=\s*[.?!,]|\s*$)", re.IGNORECASE)
STATED = looked_for(rf"\bthe\s+(fresh|dried|dry)\s+{A_PLAN}\b", re.IGNORECASE)
NUMBERS = {"one": 0, "1": 0, "two": 1, "2": 1, "three": 2, "3": 2, "four": 3, "4": 3}
ANOTHER = looked_for(
    r"^\W*(?:(?:and|now|then|so|ok|right|also|plus|for|the|a|my|our)\s+)*(?:second|third|fourth|next|another|new|different|other)"
    rf"\s+{A_PLAN[:-1]}|thing)(?:'s|s)?\b",
    re.IGNORECASE,
)


def plans_named(reading: Reading, session: Session) -> list[int]:
    """The places of the plans a sentence speaks of, in the order they are named."""
    hits: list[tuple[int, int]] = []
    plans = session.batches
    lowered = reading.heard.lower()
    for alias, places in plans.aliases:
        if alias.lower() in lowered:
            told = rf"\b{re.escape(alias)}\b" if len(alias) > 2 else rf"\b{A_PLAN}\s+{re.escape(alias)}\b"
            hits += [(m.start(), i) for m in re.finditer(told, reading.heard, re.IGNORECASE) for i in places]
    for named in reading.named:
        owners = plans.of_plant(named.name)
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


MORE_OR_LESS = looked_for(rf"\bthe\s+(stronger|strongest|weaker|weakest|bigger|biggest|smaller|smallest)\s+{A_PLAN}\b", re.IGNORECASE)
BY_STRENGTH = ("finished_strength", "strength", "blend_strength", "ratio")


def _by_what_they_are(reading: Reading, session: Session) -> list[tuple[int, int]]:
    """ "The stronger one" of two that were laid side by side, "draining" where one of them was drained."""
    plans = session.batches
    if len(plans) < 2 or session.pair is None:
        return []
    turns = list(MORE_OR_LESS.finditer(reading.heard))
    press = {t for t in reading.tags if t.startswith("press_")}
    drained = len(press) == 1 and not reading.said
    if not turns and not drained:
        return []
    pair = [
        i for i, plan in enumerate(plans) if any(plan.title == p.title and dict(plan.facts) == dict(p.facts) and plan.tags == p.tags for p in session.pair[1])
    ]
    hits = []
    for m in turns:
        word = m.group(1).lower()
        keys = BY_STRENGTH if word.startswith(("strong", "weak")) else ("menstruum", "herb", "blend")
        for key in keys:
            sized = [(plans[i].facts[key].value, i) for i in pair if key in plans[i].facts]
            if len(sized) == 2 and sized[0][0] != sized[1][0]:
                most = word.startswith(("strong", "big")) != (key == "ratio")
                hits.append((m.start(), max(sized)[1] if most else min(sized)[1]))
                break
    if drained:
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


THAT_IN = looked_for(
    r"^\W*(?:(?:and|so|then|ok|right)\W+)*(?:how (?:many|much)|what)\b[^.?!]{0,24}\b(?:is|was|does|are|would|makes?|comes?)\b"
    r"[^.?!]{0,8}\b(?:that|it|this|they|those)\b[^.?!]{0,16}[?.!]*\s*$",
    re.IGNORECASE,
)
IN_GRAMS = looked_for(r"\b(?:grams?|g|weight)\b", re.IGNORECASE)
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
        reading.let_go("in_unit")


FOR_IT = looked_for(r"^(.*?)\s+(?:for|of|in|on|with|from)\s+[^.?!,;]*[.?!]*\s*$", re.IGNORECASE)


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


CALLING = looked_for(
    r"\b(?:call|called|calling|name|named|label|labelled)\s+(?:this one|that one|this batch|that batch|it|this|that|him|her)"
    r"\s+(?:the\s+|batch\s+)?(?!(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|a hundred|half)\b)([^\W\d_][\w-]*)",  # noqa: E501  (one sentence, or one expression)
    re.IGNORECASE,
)


LABELLED = looked_for(r"^\W*(?:batch|jar|lot|plan|pot)\s+([a-z][\w-]{0,11})\s*:", re.IGNORECASE)


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


THE_BALM = looked_for(r"(?<=\b(?:the|our)\s)balm(?=\W|$)(?!\s+of\s+gilead\b)|(?<=\bmy\s)balm\b|\bbalm(?='s\b|’s\b)", re.IGNORECASE)


def as_the_plant(text: str, batch: Batch | None) -> str:
    """The sentence with "the balm" as the plant, letter for letter, where lemon balm or another balm is in hand and no salve."""
    if batch is None or "salve" in batch.frames or len(batch.members) > 1 or not any(name.split()[-1:] == ["balm"] for name in (batch.name, *batch.members)):
        return text
    return THE_BALM.sub("herb", text)


SAME = looked_for(r"\bsame\s+(press|squeeze|cloth|pressing|stock|spirit|shelf|strength|ratio|jars?|bottles?|margin)\b", re.IGNORECASE)
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
    if facts and session.batch is not None and not reading.named and not reading.tags & STATES:
        fresh = fresh.having(tags=fresh.tags | (session.batch.tags & STATES))  # "next one 250 g, same press": the same herb, dried as before
    return fresh.with_facts(facts) if facts else fresh
