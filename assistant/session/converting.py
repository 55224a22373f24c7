"""Units turned into one another by the way: "what's a pint in mL" disturbs no batch."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.dataclass import dataclass, replace
from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.units import Unit, of_liquid, units
from assistant.quantities.vocabulary import VOCABULARY
from assistant.reply import Reply, Step, Value
from assistant.session.instruments import at_hand
from assistant.session.repeating import refer
from assistant.session.wording import number

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

# Words a question about units may be made of; any other word means something else is asked.
FILLER = frozenset(
    """what what's whats is are in to into as a an the of me please there there's make makes made how many much convert
    converted turn how's quick one question by way oh and or er um just tell give does do equal equals come comes that's that out
    like i mean again about call it be would be say for work worked at on my reckoned us
    imperial british american uk u.s metric fluid liquid so hang right then now ok which number that'd would if expressed put same thing""".split()
)
PROOF_WORDS = {
    "percent": "percent",
    "per cent": "percent",
    "abv": "percent",
    "proof": "proof",
    "degrees": "",
    "strength": "percent",
    "vol": "percent",
    "%": "percent",
    "percentage": "percent",
    "alcohol": "",
}
CELSIUS = {"celsius": "C", "centigrade": "C", "fahrenheit": "F", "c": "C", "f": "F", "°c": "C", "°f": "F"}
US_PROOF, UK_PROOF = 2.0, 100 / 57.15
PROOFS = {"US proof": 1 / US_PROOF, "UK proof": 1 / UK_PROOF}
DROPS = 20.0
AGAIN = frozenset("other another says reads bottle it's label one second next degrees degree proof old new marked".split())
WORD = looked_for(r"[^\W\d_]+(?:['’][^\W\d_]+)?|%|°\s?[cf]\b", re.IGNORECASE)
AMERICAN = looked_for(r"\b(?:us|usa|american|america)\b", re.IGNORECASE)
ASKS = looked_for(r"\b(?:what|what's|whats|how many|how much|convert|turn)\b|\?", re.IGNORECASE)


Target = Unit | str


@dataclass(frozen=True, slots=True)
class Conversion:
    """What was last turned into another unit: at which turn, from which unit said, to which, and what came of it in bench units."""

    turn: int
    said_unit: str
    target: Target
    value: float
    unit: str
    country: str


