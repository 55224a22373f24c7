"""What would mend a liquid that is too weak to keep: how much strong spirit brings it up."""

from __future__ import annotations

from assistant.matter.ethanol import mix
from assistant.session.figuring import Worked
from assistant.session.wording import shown

POOLS = (("in_jar", "finished_strength"), ("blend", "blend_strength"), ("menstruum", "strength"))
STRONG = 95.0  # [% vol] the stock a bench most often has, where none was said


def spirit_to_reach(volume: float, strength: float, target: float, stock: float) -> float | None:
    """mL of spirit at `stock` % that bring `volume` mL at `strength` % up to `target` %; None where it cannot.

    >>> round(spirit_to_reach(500, 15, 20, 95))
    33
    """
    if not strength < target < stock or volume <= 0:
        return None
    low, high = 0.0, volume * (target - strength) / (stock - target) * 2
    for _ in range(60):
        middle = (low + high) / 2
        if mix((volume, middle), (strength, stock))[1] < target:
            low = middle
        else:
            high = middle
    return high


def rescue_words(worked: Worked) -> dict[str, str]:
    """The pieces a keeping rule may show: `rescue` (to 20 %) and `rescue 25`, as "74 mL of 95 %"."""
    words: dict[str, str] = {}
    for volume, strength in POOLS:
        have, now = worked.value(volume), worked.value(strength)
        if have is None or now is None:
            continue
        said = worked.value("stock_strength")
        for name, target in (("rescue", 20.0), ("rescue 25", 25.0)):
            stock = said if said is not None and said > target + 5 else STRONG
            more = spirit_to_reach(have, now, target, stock)
            if more is not None:
                words[name] = f"{shown('stock', more)} of {shown('stock_strength', stock)}"
        break
    return words
