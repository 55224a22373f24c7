"""Measuring cylinders: what they are divided into and how far they may be out, so that nothing is asked for that a bench cannot pour.

source    tolerances to 500 mL: ASTM E1272-02 (2012), table 1; evidence: read. The 1000 mL cylinder: ISO 4788:2005; memory. ISO is wider at 25, 50 and 500 mL.
          Divisions: as such cylinders are commonly marked; memory
"""

from assistant.dataclass import dataclass


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


def cylinder_for(millilitres: float) -> Cylinder:
    """The smallest cylinder that holds a volume at one pouring; the largest where none does.

    >>> cylinder_for(80).capacity
    100.0
    """
    return next((cylinder for cylinder in CYLINDERS if cylinder.capacity >= millilitres), CYLINDERS[-1])
