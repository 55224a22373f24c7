"""At what heat the waxes and butters of a salve melt.

Ranges as the pharmacopoeias and trade standards give them, from memory: a wax is a mixture, it softens over some degrees and has no one point.
"""

from assistant.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Melt:
    """A wax or butter and its melting range.

    name      as it is called at the bench
    spoken    other names
    low, high range [°C]
    source, evidence
    """

    name: str
    spoken: tuple[str, ...]
    low: float
    high: float
    source: str
    evidence: str = "memory"


MELTS = (
    Melt("beeswax", ("wax", "bees wax"), 62.0, 65.0, "USP-NF, Yellow Wax and White Wax, melting range"),
    Melt("carnauba wax", ("carnauba",), 80.0, 86.0, "USP-NF, Carnauba Wax, melting range"),
    Melt("candelilla wax", ("candelilla",), 68.5, 72.5, "Food Chemicals Codex, Candelilla Wax, melting range"),
    Melt("cocoa butter", ("cacao butter", "cocoa"), 31.0, 35.0, "Ph. Eur., Theobroma oil, melting point"),
    Melt("shea butter", ("shea",), 32.0, 45.0, "Codex CXS 325R, slip melting point"),
    Melt("coconut oil", ("coconut",), 23.0, 26.0, "Ph. Eur., Coconut oil refined, melting point"),
    Melt("lanolin", ("wool fat",), 38.0, 44.0, "USP-NF, Lanolin, melting range"),
)


def melting(name: str) -> Melt | None:
    """The wax or butter of this name, None where none is listed.

    >>> found = melting("beeswax")
    >>> (found.low, found.high)
    (62.0, 65.0)
    >>> melting("olive oil") is None
    True
    """
    plain = " ".join(name.lower().split())
    return next((m for m in MELTS if plain == m.name or plain in m.spoken), None)
