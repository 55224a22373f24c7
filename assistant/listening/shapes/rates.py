"""So much of one thing for each of another: mL a gram, drops a mL, a price per litre."""

from __future__ import annotations

from typing import Any

from assistant.listening.counts import Count, Measure
from assistant.listening.shapes.around import Around, Meaning
from assistant.listening.shapes.others import money
from assistant.listening.tokens import NUMERIC, Token, cap
from assistant.listening.walking import Node
from assistant.quantities.units import Unit

_LINKS = frozenset("PER SLASH A THE EACH IN TO DRY".split())


def _links(children: list[Any]) -> list[str]:
    return [child.type for child in children if isinstance(child, Token) and child.type in _LINKS]


def _loose(links: list[str]) -> bool:
    """Whether the joint is a word that also means other things: "200 g in a litre jar"."""
    return links[0] in ("IN", "TO", "THE", "EACH")


def rate(children: list[Any], around: Around) -> Meaning | None:
    count, measure, token = children[0], children[1], children[-1]
    links, top, under = _links(children), measure.unit, Measure(token.unit)
    if top.dimension == "time":
        return None
    if _loose(links) and around.size(under) != 1 and top.dimension != "drops":
        return None
    if top.dimension == under.unit.dimension and links[0] not in ("PER", "SLASH"):
        return None
    if token.unit.name in ("cup", "teaspoon", "tablespoon", "dropperful") and top.dimension != "drops":
        return None  # "2 g per cup" is a dose, not a density
    if around.after() in ("jar", "bottle", "jug", "pot", "jars", "bottles"):
        return None
    return _rate(count, around.size(measure), around.size(under), top, under.unit)


def share_rate(children: list[Any], around: Around) -> Meaning | None:
    """ "Half a mL to the gram": the same, its count a share."""
    return rate([children[0], *children[2:]], around)


def _rate(count: Count, top_size: float, under_size: float, top: Unit, under: Unit) -> Meaning | None:
    factor = top_size / under_size
    value, unit = count.value * factor, f"{top.bench}/{under.bench}"
    meaning: Meaning = {"kind": "per", "said_unit": f"{top.shown}/{under.shown}", "said": count.value, "slack": count.slack * factor}
    if top.bench == under.bench:
        unit = "1"
    if count.low is not None and count.high is not None:
        meaning["low"], meaning["high"] = cap(count.low * factor), cap(count.high * factor)
    if unit == "mL/drop":
        if not value:
            return None
        value, unit = 1 / value, "drop/mL"
        meaning["low"] = meaning["high"] = None
        meaning["slack"] = 0.0
    return {**meaning, "value": cap(value), "unit": unit}


def bare_rate(children: list[Any], around: Around) -> Meaning | None:
    """ "1.5 per dry gram" is what the marc holds; "28 a litre" and "30 a kilo" are prices."""
    count, token = children[0], children[-1]
    links = _links(children)
    held = token.unit.name == "gram"
    if links[0] == "TO" and token.unit.name == "millilitre" and not count.share:
        return {"kind": "per", "value": count.value, "unit": "drop/mL", "said_unit": "/mL", "said": count.value, "slack": count.slack}
    if count.share or (links[0] in ("IN", "TO") and not (held and "EACH" in links)):
        return None
    if links[0] == "A" and (around.kind_after() == "OF" or around.after() in ("jar", "bottle", "jug", "pot")):
        return None
    if "DRY" in links and not held:
        return None
    size = around.size(Measure(token.unit))
    unit = "mL/g" if held else f"1/{token.unit.bench}"
    return {
        "kind": "per", "value": cap(count.value / size), "unit": unit, "said_unit": f"/{token.unit.shown}", "said": count.value,
        "slack": count.slack / size, "alt": (count.value, token.unit.shown),
    }  # fmt: skip


def price_of_amount(children: list[Any], around: Around) -> Meaning | None:
    """12.50 per 500 ml, $24 per 750 ml"""
    paid, count, token = children[0], children[2], children[-1]
    said_unit, price = "", paid
    if isinstance(paid, Node):
        said = money(paid.children, around)
        said_unit, price = said["said_unit"], Count(said["value"], said["slack"])
    size = around.size(Measure(token.unit)) * count.value
    if not size or price.share:
        return None
    return {
        "kind": "per",
        "value": cap(price.value / size),
        "unit": f"1/{token.unit.bench}",
        "said_unit": f"{said_unit}/{token.unit.shown}",
        "said": price.value,
        "slack": price.slack / abs(size),
        "alt": (price.value, f"{count.value:g} {token.unit.shown}"),
    }


def money_rate(children: list[Any], around: Around) -> Meaning:
    paid, token = money(children[0].children, around), children[-1]
    size = around.size(Measure(token.unit))
    return {
        "kind": "per", "value": cap(paid["value"] / size), "unit": f"1/{token.unit.bench}", "said_unit": f"{paid['said_unit']}/{token.unit.shown}",
        "said": paid["value"], "slack": paid["slack"] / size, "alt": (paid["value"], token.unit.shown),
    }  # fmt: skip


def asked_rate(children: list[Any], around: Around) -> Meaning | None:
    """ "drops per ml", with no number: what is asked for, or the unit to answer in."""
    measure, token = children[0], children[-1]
    links = _links(children)
    top = measure.unit
    if top.dimension == "time" or top.bench == token.unit.bench or around.kind_before() in NUMERIC:
        return None
    if (_loose(links) or links[0] == "A") and around.size(Measure(token.unit)) != 1:
        return None
    return {"kind": "per", "unit": f"{top.bench}/{token.unit.bench}", "said_unit": f"{top.shown}/{token.unit.shown}"}


def rate_of_two(children: list[Any], around: Around) -> Meaning | None:
    counts = [child for child in children if isinstance(child, Count)]
    measures = [child for child in children if isinstance(child, Measure)]
    if len(counts) == 1:
        counts.insert(0 if isinstance(children[0], Token) else 1, Count(1))
    per = any(isinstance(child, Token) and child.type == "PER" for child in children)
    (one, other), (top, under) = counts, measures
    if top.unit.dimension == "volume" and under.unit.dimension == "drops" and not per:
        (one, other), (top, under) = (other, one), (under, top)
    if "time" in (top.unit.dimension, under.unit.dimension) or not other.value:
        return None
    if not per and (top.unit.dimension, under.unit.dimension) != ("drops", "volume"):
        return None
    return _rate(one, around.size(top), around.size(under) * other.value, top.unit, under.unit)
