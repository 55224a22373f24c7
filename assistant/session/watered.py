"""Water put to what is there: "and if i top it to a litre with water", "add 300 water", how strong it is then."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Ingredient, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.reply import Reply
from assistant.session.lifting import pools, with_more
from assistant.session.repeating import again, refer

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

UP_TO = looked_for(
    r"\b(?:top|topped|topping|make|made|making|bring|bringing|brought|fill|filled|filling|take|let|let down)\s+"
    r"(?:(?:it|that|this|them|the lot|the mix|both|all)\s+)?(?:all\s+)?(?:up |out |down )?to\s+(?:a |an |about |the )?$",
    re.IGNORECASE,
)
ADDED = looked_for(
    r"\b(?:add|adding|added|put|pour|plus|with|another|extra|splash)\s+(?:in |on |to it |it )?(?:another |about |an? |some |extra |of )?$", re.IGNORECASE
)
WITH_WATER = looked_for(
    r"^\s*(?:mls?|l|lit(?:re|er)s?|more|extra)?\s*(?:(?:up )?(?:with|by adding|of|from)\s+)?(?:the |plain |distilled |cold |clean )*water\b", re.IGNORECASE
)
OTHER = looked_for(r"\b(?:vinegar|syrup|honey|sugar|glycerine?|oil|tea|decoction|boil|ratio|fresh|dried|content|brix)\b", re.IGNORECASE)
MORE = looked_for(r"\b(?:add\w*|another|extra|more)\b", re.IGNORECASE)
WATER = "water"


def watered(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The strength once so much water is in, or it is made up to so much; None for any other sentence, or where nothing strong is in hand."""
    batch, worked = session.batch, session.last
    if batch is None or worked is None or reading.ingredients or reading.named or OTHER.search(reading.heard) or len(reading.figures) != 1:
        return None
    figure = reading.figures[0]
    behind, before = reading.heard[figure.end :], reading.heard[: figure.start]
    whole = UP_TO.search(before) is not None
    if not _is_volume(figure) or not WITH_WATER.match(behind) or not (whole or ADDED.search(before)):
        return None
    if WATER in batch.members and not whole and not MORE.search(reading.heard):
        return None  # "with 300 water": instead of what was told
    if "herb" in batch.facts and not {"pressed", "racked"} & set(session.last_keys):
        return None  # more water on a plant is another menstruum
    told, sought = ("blend", f"volume[{WATER}]") if whole else (f"volume[{WATER}]", "blend")
    for have, now in pools(session, worked):
        if whole and figure.value <= have:
            continue
        refer(answers, reading)
        mixed = with_more(batch, (have, now), (WATER, 0.0), {told: figure.value}, ("blend_strength", sought), session.turn)
        return again(answers, mixed, session.current)
    return None


CUT_BY = looked_for(
    r"(?P<strong>\d+(?:\.\d+)?)\s*%?\s*(?:spirit |alcohol |vodka |brandy )?(?:cut |diluted |let down |mixed |and water |by )*"
    r"(?:at )?(?P<one>\d+(?:\.\d+)?)\s*(?::|/| to )\s*"
    r"(?P<other>\d+(?:\.\d+)?)\s*(?:with |in |and |by |spirit to )?water\b",
    re.IGNORECASE,
)
WEAKEST_SPIRIT, STRONGEST_SPIRIT = 15.0, 97.0  # percent


def cut_by_parts(reading: Reading) -> None:
    """ "Dilute 95 1:1 with water, what %": so many parts of the spirit to so many of water. Changes the reading."""
    cut = CUT_BY.search(reading.heard) if WATER in reading.heard.lower() else None
    if cut is None or reading.named or any(not cut.start() <= f.start < cut.end() for f in reading.figures):
        return
    strong = float(cut["strong"])
    if not WEAKEST_SPIRIT <= strong <= STRONGEST_SPIRIT:
        return
    reading.said.clear()
    reading.loose.clear()
    reading.ingredients[:] = [
        Ingredient(f"{strong:g} %", (("part", float(cut["one"]), *cut.span("one")), ("strength_of", strong, *cut.span("strong"))), *cut.span("strong")),
        Ingredient(WATER, (("part", float(cut["other"]), *cut.span("other")), ("strength_of", 0.0, 0, 0)), *cut.span("other")),
    ]
    reading.frames -= {"maybe_dilution", "dilution"}
    reading.frames.add("listed")
    reading.asked[:] = [Asked("blend_strength", 0, 0)]  # of all of it, whatever the word beside the question


SO_MUCH_OF = (
    r"(?P<{v}>\d+(?:\.\d+)?)\s*(?P<{u}>mls?|l|lit(?:re|er)s?)?"
    r"\s*(?:of (?:the |my )?|at |@ )(?P<{s}>\d+(?:\.\d+)?)\s*(?:%|percent)?\s*(?:spirit|vodka|brandy|alcohol|one)?"
)
TOGETHER = looked_for(
    r"\b(?:tip(?:ped)?|pour(?:ed)?|mix(?:ed)?|stir(?:red)?|add(?:ed)?|chuck(?:ed)?|put|got|combined?|blend(?:ed)?)\b[^.;?\d]{0,16}"
    + SO_MUCH_OF.format(v="one", u="unit_one", s="strong_one")
    + r"\s*,?\s*(?:in(?:to)?|with|w|and|plus|onto?|to)(?:\s+(?:in|with|w|with the|the|my))*\s+"
    + SO_MUCH_OF.format(v="two", u="unit_two", s="strong_two"),
    re.IGNORECASE,
)
LITRE = 1000.0  # mL
SO_MANY_TOLD = 4  # two volumes, two strengths


def two_poured_together(reading: Reading) -> None:
    """ "Tipped 700 mL of 40 % in with 300 of 96": so much of each, and no strength to be reached. Changes the reading."""
    hit = TOGETHER.search(reading.heard) if len(reading.numbers) >= SO_MANY_TOLD else None
    if hit is None or len(reading.liquids) == 2 or reading.named or reading.ingredients or any(not hit.start() <= f.start < hit.end() for f in reading.figures):
        return
    lines = [
        Ingredient(
            f"{float(hit[f'strong_{n}']):g} %",
            (
                ("volume", float(hit[n]) * (LITRE if (hit[f"unit_{n}"] or "").lower().startswith("l") else 1), *hit.span(n)),
                ("strength_of", float(hit[f"strong_{n}"]), *hit.span(f"strong_{n}")),
            ),
            *hit.span(n),
        )
        for n in ("one", "two")
    ]
    all_mixed(reading, lines)
    reading.asked[:] = [Asked("blend_strength", 0, 0), Asked("blend", 0, 0)]


def all_mixed(reading: Reading, lines: Sequence[Ingredient]) -> None:
    """The whole sentence tells of these liquids put together, and of no dilution. Changes the reading."""
    reading.said.clear()
    reading.loose.clear()
    reading.liquids[:] = lines
    reading.frames -= {"maybe_dilution", "dilution"}
    reading.frames.add("mix")


def _is_volume(figure: Said | Loose) -> bool:
    if isinstance(figure, Said):
        return figure.quantity in ("menstruum", "blend", "pressed", "stock", "water", "bottle_size", "in_jar", "spirit_in_hand", "jar_size", "water_added")
    return figure.kind in ("mL", "#")
