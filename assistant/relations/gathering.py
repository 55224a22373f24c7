"""From what is needed to what is picked, and from the scale to the clean plant. Grams, percents, counts."""

from __future__ import annotations

from assistant.relations.craft import balance, practice

RELATIONS = (
    balance("net weight", "picked = gross - tare", "What the scale shows, less the empty bag or basket."),
    practice("trimming", "herb = picked * (1 - trim_loss / 100)", "Of what was picked, the share lost as stalks and spoiled leaf is taken off."),
    practice(
        "to gather",
        "to_gather = herb / (1 - trim_loss / 100) * (1 + margin / 100)",
        "Divide what is needed by the share that is kept after trimming, then add the margin.",
        "gathering",
    ),
    practice("planned menstruum", "planned_menstruum = planned_herb * ratio", "The plan's plant weight times the ratio."),
    balance("menstruum to spare", "spare = planned_menstruum - menstruum", "What was mixed for the plan, less what the plant in hand takes."),
    practice("grams a plant", "gathered_weight = plants_taken * per_plant", "Plants taken times the grams each one gives.", "stand"),
    practice("share of the stand", "stand_share = plants_taken / stand_plants * 100", "Plants taken out of the plants that stand there."),
)
