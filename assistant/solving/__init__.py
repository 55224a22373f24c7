"""The any-direction solver. Equations in, everything that follows out; knows no trade, only the relations and the table it is handed.

    expression, isolating, forms, rearranged   an equation as a tree, turned towards each of its quantities (rearranged.py is generated)
    algebra, rearrange                         sympy, at arm's length; the command that writes rearranged.py
    compiling, network                         trees as plain functions; which quantity stands in which equation
    ledger, checking, sensitivity              what is known so far; does it hold; how values move with what was given
    steps, linearity                       whole numbers within a ±; whether a first-order ± can be trusted
    structure, tearing, courses, blocks, roots groups that hang together, and the bracketed search that finds them
    attempt, solver, solution, derivation, working     the whole way, what comes back, and how it is told
    conflicts, missing                         what cannot all hold; what would settle it

Exports solve, figures_of, misfit, missing, and what they take and give. May know relations and matter's Function; knows no quantity by name.
"""

from __future__ import annotations

from assistant.solving.linearity import misfit
from assistant.solving.missing import missing
from assistant.solving.solution import Conflict, Figure, Impossible, Known, Origin, Solution, Step, Unreached
from assistant.solving.solver import figures_of, solve

__all__ = ["Conflict", "Figure", "Impossible", "Known", "Origin", "Solution", "Step", "Unreached", "figures_of", "misfit", "missing", "solve"]
