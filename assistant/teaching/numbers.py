"""Figures for practice: such as a person meets at the bench, easy on the eye. In the bench unit of each quantity."""

from __future__ import annotations

import random

from assistant.quantities.vocabulary import VOCABULARY, base

BY_UNIT = {
    "g": (20, 25, 30, 40, 50, 60, 75, 80, 90, 100, 120, 150, 180, 200, 240, 250, 300, 350, 400, 500),
    "mL": (50, 60, 75, 80, 100, 120, 150, 180, 200, 240, 250, 300, 350, 400, 450, 500, 600, 750),
    "percent": (5, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 75, 80),
    "1": (2, 3, 4, 5, 6, 8, 10, 12),
    "g/mL": (0.2, 0.25, 0.4, 0.5),
    "mL/g": (0.8, 1, 1.2, 1.5, 2, 2.5, 3),
    "drop": (10, 15, 20, 30, 40, 60),
    "day": (5, 7, 10, 14, 20, 21, 28, 30),
    "degC": (8, 10, 12, 15, 18, 22, 25),
}
BY_NAME = {
    "planned_herb": (50, 60, 80, 100),
    "ratio": (1.5, 2, 3, 4, 5, 6, 8, 10),
    "dry_ratio": (3, 4, 5, 6, 8),
    "ratio_by_weight": (2, 3, 5, 8, 10),
    "ratio_of": (2, 3, 4, 5),
    "other_ratio": (2, 3, 4, 5),
    "drying_ratio": (3, 4, 5, 6),
    "drying_loss": (70, 75, 80),
    "strength": (35, 40, 45, 50, 55, 60, 65, 70, 75),
    "stock_strength": (80, 90, 95, 96),
    "finished_strength": (25, 30, 35, 40, 45, 50),
    "ceiling": (50, 60, 70),
    "blend_strength": (40, 45, 50, 55),
    "strength_of": (25, 30, 40, 45, 50, 60, 70),
    "dose_strength": (25, 30, 40, 45, 50, 60),
    "hydrometer": (40, 50, 60, 70),
    "water_content": (60, 65, 70, 75, 80, 85),
    "dried_water": (8, 10, 12),
    "wilted_water": (50, 55, 60),
    "trim_loss": (5, 10, 15, 20, 25),
    "margin": (10, 15, 20, 25),
    "tare": (15, 20, 25, 30, 40, 50),
    "gross": (120, 150, 180, 230, 260, 320, 480),
    "rack_loss": (2, 3, 4, 5),
    "rack_lost": (10, 15, 20, 30),
    "yield_share": (60, 70, 75, 80, 85),
    "fill": (75, 80, 90),
    "share": (10, 15, 20, 25, 30),
    "eo_share": (0.5, 1, 1.5, 2, 2.5, 3),
    "eo_part": (20, 30, 50),
    "commission": (10, 15, 20, 25),
    "mark_up": (20, 25, 40, 50, 60),
    "honey_sugar": (78, 80, 82),
    "brix": (50, 55, 60, 62, 65),
    "acidity": (5, 6, 8),
    "glycerine": (60, 65, 70, 75),
    "glycerine_stock": (86.5, 99.5),
    "wanted_glycerine": (60, 65, 70),
    "finished_acidity": (3.5, 4, 4.5),
    "finished_glycerine": (50, 55),
    "honey_density": (1.38, 1.4, 1.42),
    "menstruum_density": (0.86, 0.9, 0.92, 0.95),
    "density_of": (0.9, 0.92, 0.96),
    "herb_per_ml": (0.1, 0.2, 0.25, 0.5),
    "dried_equivalent": (0.08, 0.1, 0.2),
    "herb_room": (0.7, 1),
    "dose": (2, 2.5, 3, 4, 5),
    "adult_dose": (3, 4, 5, 6, 8, 10),
    "child_dose": (1, 1.5, 2),
    "dose_in": (2, 3, 4, 5),
    "times_in": (1, 2, 3),
    "days_in": (2, 3, 4, 5, 7),
    "daily": (6, 9, 10, 12, 15),
    "supply": (100, 150, 210, 300),
    "people": (2, 3, 4, 5),
    "kept_back": (30, 50, 60, 100),
    "other_dose": (2, 3, 5),
    "times_a_day": (2, 3, 4),
    "drops_per_ml": (20, 25, 30, 38, 40),
    "child_weight": (12000, 15000, 18000, 20000, 25000, 30000),
    "adult_weight": (60000, 75000, 90000),
    "child_years": (3, 4, 6, 8, 9, 10, 12),
    "child_months": (6, 9, 10, 12, 15, 18),
    "bottle_size": (30, 50, 100),
    "jar_size": (250, 500, 750, 1000),
    "tin_size": (15, 30, 60),
    "tin_weight": (15, 25, 30),
    "bottles": (4, 5, 6, 8, 10, 12),
    "bottles_to_fill": (12, 15, 18, 20, 24),
    "jars": (1, 2, 3),
    "tins": (4, 6, 8, 10, 12),
    "to_bottle": (160, 230, 340, 420, 515),
    "parts": (6, 8, 10),
    "part": (1, 2, 3, 4),
    "spoon": (1.5, 2, 2.5),
    "per_cup": (1.5, 2, 2.5, 3),
    "spoons_per_cup": (1, 1.5, 2),
    "cups": (20, 30, 40),
    "stand_plants": (20, 25, 40, 50, 60, 80),
    "plants_taken": (2, 3, 4, 5, 6),
    "plants_allowed": (2, 3, 4),
    "per_plant": (20, 30, 40, 50),
    "stand_share": (5, 10, 15),
    "sugar_times": (0.8, 1, 1.5, 2),
    "alcohol_per_dose": (0.5, 1, 1.5, 2),
    "herb_per_dose": (0.5, 1, 1.5, 2),
    "herb_per_day": (2, 3, 4.5, 6),
    "herb_a_day_of": (1, 1.5, 2, 3),
    "volume_a_dose": (0.5, 1, 1.5, 2, 2.5, 3),
    "drops_a_dose": (10, 20, 30, 40, 50),
    "herb_a_dose_of": (0.5, 1),
    "price_of": (0.03, 0.05, 0.08, 0.12),
    "cost_of": (2, 3.5, 4, 6),
    "materials": (8, 12, 15, 20, 24),
    "empty_bottle": (0.5, 0.75, 0.9, 1.2),
    "labour": (6, 8, 12, 15),
    "labour_each": (0.5, 1, 1.5),
    "bottle_cost": (2.5, 3, 4, 5),
    "spirit_price": (0.02, 0.03, 0.04),
    "herb_price": (0.02, 0.03, 0.05),
    "selling_price": (8, 10, 12),
    "cost_per_ml": (0.02, 0.04, 0.05),
    "times": (1.5, 2, 2.5, 3),
    "eo": (1, 1.5, 2, 3),
    "eo_volume": (0.5, 1, 1.5),
    "eo_drops": (20, 30, 40),
    "drops_per_tin": (3, 4, 5),
    "herb_in_ml": (0.1, 0.2, 0.25),
    "volume_a_day": (3, 4, 5, 6),
    "formula_a_day": (9, 12, 15),
    "proof_us": (80, 90, 100, 120, 151),
    "proof_uk": (70, 80, 100),
    "strength_by_weight": (35, 40, 50),
}

WHOLE = frozenset(
    """bottles bottles_to_fill jars tins cups plants_taken stand_plants plants_allowed bottles_needed times_a_day days course eo_drops dose_drops cups_a_day
    child_years child_months""".split()
)


def nice(key: str, dice: random.Random) -> float:
    """One readable figure for a key, in its bench unit."""
    name = base(key)
    return float(dice.choice(BY_NAME.get(name) or BY_UNIT[VOCABULARY[name].unit]))


def plausible(key: str, value: float) -> bool:
    """Whether an answer could be met at the bench: not far outside the figures above, and whole where only whole ones exist."""
    name = base(key)
    low, high = VOCABULARY[name].low, VOCABULARY[name].high
    if name in WHOLE and abs(value - round(value)) > 1e-6:
        return False
    usual = BY_NAME.get(name)
    least, most = (usual[0] / 4, usual[-1] * 4) if usual else (0.02, BY_UNIT[VOCABULARY[name].unit][-1] * 4)
    return low <= value <= high and least <= value <= most
