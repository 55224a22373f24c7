"""A plant steeped in honey by a ratio of weights: "200 g onion in honey 1:3 by weight"."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Said
from assistant.patterns import looked_for
from assistant.session.work import Work

HONEY = looked_for(r"\bhoney\b", re.IGNORECASE)
NEXT_TO = 4  # characters: " of "
OTHERS = looked_for(r"\b(?:vinegar|oxymel|water|decoction|infusion|tea|spirit|vodka|brandy)\b", re.IGNORECASE)


def plant_in_honey(said: list[Said], work: Work) -> None:
    """The ratio by weight of a plant in honey is that of honey to plant. Changes `said` in place, the frames, and what is asked."""
    heard = work.reading.heard
    if not HONEY.search(heard) or OTHERS.search(heard) or work.members:
        return
    _of_the_plant(said, work)
    ratio = next((s for s in said if s.quantity == "ratio_by_weight"), None)
    if ratio is None or not any(s.quantity == "herb" for s in said) or any(s.quantity in ("honey", "honey_volume") for s in said):
        return
    said[said.index(ratio)] = replace(ratio, quantity="honey_to_herb", weak=False)
    work.frames.add("syrup")
    work.reading.asked[:] = [Asked("honey", 0, len(heard))]


def _of_the_plant(said: list[Said], work: Work) -> None:
    """ "Onion honey 200 g onion 1:3 honey": the weight is the onion's that stands behind it, and the ratio is plant to honey."""
    honey = next((s for s in said if s.quantity == "honey"), None)
    ratio = next((s for s in said if s.quantity == "honey_times"), None)
    if honey is None or ratio is None or not 0 < ratio.value < 1 or any(s.quantity in ("liquid", "decoction", "herb") for s in said):
        return
    if any(0 <= n.start - honey.end <= NEXT_TO for n in work.reading.named):
        said[said.index(honey)] = replace(honey, quantity="herb", weak=False)
        said[said.index(ratio)] = replace(ratio, quantity="ratio_by_weight", value=1 / ratio.value, weak=False)
