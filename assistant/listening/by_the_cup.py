"""A plant measured in cups or spoons: "1 cup dried nettle in a quart of water". It is no liquid, and has no fixed weight, so it is asked about."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.pieces import Piece

KITCHEN = ("cup", "mug", "tbsp", "tablespoon", "tsp", "teaspoon", "spoon", "pint", "quart", "gill")
LEADS = frozenset(
    """of a the my heaped heaping level rounded packed tightly loosely chopped shredded crumbled crushed powdered ground rubbed sifted cut whole loose
    good full generous ripe organic""".split()
)
STATE = frozenset("fresh dried dry".split())
PARTS = frozenset("herb herbs leaf leaves petals flowers flower blossoms berries root roots bark seed seeds needles buds rosehips hips".split())
# Behind the plant: then it is what was made of it, and a liquid.
MADE = frozenset(
    """tincture tinctures extract infusion decoction tea oil syrup juice vinegar glycerite honey water elixir cordial fluid fluidextract infused macerated
    wine brandy tisane succus percolate butter salve""".split()
)
POURED = frozenset("water oil vinegar vodka brandy spirit alcohol honey glycerine glycerin".split())
# Somebody weighs the measure, or counts it to the cup: then it is told.
TELLS = frozenset("weighs weigh weighed".split())


def with_plants_by_the_cup(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with every kitchen measure of a plant marked as one (`<herbcup>`), which no phrase takes for a volume.

    A measure of what was made of the plant ("2 cups of calendula oil") stays a volume, and so does one whose weight the sentence tells.
    """
    codes = [p.code for p in pieces]
    if TELLS & set(codes):
        return list(pieces)
    poured = bool(POURED & set(codes))
    return [
        replace(p, code="<herbcup>") if p.code in ("<mL>", "<cup>") and _is_kitchen(p) and _of_a_plant(codes, i + 1, poured=poured) else p
        for i, p in enumerate(pieces)
    ]


def _is_kitchen(piece: Piece) -> bool:
    return piece.item is not None and piece.item.said_unit.startswith(KITCHEN)


def _of_a_plant(codes: Sequence[str], at: int, *, poured: bool) -> bool:
    """Whether what stands behind the measure is a plant as it grows or dries: a plant or a part of one, and nothing made of it."""
    told, state, named = at, False, False
    while told < len(codes) and (codes[told] in LEADS | STATE | PARTS or codes[told] == "@"):
        state = state or codes[told] in STATE | PARTS
        named = named or codes[told] == "@" or codes[told] in PARTS
        told += 1
    behind = codes[told] if told < len(codes) else ""
    to_the_cup = [t for t in codes[told : told + 3] if t not in ("to", "for", "per", "a", "the", "each", "every")]
    if not named or behind in MADE:
        return False
    if codes[at - 1] != "<cup>" and to_the_cup[:1] in (["<cup>"], ["cup"], ["mug"]):
        return False  # "2 tsp dried chamomile a cup": spoons to the cup
    return state or poured
