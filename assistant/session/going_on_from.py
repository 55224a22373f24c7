"""A plan made of what was last answered: "and the whole of it at 1:5", "30 mL of that", "the same for the yarrow"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base
from assistant.session.batch import Batch, Fact
from assistant.session.naming import same_plant
from assistant.session.pointing import plan_of

if TYPE_CHECKING:
    from assistant.session.conversation import Session

IT = looked_for(
    r"\b(?:it|that|them|those|this|the lot|the whole|the whole lot|whole of it|all of it|all of that|what i get|what comes out|what's left)\b", re.IGNORECASE
)
BARE_RATIO = looked_for(r"^\W*(?:and |so |then |ok )*(?:at |in |with )?(?:a )?1\s*:\s*[\d.]+[^\d:]{0,25}$", re.IGNORECASE)
DRIED = looked_for(r"\b(?:dried|dry|once dry|when dry|dries)\b", re.IGNORECASE)
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
    key = next((k for k in ("left_dried", "dried") if k in session.last_keys), None)
    if worked is None or batch is None or session.draft is not None or key is None:
        return None
    if ("fresh" not in worked.tags and "fresh" not in batch.tags and "herb" not in batch.facts) or "fresh" in reading.tags:
        return None
    given = {s.quantity for s in reading.said}
    if given & {"herb", "dried", "water_content", "dried_water", "drying_ratio", "picked"} or not given & {"ratio", "menstruum"} or "ratio" in batch.facts:
        return None
    if not (IT.search(reading.heard) or DRIED.search(reading.heard) or (key == "left_dried" and BARE_RATIO.match(reading.heard))):
        return None
    dried = worked.value(key)
    figure = worked.solution.figures.get(key)
    if dried is None or figure is None or figure.origin != "found":
        return None
    clean = batch.without("herb", "planned_herb", "dried", *FRESH_ONLY)
    clean = clean.having(tags=(clean.tags - {"fresh", "wilted"}) | {"dried"}, wanted=())
    reading.tags.discard("fresh")
    return clean.with_facts({"herb": Fact(dried, "said", session.turn)})


OF_THAT = looked_for(r"\b(?:of|from|out of) (?:it|that|this|those|the (?:mix|result|lot|dilution))\b", re.IGNORECASE)


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


def _only_the_state(reading: Reading, batch: Batch) -> bool:
    """ "What if dried?", of a plant that is poured on: the same jar with the plant in its other state."""
    figures = reading.said or reading.loose or reading.ingredients or reading.liquids
    poured = batch.facts.keys() & {"ratio", "menstruum", "ratio_by_weight"}
    return bool(not figures and not reading.asked and not reading.named and poured and reading.tags & {"dried", "fresh"} and STATE_ONLY.match(reading.heard))


STATE_ONLY = looked_for(
    r"^\W*(?:and |so |or |n |hm |hmm |ok |but )*(?:what if|if|what about|with|how about|and|using|from)?"
    r"(?: i| it| they)?(?: it's|'s|s| was| were| is| are| use| used| had)*"
    r"(?: the| all)?\s*(?:dried|dry|fresh)(?: herb| leaf| root| stuff| instead| ones)*\W*$",
    re.IGNORECASE,
)


def copied(session: Session, reading: Reading) -> Batch | None:
    """ "The same but dried", "the same with sage, 90 g": a new plan that keeps what was said of the one in hand."""
    batch = session.batch
    if batch is None or session.draft is not None or batch.members or not (reading.has("same") or _too(reading) or _only_the_state(reading, batch)):
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


TOO = looked_for(r"\b(?:too|as well|also|likewise|the same way|while i'?m at it)\b", re.IGNORECASE)


def _too(reading: Reading) -> bool:
    """ "Do the mugwort too, 90 g": another plant with its weight alone, done as the one in hand."""
    return {s.quantity for s in reading.said} == {"herb"} and not reading.loose and len(reading.named) == 1 and TOO.search(reading.heard) is not None


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


SAME_QUESTION = looked_for(r"\bsame (?:question|thing|again)\b|\bditto\b|\bsame for\b", re.IGNORECASE)


def same_question(session: Session, reading: Reading) -> None:
    """ "400 g fresh at 1:2, same question": what was asked last is asked of the new figures. Changes the reading."""
    if session.draft is None and session.last_keys and reading.said and not reading.asked and SAME_QUESTION.search(reading.heard):
        reading.asked += [Asked(base(k), 0, 0, about(k)) for k in session.last_keys[:1]]


def carried(session: Session, target: Batch, keys: Sequence[str]) -> Batch:
    """A plan that lacks what is of the shelf and not of the plant (the stock's strength) takes it over from the plan in hand."""
    if session.batch is None:
        return target
    shared = {k: replace(f) for k, f in session.batch.facts.items() if k in keys and k not in target.facts}
    return target.with_facts(shared) if shared else target
