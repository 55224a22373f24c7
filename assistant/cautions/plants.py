"""The shipped plants, ready to be asked: plants().find("112 g fresh nettles".split())."""

from __future__ import annotations

from assistant.cautions.folder import shipped
from assistant.cautions.plant import Found, Plant, PlantList, unknown_plant

__all__ = ["Found", "Plant", "PlantList", "plants", "unknown_plant"]


def plants() -> PlantList:
    """The shipped plants, read once.

    >>> [found.name for found in plants().find("112 g fresh nettles and elder berries")]
    ['nettle', 'elderberry']
    """
    return shipped().plants
