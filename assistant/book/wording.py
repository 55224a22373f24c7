"""Amounts and lists as the book prints them. Whole units from 100 up, tenths from 10, hundredths below, as a scale and a jug read."""

from __future__ import annotations

SIGNS = {"mL": " mL", "g": " g", "percent": " %", "1": "", "day": " days", "drop": " drops", "mL/g": " mL/g", "g/mL": " g/mL", "degC": " °C"}


def amount(value: float | None, unit: str) -> str:
    """
    >>> amount(223.9, "mL"), amount(12.25, "g"), amount(None, "g")
    ('224 mL', '12.2 g', 'amount not known')
    """
    if value is None:
        return "amount not known"
    size = abs(value)
    text = f"{value:.0f}" if size >= 100 else f"{value:.1f}" if size >= 10 else f"{value:.2f}" if size >= 1 or size == 0 else f"{value:.3f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text) + SIGNS.get(unit, f" {unit}")


def plural(count: float, one: str, many: str = "") -> str:
    return f"{count:g} {one if count == 1 else many or one + 's'}"
