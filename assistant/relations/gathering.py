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
        "gathering !gathers_dried",
    ),
    practice(
        "fresh to gather for dried",
        "to_gather = herb * (1 - dried_water / 100) / (1 - water_content / 100) / (1 - trim_loss / 100) * (1 + margin / 100)",
        "The fresh plant that dries down to the weight needed, divided by the share that is kept after trimming, then the margin.",
        "gathers_dried",
    ),
    practice(
        "bags for what is to be picked",
        "carriers = ceil(to_gather / carrier_holds)",
        "What is to be picked, divided by what one bag or basket holds, up to the next whole one.",
        "carried gathering",
    ),
    practice(
        "bags for what is picked",
        "carriers = ceil(herb / carrier_holds)",
        "The plant there is, divided by what one bag or basket holds, up to the next whole one.",
        "carried !gathering",
    ),
    practice("what they hold", "picked = carriers_had * carrier_holds", "As many bags or baskets, each with what it holds.", "carried"),
    practice("planned menstruum", "planned_menstruum = planned_herb * ratio", "The plan's plant weight times the ratio."),
    practice("beyond the plan", "more_menstruum = (herb - planned_herb) * ratio", "The plant there is beyond the plan, times the ratio.", "over_plan"),
    balance("still to pick", "plant_to_come = planned_herb - herb", "What was planned, less what is in the basket.", "under_plan"),
    balance("plant beyond the plan", "herb_left = herb - planned_herb", "The plant there is, less what the plan needs.", "surplus"),
    balance("menstruum to spare", "spare = planned_menstruum - menstruum", "What was mixed for the plan, less what the plant in hand takes."),
    practice("grams a plant", "gathered_weight = plants_taken * per_plant", "Plants taken times the grams each one gives.", "stand"),
    practice(
        "plants for the batch",
        "plants_taken = ceil(to_gather / per_plant)",
        "What is to be gathered, divided by the grams each plant gives, up to the next whole plant.",
        "plants_sought",
    ),
    practice(
        "what the plants bear", "picked = plants_taken * per_plant", "Plants taken times the grams each one gives is what there is to work with.", "from_stand"
    ),
    practice("what the plants gave", "gathered_weight = herb", "All the plant in hand came from these plants.", "weighed_stand"),
    practice(
        "share of the stand",
        "stand_share = plants_taken / stand_plants * 100",
        "Plants taken out of the plants that stand there.",
        "!share_said !stands_sought",
    ),
    practice(
        "plants in a share", "plants_taken = floor(stand_plants * stand_share / 100)", "The share of the stand, down to the next whole plant.", "share_said"
    ),
    balance("plants left standing", "plants_left = stand_plants - plants_taken", "The plants that stand there, less those taken.", "stand !stands_sought"),
    practice("plants at most", "plants_allowed = floor(stand_plants * share_allowed / 100)", "The share that may go, down to the next whole plant.", "stand"),
    balance("plants too many", "plants_over = plants_taken - plants_allowed", "The plants taken, less those that may go.", "stand"),
    practice("weight at most", "allowed_weight = plants_allowed * per_plant", "The plants that may be taken times the grams each one gives.", "stand"),
    practice(
        "stands like it",
        "stands_needed = ceil(plants_taken / plants_allowed)",
        "Plants needed, divided by the plants that may go from one stand, up to the next whole stand.",
        "stands_sought",
    ),
    practice("as many as may go", "plants_taken = plants_allowed", "With no weight said, as many are taken as the share allows.", "as_allowed"),
    practice(
        "the stand it takes",
        "stand_plants = ceil(plants_taken / share_allowed * 100)",
        "Plants taken, divided by the share that may go, up to the next whole plant.",
        "stand_sought",
    ),
)
