"""The program's own way from figures to figures: relations and solver, no sentence."""

from collections.abc import Mapping
from functools import lru_cache

from assistant.matter import FUNCTIONS
from assistant.quantities.vocabulary import bracket
from assistant.relations import RELATIONS, Relation
from assistant.solving import Known, solve


@lru_cache(maxsize=64)
def _applying(tags: frozenset[str]) -> tuple[Relation, ...]:
    return tuple(relation for relation in RELATIONS if relation.applies(tags))


def found(wanted: str, tags: str, known: Mapping[str, float], members: tuple[str, ...] = ()) -> float:
    """The one figure that follows from what is known, for a batch that bears these tags."""
    return found_all((wanted,), tags, known, members)[0]


def found_all(wanted: tuple[str, ...], tags: str, known: Mapping[str, float], members: tuple[str, ...] = ()) -> list[float]:
    """The figures that follow, in the order wanted. An answer that was handed in, contradicts something or cannot be is no answer."""
    solution = solve(
        {key: Known(float(value)) for key, value in known.items()},
        _applying(frozenset(tags.split())),
        members,
        FUNCTIONS,
        bracket,
        wanted,
    )
    assert not solution.conflicts, solution.conflicts
    assert not solution.impossible, solution.impossible
    assert not solution.unsettled, f"{solution.unsettled} do not follow from {dict(known)} with {tags!r}"
    for key in wanted:
        assert solution.figures[key].origin == "found", f"{key} was handed in"
    return [solution.figures[key].value for key in wanted]


def mixed(volumes, strengths, *, shrinks: bool) -> list[float]:
    """Volume and strength of a mix of spirits: by weight, or by simple parts as alligation has it."""
    members = tuple(f"lot {i}" for i in range(len(volumes)))
    known = {f"volume[{member}]": volume for member, volume in zip(members, volumes, strict=True)}
    known |= {f"strength_of[{member}]": strength for member, strength in zip(members, strengths, strict=True)}
    return found_all(("blend", "blend_strength"), "mix mix_strength shrinks" if shrinks else "mix_strength formula", known, members)


def two_lots(strong: float, weak: float, made: float, wanted: float, *, shrinks: bool) -> list[float]:
    """Volumes of a strong and a weak lot that make a volume of a strength."""
    known = {"strength_of[strong]": strong, "strength_of[weak]": weak, "blend": made, "blend_strength": wanted}
    tags = "mix mix_strength shrinks" if shrinks else "mix_strength formula"
    return found_all(("volume[strong]", "volume[weak]"), tags, known, ("strong", "weak"))