def converted(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The reply to a question that is nothing but a change of unit, None for any other sentence."""
    figures: list[Said | Loose] = [*reading.said, *reading.loose]
    if len(figures) != 1 or reading.named or reading.ingredients or reading.liquids:
        return None
    figure = figures[0]
    if isinstance(figure, Said) and figure.quantity == "cup_size" and not figure.said_unit:
        return None  # "cups of 150, how many?"
    heard = reading.heard
    words = [m.group().lower().replace("’", "'") for part in (heard[: figure.start], heard[figure.end :]) for m in WORD.finditer(part)]
    target, left = _target(words)
    country = _country(heard, session.measures)
    before = session.conversion
    if target is None and before is not None and before.turn == session.turn - 1 and session.draft is None and not reading.asked:
        return _another(session, reading, answers, figure, left)
    is_proof = target == "percent" and "proof" in figure.said_unit and reading.asked
    if (
        target is None
        or (not is_proof and any(w not in FILLER for w in left))
        or not (ASKS.search(heard) or " in " in heard.lower() or " to " in heard.lower())
    ):
        return None
    return _reply(session, reading, answers, figure, target, country)


def _another(session: Session, reading: Reading, answers: Answers, figure: Said | Loose, left: Sequence[str]) -> Reply | None:
    """ "And 100 degrees?", "the other one says 86": the same change of unit once more."""
    before = session.conversion
    assert before is not None
    if any(w not in FILLER and w not in AGAIN for w in left):
        return None
    if isinstance(figure, Loose) and figure.kind in ("#", "n", "C"):
        number_said = figure.number if figure.number is not None else figure.value
        size = PROOFS.get(before.said_unit)
        if size is None:
            known = units().spellings.get(before.said_unit.lower())
            size = known.size(before.country) if known is not None else 1.0
        figure = Said(
            "stock_strength" if before.unit == "percent" else "menstruum" if before.unit == "mL" else "herb",
            number_said * size,
            figure.start,
            figure.end,
            said_unit=before.said_unit,
        )
    if before.said_unit == "UK proof" and figure.said_unit == "US proof" and not AMERICAN.search(reading.heard):
        figure = replace(figure, value=figure.value * US_PROOF / UK_PROOF, said_unit="UK proof")  # whose proof it is was said before
    return _reply(session, reading, answers, figure, before.target, before.country)


def _reply(session: Session, reading: Reading, answers: Answers, figure: Said | Loose, target: Target, country: str) -> Reply | None:
    answer = _answer(figure, target, country, reading.heard)
    if answer is None:
        return None
    text, working, value, count = answer
    refer(answers, reading)
    session.conversion = Conversion(session.turn, figure.said_unit, target, value[0], value[1], country)
    quantity = figure.quantity if isinstance(figure, Said) else "conversion"
    values = [Value(quantity=quantity, value=value[0], unit=value[1], origin="found", text=text)]
    if count is not None:
        named = ("proof_uk" if _is_uk(figure.said_unit, reading.heard) else "proof_us") if target == "proof" else "count"
        values.append(Value(quantity=named, value=count, unit="1", origin="found", text=number(count, "mL")))
    step = Step(quantity=quantity, value=value[0], unit=value[1], relation="unit", says="The same amount in another unit.", working=working)
    return answers.reply("answered", text, values=tuple(values), steps=(step,))


def _target(words: Sequence[str]) -> tuple[Target | None, list[str]]:
    """The unit asked for among the words beside the figure, and the words that are left."""
    known = units().spellings
    found: Target | None = None
    left: list[str] = []
    at = 0
    while at < len(words):
        pair = " ".join(words[at : at + 2])
        if pair == "per cent":
            words = [*words[:at], "percent", *words[at + 2 :]]
        if found is None and pair in known:
            found, at = known[pair], at + 2
        elif found is None and (words[at] in known and words[at] not in ("in", "a")):
            found, at = known[words[at]], at + 1
        elif (found is None or found == "percent") and PROOF_WORDS.get(words[at]):
            found, at = PROOF_WORDS[words[at]], at + 1
        elif found is None and words[at] in CELSIUS:
            found, at = CELSIUS[words[at]], at + 1
        else:
            if PROOF_WORDS.get(words[at]) is None and words[at] not in ("degrees", "degree"):
                left.append(words[at])
            at += 1
    return found, left


def _country(heard: str, measures: str) -> str:
    low = heard.lower()
    if re.search(r"\b(?:imperial|british|uk|english)\b", low):
        return "imperial"
    if re.search(r"\b(?:american|us|u\.s)\b", low):
        return "us"
    return "metric" if "metric" in low else measures


def drops_in_hand() -> float:
    """Drops to the mL of the person's own dropper, where one was counted; else the usual 20."""
    own = next((i for i in at_hand() if i.kind == "dropper" and i.per_ml), None)
    return DROPS if own is None or not own.per_ml else own.per_ml


def _answer(figure: Said | Loose, target: Target, measures: str, heard: str) -> tuple[str, str, tuple[float, str], float | None] | None:
    """(text, working, (value, bench unit), how many of the unit asked for)."""
    said = heard[figure.start : figure.end]
    unit = VOCABULARY[figure.quantity].unit if isinstance(figure, Said) else {"oz": "g", "%": "percent", "C": "degC"}.get(figure.kind, figure.kind)
    value = figure.value
    if isinstance(target, Unit):
        bench = target.bench
        if bench == "mL" and unit == "g" and figure.said_unit.lower().startswith(("oz", "ounce")):
            unit, value = "mL", of_liquid(value, measures)  # "4 ounces in mL": an ounce of liquid
        if bench == "g" and target.name == "ounce" and unit == "mL":
            target, bench = units().by_name["fluid_ounce"], "mL"
        if bench == "drop" and unit == "mL":
            drops = drops_in_hand()
            return (
                f"{said} is {number(value * drops, 'drop')} drops, at {drops:g} drops to the mL.",
                f"{number(value, 'mL')} mL × {drops:g}",
                (value * drops, "drop"),
                value * drops,
            )
        if bench == "mL" and unit == "drop":
            unit, value = "mL", value / drops_in_hand()
        if bench != unit:
            return None
        size = target.size(measures)
        count = value / size
        shown = f"{count:.4g}" if abs(count) < 1000 else number(count, "mL")
        return f"{said} is {shown} {target.shown}.", f"{number(value, unit)} {unit} ÷ {size:.6g} {unit} = {shown} {target.shown}", (value, unit), count
    if target in ("percent", "proof") and unit in ("percent", "degC"):
        return _strength(figure, said, value, target, heard)
    if target in ("C", "F") and unit == "degC":
        other = value * 9 / 5 + 32
        text = f"{said} is {value:.4g} °C." if target == "C" else f"{said} is {other:.4g} °F."
        return text, f"{value:.4g} °C × 9/5 + 32 = {other:.4g} °F", (value, "degC"), other if target == "F" else None
    return None


def _is_uk(said_unit: str, heard: str) -> bool:
    """Whose proof is meant: the United States' unless it is said otherwise."""
    return said_unit == "UK proof" or re.search(r"\b(?:uk|british|imperial|english|sikes)\b", heard, re.IGNORECASE) is not None


def _strength(figure: Said | Loose, said: str, value: float, target: str, heard: str) -> tuple[str, str, tuple[float, str], float | None] | None:
    is_uk = _is_uk(figure.said_unit, heard)
    if target == "percent" or "proof" in figure.said_unit:
        if "proof" not in figure.said_unit:
            return None
        return f"{said} is {number(value, 'percent')} % alcohol by volume.", f"{said} = {number(value, 'percent')} %", (value, "percent"), None
    factor = UK_PROOF if is_uk else US_PROOF
    proof = value * factor
    kind = "UK" if is_uk else "US"
    return f"{said} is {number(proof, 'mL')} {kind} proof.", f"{number(value, 'percent')} % × {factor:.4g} = {number(proof, 'mL')}", (value, "percent"), proof
