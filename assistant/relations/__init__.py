"""What the trade computes: equations with no preferred direction, a module a craft step.

Exports `RELATIONS`, all of them in the order a person would do them, and `Relation`. May know matter and quantities; knows no
sentence, no reply and no solver.
"""

from __future__ import annotations

from assistant.relations import (
    blending,
    costing,
    dilution,
    dosing,
    drying,
    gathering,
    maceration,
    percolation,
    pressing,
    recipes,
    sweet_and_sour,
    vessels,
    working_year,
)
from assistant.relations.relation import Relation

RELATIONS: tuple[Relation, ...] = (
    *gathering.RELATIONS,
    *drying.RELATIONS,
    *maceration.RELATIONS,
    *percolation.RELATIONS,
    *dilution.RELATIONS,
    *pressing.RELATIONS,
    *vessels.RELATIONS,
    *blending.RELATIONS,
    *recipes.RELATIONS,
    *sweet_and_sour.RELATIONS,
    *dosing.RELATIONS,
    *costing.RELATIONS,
    *working_year.RELATIONS,
)

__all__ = ["RELATIONS", "Relation"]
