"""Percolation: powder packed in a cone, menstruum let through it until the wanted volume has dripped. mL, g, mL a minute, hours.

Here the ratio is plant to the percolate that comes out, as the old official tinctures were made up to the mark; what the powder holds is
poured on top of that. A 1:1 sets its first, strong portion aside and boils the weak rest down to fill the mark.
"""

from __future__ import annotations

from assistant.relations.craft import balance, practice

USP_P = "USP 9, Tinctures, process P, as quoted: percolate to the mark, drop by drop"

RELATIONS = (
    practice(
        "percolate at the ratio", "percolate = herb * ratio", "A ratio of 1 to R is one gram of powder to R mL of what drips through.", "percolation", USP_P
    ),
    practice("held by the powder", "powder_holds = herb * held_per_gram", "The packed powder keeps so many mL for each gram.", "percolation"),
    balance("menstruum for the percolate", "menstruum = percolate + powder_holds", "What is to drip through, and what the powder keeps.", "percolation"),
    balance("hours of dripping", "drip_hours = percolate / drip_rate / 60", "The percolate at so many mL a minute.", "percolation"),
    practice("drops a minute", "drip_drops = drip_rate * drops_per_ml", "So many drops make a mL.", "percolation"),
    practice("drip for the weight", "drip_rate = drip_per_kilo * herb / 1000", "So many mL a minute for each kilogram of powder.", "percolation"),
    practice(
        "first portion set aside", "set_aside = percolate * set_aside_share / 100", "The first, strong share of the wanted volume is set aside.", "percolation"
    ),
    balance("room for the rest", "boil_down_to = percolate - set_aside", "The weaker rest is boiled down to what is missing to the mark.", "percolation"),
)
