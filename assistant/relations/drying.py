"""Fresh to dried and back: dry matter stays, water goes. Grams and percents."""

from __future__ import annotations

from assistant.relations.craft import balance, practice

RELATIONS = (
    practice("plant water", "plant_water = herb * water_content / 100", "The plant's own water is its fresh weight times its water content.", "fresh"),
    balance("dry matter", "dry_matter = herb * (1 - water_content / 100)", "What is not water is dry matter.", "fresh"),
    practice("dried herb counts as dry matter", "dry_matter = herb", "A dried herb is taken as dry matter as it is weighed.", "dried"),
    practice("a plant of which no water is known", "dry_matter = herb", "Nothing said of a fresh plant: its weight is taken as dry matter.", "plain"),
    balance(
        "drying",
        "dried * (1 - dried_water / 100) = dry_matter",
        "The dry matter is the same before and after; the dried herb keeps a little water.",
        "fresh !by_drying_ratio",
    ),
    practice("drying ratio", "herb = dried * drying_ratio", "So many grams fresh make one gram dried.", "fresh"),
    balance("water dried off", "water_lost = herb - dried", "What the plant lost on the rack is water.", "fresh"),
    balance("loss in drying", "water_lost = herb * drying_loss / 100", "What was lost, as a share of the fresh weight.", "fresh"),
    practice("what drying leaves", "dried = herb * (1 - drying_loss / 100)", "What is not lost in drying is the dried herb.", "by_drying_loss"),
    balance("water still to dry off", "water_to_lose = wilted - dried", "What the scale shows now, less what it dries down to.", "fresh !drying"),
    balance(
        "wilting",
        "wilted * (1 - wilted_water / 100) = dry_matter",
        "Wilting takes water and leaves the dry matter as it was.",
        "fresh",
    ),
)
