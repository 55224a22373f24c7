"""The page of words: every quantity, its unit, and the names it answers to; made from the vocabulary, never written by hand."""

import textwrap

from assistant.quantities.quantity import Quantity
from assistant.quantities.vocabulary import VOCABULARY
from assistant.render import NO_WRAPPING

UNIT_IN_WORDS = {
    "g": "grams", "mL": "millilitres", "g/mL": "grams per millilitre", "mL/g": "millilitres per gram", "percent": "percent",
    "drop": "drops", "day": "days", "1": "a plain number", "degC": "degrees Celsius",
}  # fmt: skip


def page(width: int = 76) -> str:
    """The page as text, at most `width` columns wide (NO_WRAPPING for one line a quantity)."""
    head = f"Every quantity gallipot knows ({len(VOCABULARY)}): its name, its unit, and what else you can call it."
    return "\n".join([*_laid(head, width, ""), "", *(line for q in VOCABULARY.values() for line in _entry(q, width))])


def _entry(quantity: Quantity, width: int) -> list[str]:
    unit = UNIT_IN_WORDS.get(quantity.unit, quantity.unit)
    each = ", one for each ingredient" if quantity.indexed else ""
    also = [name for name in dict.fromkeys((*quantity.spoken, quantity.name.replace("_", " "))) if name != quantity.caption]
    if width == NO_WRAPPING:
        return [f"{quantity.caption}: {unit}{each}" + (f"; also {', '.join(also)}" if also else "")]
    return [*_laid(f"{quantity.caption} ({unit}{each})", width, ""), *(_laid(", ".join(also), width, "    ") if also else [])]


def _laid(text: str, width: int, indent: str) -> list[str]:
    if width == NO_WRAPPING:
        return [text]
    return textwrap.wrap(text, width, initial_indent=indent, subsequent_indent=indent + ("  " if not indent else ""))
