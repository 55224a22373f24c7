"""Oils, waxes and butters against the ranges as the books print them, each written down here a second time with its own source.

A relative density t/20 °C is against water at 20 °C, 25/25 °C against water at 25 °C; what water weighs is taken from the density formula, not from
the figures beside the oils.
"""

import pytest

from assistant.matter.ethanol import density
from assistant.matter.melting import MELTS, melting
from assistant.matter.oils import BEESWAX, ESSENTIAL_OIL, ESSENTIAL_RANGE, FATS, OIL, fat

# name, lowest and highest as printed, temperature [°C], water it is against [°C; None where g/mL is printed]
PRINTED = [
    ("olive oil", 0.910, 0.916, 20, 20),  # Codex CXS 33-1981, appendix; memory
    ("sunflower oil", 0.916, 0.923, 20, 20),  # Codex CXS 210-1999, table 2 as amended 2022; read in the amendment table
    ("almond oil", 0.910, 0.915, 25, 25),  # USP29-NF24, Almond Oil; read in a copy
    ("peanut oil", 0.912, 0.920, 25, 25),  # USP-NF 23, Peanut Oil; read in a copy
    ("coconut oil", 0.908, 0.921, 40, 20),  # Codex CXS 210-1999, table 2, 40 °C / water at 20 °C; read
    ("castor oil", 0.957, 0.961, 25, 25),  # USP29-NF24, Castor Oil; read in a copy
    ("jojoba", 0.863, 0.873, 25, None),  # handbooks of cosmetic oils; memory
    ("shea butter", 0.89, 0.93, 40, None),  # Codex CXS 325R-2017, table 2; read
    ("cocoa butter", 0.882, 0.898, 40, 20),  # a maker's specification; read, weak
    ("lanolin", 0.932, 0.945, 15, None),  # handbooks, wool fat at 15 °C; memory
    ("beeswax", 0.958, 0.970, 20, 20),  # a text of pharmacognosy; read
]

# name, melting range [°C] as the pharmacopoeias and Codex give it; all from memory
MELTS_PRINTED = [
    ("beeswax", 62, 65),  # USP-NF, Yellow Wax and White Wax
    ("carnauba wax", 80, 86),  # USP-NF, Carnauba Wax
    ("candelilla wax", 68.5, 72.5),  # Food Chemicals Codex
    ("cocoa butter", 31, 35),  # Ph. Eur., Theobroma oil
    ("shea butter", 32, 45),  # Codex CXS 325R, slip melting point
    ("coconut oil", 23, 26),  # Ph. Eur., Coconut oil, refined
    ("lanolin", 38, 44),  # USP-NF, Lanolin
]

# Middle of the relative density 20/20 °C that the European Pharmacopoeia allows; memory
FLOATING = {"lavender": (0.878, 0.892), "peppermint": (0.900, 0.916), "tea tree": (0.885, 0.906)}
LIGHTEST_SWEET_ORANGE, HEAVIEST_CLOVE = 0.842, 1.063  # Ph. Eur., sweet orange oil 0.842 to 0.850, clove oil 1.030 to 1.063; memory


@pytest.mark.parametrize(("name", "low", "high", "celsius", "water"), PRINTED, ids=lambda x: str(x))
def test_each_range_is_what_its_book_prints(name, low, high, celsius, water):
    weighs = 1.0 if water is None else density(0, water) / 1000
    found = fat(name)
    assert (found.low, found.high) == (pytest.approx(low * weighs, abs=2e-5), pytest.approx(high * weighs, abs=2e-5))
    assert found.celsius == celsius


def test_every_fat_stands_in_a_book():
    assert [name for name, *_ in PRINTED] == [found.name for found in FATS]


@pytest.mark.parametrize("name", ["shea butter", "cocoa butter", "jojoba", "lanolin"])
def test_what_has_a_figure_of_its_own_lies_in_the_middle_of_its_range(name):
    found = fat(name)
    assert found.density == pytest.approx((found.low + found.high) / 2, abs=0.0025)


def test_castor_oil_and_beeswax_count_alike():
    """Both ranges close on 0.96, castor oil once it is brought from 25 to 20 °C: a fixed oil loses about 0.0007 g/mL a degree, common practice."""
    castor, wax = fat("castor oil"), fat("beeswax")
    assert castor.low + 5 * 0.0007 <= castor.density <= castor.high + 5 * 0.0007
    assert wax.low <= wax.density == BEESWAX <= (wax.low + wax.high) / 2


def test_common_oils_count_as_one_figure_near_the_middle_of_them_all():
    ends = [end + 0.0007 * (found.celsius - 20) for found in FATS[:4] for end in (found.low, found.high)]
    assert pytest.approx(sum(ends) / len(ends), abs=0.002) == OIL
    assert all(found.density == OIL for found in FATS[:5])


def test_essential_oils_float_or_sink_within_the_range():
    middles = [(low + high) / 2 for low, high in FLOATING.values()]
    assert pytest.approx(sum(middles) / len(middles), abs=0.005) == ESSENTIAL_OIL
    low, high = ESSENTIAL_RANGE
    assert low <= LIGHTEST_SWEET_ORANGE < low + 0.005
    assert high == pytest.approx(HEAVIEST_CLOVE, abs=0.005)


@pytest.mark.parametrize(("name", "low", "high"), MELTS_PRINTED)
def test_each_wax_melts_where_its_book_says(name, low, high):
    found = melting(name)
    assert (found.low, found.high) == (low, high)


def test_every_wax_stands_in_a_book():
    assert [name for name, *_ in MELTS_PRINTED] == [found.name for found in MELTS]


def test_a_wax_is_found_by_any_of_its_names_however_it_is_spaced():
    assert melting("  Bees   WAX ") is melting("beeswax")
    assert melting("cocoa") is melting("cocoa butter")
    assert melting("butter") is None
