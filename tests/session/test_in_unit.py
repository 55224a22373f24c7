"""A figure told in a unit of the person's: one of that unit comes back as one, in whatever measures it was said."""

import pytest

from assistant.quantities.units import units
from assistant.session.wording import UNITS_ASKED, in_unit

SPELLED = {
    "quart": "quarts", "pint": "pints", "cup": "cups", "gallon": "gallons", "fluid_ounce": "fl oz", "litre": "litres", "centilitre": "cl",
    "decilitre": "dl", "teaspoon": "teaspoons", "tablespoon": "tablespoons", "pound": "lbs", "kilogram": "kilos", "ounce": "oz",
}  # fmt: skip


def test_every_unit_is_tried():
    assert SPELLED.keys() == UNITS_ASKED.keys()


@pytest.mark.parametrize("measures", ["us", "imperial", "metric"])
@pytest.mark.parametrize("name", sorted(UNITS_ASKED))
def test_one_of_a_unit_is_told_as_one(name, measures):
    unit = units().by_name[name]
    key = "herb" if unit.bench == "g" else "menstruum"
    assert in_unit(key, unit.size(measures), SPELLED[name], measures).split()[0] == "1"


def test_a_dose_is_told_in_spoons_of_medicine():
    assert in_unit("dose", 5.0, "teaspoons", "us") == "1 tsp"
    assert in_unit("menstruum", 5.0, "teaspoons", "us") == "1.01 tsp"
    assert in_unit("herb", 5.0, "teaspoons", "us") == ""
