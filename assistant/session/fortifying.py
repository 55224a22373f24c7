"""A water extract kept with spirit, and one liquid more tipped into a blend: mixes of which one volume or the strength is looked for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base
from assistant.reply import Reply
from assistant.session.batch import Batch, Fact
from assistant.session.merging import WATERY_MEMBERS
from assistant.session.repeating import again, refer

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

WATERY = looked_for(r"\b(decoctions?|infusions?|teas?|brew|juice|succus|hydrosol|simmered|boiled)\b", re.IGNORECASE)
HOW_MUCH_SPIRIT = looked_for(
    r"\bhow (?:much|many)(?: ml| mls| mL)?(?: more)?(?: of)?(?: the| my| that)? ?"
    r"(?:\d+(?:\.\d+)?\s*%?|spirits?|alcohol|vodka|brandy|gin|rum|everclear)(?=\W|$)"
    r"|\b\d+(?:\.\d+)?\s*%?\s*(?:spirits?|alcohol|vodka|brandy|gin|rum|everclear)\b[^.;?]*\bhow much\b"
    r"|\bhow (?:much|many ml)(?: do| should| must| shall| to)?(?: i| we)? (?:add|put in|tip in|pour in|stir in)\b",
    re.IGNORECASE,
)
# What is kept or brought up, in front of the strength it is to have: "so it keeps at", "to bring it to", "ends up at".
AIM = looked_for(r"\b(?:to|at|reach|hit|keeps?|preserve\w*|around|about|makes?|it|it's|its|is|till|until)\s*(?:a )?$", re.IGNORECASE)
EXTRACTS = ("boiled_to", "decoction")
STRENGTHS = frozenset({"strength", "stock_strength", "finished_strength", "blend_strength", "yield_share"})
VOLUMES = frozenset({"menstruum", "decoction", "spirit_in_hand", "boiled_to", "water", "stock", "in_jar", "pressed"})
OF_A = looked_for(r"^\s*(?:of|at)?\s*(?:a |an |the |my |some )?$", re.IGNORECASE)
OF_WATER = looked_for(r"^\s*(?:of )?(?:the |plain |more |distilled |cold |strong )*(water|decoction|infusion|tea)\b", re.IGNORECASE)
OF_EXTRACT = looked_for(r"^\s*(?:ml )?(?:of )?(?:the |that |my |this )?(?:decoctions?|infusions?|teas?|brew|juice|succus|hydrosol)\b", re.IGNORECASE)
WITH = looked_for(r"\b(?:with|using|from|off|if (?:it's|its|i use|i used)|had)\s+(?:the |my |a |only )*$", re.IGNORECASE)
ADDS = looked_for(r"\b(?:then|now|add\w*|on top|as well|too|also|more|another|plus|and|in with|tip\w*|pour\w*|throw\w*|chuck\w*|stir\w*)\b", re.IGNORECASE)
LEAST, MOST = 1.0, 100.0  # percent


def kept_with_spirit(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "How much 95 to put in the 600 so it keeps at 20 %": spirit added to a decoction, which counts as plain water."""
    told = {s.quantity for s in reading.said}
    if told & {"herb", "ratio"} or reading.ingredients or not HOW_MUCH_SPIRIT.search(reading.heard) or "water" in {a.quantity for a in reading.asked}:
        return None
    batch = session.batch
    known = next((batch.facts[k].value for k in EXTRACTS if k in batch.facts), None) if batch is not None and not batch.members else None
    if not WATERY.search(reading.heard) and known is None:
        return None
    volumes: list[Said | Loose] = [s for s in reading.said if s.quantity in VOLUMES and s.said_unit]
    volumes = volumes or [f for f in reading.loose if f.kind in ("#", "mL") and f.value > MOST and OF_EXTRACT.match(reading.heard[f.end :])]
    if batch is not None and batch.members and not volumes:  # "the decoction" of the mix in hand
        known = next((f.value for k, f in batch.facts.items() if base(k) == "volume" and about(k) in WATERY_MEMBERS and about(k) == _called(reading)), None)
    volume = volumes[0].value if len(volumes) == 1 else known
    if volume is None or len(volumes) > 1:
        return None
    spirits = _percents(reading, volume)
    aimed = [value for value, start in spirits if AIM.search(reading.heard[:start])]
    others = sorted({value for value, _ in spirits} - {aimed[-1]}) if aimed else []
    if not aimed and batch is not None and "stock_strength" in batch.facts:
        return None
    if not aimed or len(others) != 1 or not others[0] > aimed[-1] > 0:
        return None
    extract, spirit = _called(reading), f"{others[0]:g} %"
    facts = {
        f"volume[{extract}]": Fact(volume, "said", session.turn),
        f"strength_of[{extract}]": Fact(0.0, "said", session.turn),
        f"strength_of[{spirit}]": Fact(others[0], "said", session.turn),
        "blend_strength": Fact(aimed[-1], "said", session.turn),
    }
    mix = Batch(frames=frozenset({"mix"}), members=(extract, spirit), wanted=(f"volume[{spirit}]",)).with_facts(facts)
    if batch is not None and known is not None and not batch.members:
        mix = mix.having(name=batch.name, plants=batch.plants)
    refer(answers, reading)
    return again(answers, mix, session.current if known is not None and batch is not None and not batch.members else -1)


