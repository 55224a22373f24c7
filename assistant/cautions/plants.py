"""The plants in use, ready to be asked: plants().find("112 g fresh nettles".split())."""

from __future__ import annotations

from assistant.cautions.folder import in_use
from assistant.cautions.plant import Found, Plant, PlantList, unknown_plant

__all__ = ["Found", "Plant", "PlantList", "plants", "unknown_plant"]


def plants() -> PlantList:
    """The plants of the conversation being answered: the shipped ones, and a person's own where a folder was opened.

    >>> [found.name for found in plants().find("112 g fresh nettles and elder berries")]
    ['nettle', 'elderberry']
    """
    return in_use().plants
