"""What a bottle costs. Money is a plain number in whatever coin the person uses; prices are per mL or per g."""

from __future__ import annotations

from assistant.relations.craft import practice

RELATIONS = (
    practice("cost of each part", "cost_of[i] = volume[i] * price_of[i]", "Volume times the price of a mL.", "priced priced_by_volume"),
    practice("cost of each weight", "cost_of[i] = weight[i] * price_of[i]", "Weight times the price of a gram.", "priced priced_by_weight"),
    practice("materials in all", "materials = sum(cost_of[i])", "All of it together.", "priced"),
    practice("cost of a mL", "cost_per_ml = materials / blend", "The materials shared among the mL they make.", "formula priced"),
    practice(
        "cost of a bottle of the blend",
        "bottle_cost = cost_per_ml * bottle_size + empty_bottle + labour_each",
        "What is in the bottle, plus the bottle itself and the work.",
        "formula priced",
    ),
    practice(
        "cost of a bottle at so much a litre",
        "bottle_cost = cost_per_ml * bottle_size + empty_bottle + labour_each",
        "What is in the bottle at its cost a mL, plus the bottle itself and the work.",
        "costed by_the_litre",
    ),
    practice("cost of so many bottles", "batch_cost = bottles * bottle_cost", "What one costs, so many times.", "costed by_the_litre"),
    practice("the blend is one bottle", "bottle_size = blend", "All of it goes into one bottle.", "one_bottle"),
    practice("labour on each tin", "labour_each = labour / tins", "The work shared among the tins filled.", "costed salve"),
    practice("labour on each bag", "labour_each = labour / bags", "The work shared among the bags filled.", "costed !salve bagged"),
    practice("labour on each", "labour_each = labour / bottles", "The work shared among the bottles filled.", "costed !salve !bagged"),
    practice(
        "cost of a tin",
        "bottle_cost = materials / tins + empty_bottle + labour_each",
        "The materials shared among the tins filled, plus the empty tin and the work.",
        "costed salve",
    ),
    practice(
        "cost of a bag",
        "bottle_cost = materials / bags + empty_bottle + labour_each",
        "The materials shared among the bags filled, plus the empty bag and the work.",
        "costed !salve bagged",
    ),
    practice(
        "cost of all the bags",
        "batch_cost = materials + bags * empty_bottle + labour",
        "The materials, the bags and the work.",
        "costed !salve bagged",
    ),
    practice(
        "cost of a bottle",
        "bottle_cost = materials / bottles + empty_bottle + labour_each",
        "The materials shared among the bottles filled, plus the empty bottle and the work.",
        "costed !blend_costed !salve !cost_said !bagged !by_the_litre",
    ),
    practice(
        "cost of the batch",
        "batch_cost = materials + bottles * empty_bottle + labour",
        "The materials, the bottles and the work.",
        "costed !blend_costed !unbottled !bagged !by_the_litre",
    ),
    practice("cost of what is not bottled", "batch_cost = materials + labour", "The materials and the work.", "costed unbottled"),
    practice(
        "price at a margin",
        "selling_price = bottle_cost / (1 - mark_up / 100)",
        "The cost is what is left of the price when the margin is taken off.",
        "costed !unbottled",
    ),
    practice(
        "price of the batch at a margin",
        "selling_price = batch_cost / (1 - mark_up / 100)",
        "The cost is what is left of the price when the margin is taken off.",
        "costed unbottled",
    ),
    practice(
        "price with a mark-up",
        "selling_price = bottle_cost * (1 + on_cost / 100)",
        "A mark-up is a share of the cost, laid on top of it.",
        "costed !unbottled",
    ),
    practice(
        "price of the batch with a mark-up",
        "selling_price = batch_cost * (1 + on_cost / 100)",
        "A mark-up is a share of the cost, laid on top of it.",
        "costed unbottled",
    ),
    practice(
        "spirit used is what was measured",
        "stock_used = stock",
        "Spirit that went into the jar is used, whether it comes out of the marc or not.",
        "costed unit_prices stock_is_used",
    ),
    practice(
        "spirit used as it comes",
        "stock_used = menstruum",
        "Poured as it was bought: what is poured is what is used.",
        "costed unit_prices poured_as_bought",
    ),
    practice(
        "materials from price and amount",
        "materials = herb * herb_price + stock_used * spirit_price",
        "The herb at its price a gram, the spirit at its price a mL.",
        "costed unit_prices !spirit_alone",
    ),
    practice(
        "spirit at its price",
        "materials = stock_used * spirit_price",
        "What is used of the spirit at its price a mL; water costs nothing.",
        "costed spirit_alone",
    ),
    practice(
        "left of the price",
        "left_each = selling_price * (1 - commission / 100) - bottle_cost",
        "The price less what the shop keeps of it, less what it cost to make.",
        "commission",
    ),
)