def another_spirit(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "And with 95?" of a decoction that is kept with spirit: the other spirit in the place of the first."""
    batch = session.batch
    if batch is None or session.draft is not None or "mix" not in batch.frames or len(batch.members) != 2 or reading.ingredients or reading.liquids:
        return None
    extract, spirit = batch.members
    looked_for_it = f"volume[{spirit}]" in batch.wanted and not set(batch.wanted) - {f"volume[{spirit}]", "stock"}
    if not looked_for_it or "blend_strength" not in batch.facts or batch.facts.get(f"strength_of[{extract}]", Fact(1.0)).value != 0:
        return None
    figures = reading.figures
    if len(figures) != 1 or not _is_strength(figures[0]) or not WITH.search(reading.heard[: figures[0].start]):
        return None
    strength, name = figures[0].value, f"{figures[0].value:g} %"
    if not batch.facts["blend_strength"].value < strength <= MOST:
        return None
    kept = batch.without(f"strength_of[{spirit}]", f"volume[{spirit}]").having(members=(extract, name), wanted=(f"volume[{name}]",))
    refer(answers, reading)
    return again(answers, kept.with_facts({f"strength_of[{name}]": Fact(strength, "said", session.turn)}), session.current)


def _percents(reading: Reading, volume: float) -> list[tuple[float, int]]:
    """The strengths of a sentence with their places: those said as such, bare numbers, and those an act of topping up holds."""
    found = [(f.value, f.start) for f in reading.figures if _is_strength(f) and f.value != volume]
    act = reading.act("top_up") or reading.act("top_up_water")
    if act is not None:
        places = [r for r in reading.references if r.value is not None and act.start <= r.start < act.end]
        found += [(r.value, r.start) for r in places if r.value is not None and r.value in act.figures]
    return sorted({pair for pair in found if LEAST <= pair[0] <= MOST}, key=lambda pair: pair[1])


def _is_strength(figure: Said | Loose) -> bool:
    if isinstance(figure, Said) and figure.quantity == "pressed":
        return not figure.said_unit  # "got 95"
    return figure.quantity in STRENGTHS if isinstance(figure, Said) else figure.kind in ("#", "%")


def _called(reading: Reading) -> str:
    hit = WATERY.search(reading.heard)
    word = hit.group(1).lower().rstrip("s") if hit is not None else "decoction"
    return word if word in WATERY_MEMBERS else "decoction"


def one_more_in(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Then 50 mL of a 90 % one on top, what now": a further liquid in the blend in hand, its strength worked out anew."""
    batch = session.batch
    if batch is None or session.draft is not None or "mix" not in batch.frames or len(batch.members) < 2 or reading.ingredients or reading.liquids:
        return None
    if not all(f"{q}[{m}]" in batch.facts for q in ("volume", "strength_of") for m in batch.members) or not ADDS.search(reading.heard):
        return None
    alone = reading.figures[0] if len(reading.figures) == 1 else None
    if isinstance(alone, Said) and alone.quantity in ("water_content", "water") and OF_WATER.match(reading.heard[alone.end :]):
        return _with_more(session, reading, answers, alone.value, 0.0, "water")  # "now 50 water"
    volumes = [f for f in reading.figures if (f.quantity in (*VOLUMES, "blend", "volume") and f.said_unit if isinstance(f, Said) else f.kind == "mL")]
    if len(volumes) != 1:
        return None
    volume = volumes[0]
    watery = OF_WATER.match(reading.heard[volume.end :])
    if watery is not None and len(reading.figures) == 1:
        return _with_more(session, reading, answers, volume.value, 0.0, watery.group(1).lower())
    behind = [f for f in reading.figures if f.start >= volume.end and f.value > 1 and OF_A.match(reading.heard[volume.end : f.start])]
    if not behind or not 0 < behind[0].value <= MOST or (isinstance(behind[0], Loose) and behind[0].kind not in ("#", "%")):
        return None
    others = [f for f in reading.figures if f is not volume and f is not behind[0] and reading.heard[f.start : f.end].lower() != "one"]
    if others:
        return None
    return _with_more(session, reading, answers, volume.value, behind[0].value, "")


def _with_more(session: Session, reading: Reading, answers: Answers, volume: float, strength: float, called: str) -> Reply:
    batch = session.batch
    assert batch is not None
    same = next((m for m in batch.members if batch.facts[f"strength_of[{m}]"].value == strength), "")
    name = same or called or f"{strength:g} %"
    before = batch.facts[f"volume[{same}]"].value if same else 0.0
    more = {f"volume[{name}]": Fact(before + volume, "said", session.turn), f"strength_of[{name}]": Fact(strength, "said", session.turn)}
    members = batch.members if same else (*batch.members, name)
    refer(answers, reading)
    return again(answers, batch.without("blend", "blend_strength").having(members=members, wanted=("blend_strength",)).with_facts(more), session.current)
