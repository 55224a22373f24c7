"""Measuring cylinders: what they are divided into and how far they may be out, so that nothing is asked for that a bench cannot pour.

source    ASTM E1272-02 (2012), table 1, to 500 mL; evidence: read (catalogue page of the standard). ISO 4788:2005, 10 to 1000 mL; evidence: memory;
          it is wider at 25, 50 and 500 mL. Where a size stands in one of the two alone, that one counts for both.
          Divisions: as such cylinders are commonly marked; memory
"""

from __future__ import annotations

from assistant.dataclass import dataclass

CLASSES = ("A", "B")
STANDARDS = ("ASTM E1272", "ISO 4788")


@dataclass(frozen=True, slots=True)
class Cylinder:
    """A measuring cylinder.

    capacity  what it holds to its top mark [mL]
    division  between two marks [mL]
    class_a   how far it may be out when new [± mL], the better class
    class_b   the same of the everyday class [± mL]
    """

    capacity: float
    division: float
    class_a: float
    class_b: float

    def reads(self, millilitres: float) -> float:
        """The mark nearest to a volume.

        >>> cylinder_for(66.7).reads(66.7)
        67.0
        """
        return round(millilitres / self.division) * self.division


CYLINDERS = (
    Cylinder(5.0, 0.1, 0.05, 0.1),
    Cylinder(10.0, 0.2, 0.1, 0.2),
    Cylinder(25.0, 0.5, 0.17, 0.34),
    Cylinder(50.0, 1.0, 0.25, 0.5),
    Cylinder(100.0, 1.0, 0.5, 1.0),
    Cylinder(250.0, 2.0, 1.0, 2.0),
    Cylinder(500.0, 5.0, 2.0, 4.0),
    Cylinder(1000.0, 10.0, 5.0, 10.0),
)

#: capacity [mL] → ± mL of class A and of class B
ISO_4788 = {
    10.0: (0.1, 0.2),
    25.0: (0.25, 0.5),
    50.0: (0.5, 1.0),
    100.0: (0.5, 1.0),
    250.0: (1.0, 2.0),
    500.0: (2.5, 5.0),
    1000.0: (5.0, 10.0),
}


def cylinder_for(millilitres: float) -> Cylinder:
    """The smallest cylinder that holds a volume at one pouring; the largest where none does.

    >>> cylinder_for(80).capacity
    100.0
    """
    return next((cylinder for cylinder in CYLINDERS if cylinder.capacity >= millilitres), CYLINDERS[-1])


def cylinder_of(capacity: float) -> Cylinder | None:
    """The common cylinder of this very capacity [mL]; None where there is none."""
    return next((cylinder for cylinder in CYLINDERS if abs(cylinder.capacity - capacity) < 1e-6 * capacity), None)


def tolerance(capacity: float, accuracy: str, standard: str = STANDARDS[0]) -> float | None:
    """How far a cylinder of a class may be out at any mark when new [± mL]; None for a size or a class no table has.

    >>> tolerance(25, "A"), tolerance(25, "A", "ISO 4788")
    (0.17, 0.25)
    """
    if accuracy not in CLASSES:
        return None
    column = CLASSES.index(accuracy)
    if standard == STANDARDS[1] and capacity in ISO_4788:
        return ISO_4788[capacity][column]
    found = cylinder_of(capacity)
    return None if found is None else (found.class_a, found.class_b)[column]


def standard_of(capacity: float, standard: str = STANDARDS[0]) -> str:
    """The standard that a tolerance of this size is from."""
    return STANDARDS[1] if capacity in ISO_4788 and (standard == STANDARDS[1] or capacity > 500.0) else STANDARDS[0]
