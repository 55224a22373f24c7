"""What the marc keeps and what comes out. mL, mL per gram of dry matter, percents."""

from __future__ import annotations

from assistant.relations.craft import balance, practice

RELATIONS = (
    practice("held back", "held_back = dry_matter * held_per_gram", "The marc keeps so many mL for each gram of dry matter."),
    balance("pressed", "pressed = in_jar - held_back", "What is in the jar, less what the marc keeps."),
    practice("yield", "pressed = in_jar * yield_share / 100", "The yield is the share of the liquid in the jar that comes out."),
    balance("lost in pressing", "yield_share = 100 - press_loss", "What is not lost comes back."),
    practice(
        "herb over both pressings",
        "herb_per_ml = herb / pressed",
        "Poured on twice: all the herb over all the liquid that came out, at most.",
        "over_marc",
    ),
    balance("lost in racking", "racked = pressed - rack_lost", "What was pressed, less what stays behind with the sediment."),
    practice("racking", "racked = pressed * (1 - rack_loss / 100)", "What is left after settling or filtering."),
    practice("both on the same herb", "all_herb = herb", "Macerated twice, the plant is counted once.", "double !in_turn !own_fresh !other_fresh"),
    practice(
        "all herb over all liquid",
        "herb_per_ml = all_herb / all_out",
        "Both macerations together: all the herb over all the liquid that came out, at most.",
        "double",
    ),
)
