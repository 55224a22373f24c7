"""What a bottle costs. Money is a plain number in whatever coin the person uses."""

from __future__ import annotations

from assistant.relations.craft import practice

RELATIONS = (
    practice("cost of each part", "cost_of[i] = volume[i] * price_of[i]", "Volume times the price of a mL.", "formula"),
    practice("materials of the blend", "materials = sum(cost_of[i])", "All the parts together.", "formula priced"),
    practice("cost of a bottle", "bottle_cost = materials / bottles + empty_bottle", "The materials shared among the bottles filled, plus the empty bottle.", "costed"),
    practice("price at a margin", "selling_price = bottle_cost / (1 - mark_up / 100)", "The cost is what is left of the price when the margin is taken off.", "costed"),
)
