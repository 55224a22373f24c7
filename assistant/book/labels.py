"""The label of a lot: what stands on the bottle, line by line.

source   common practice: names, part, ratio and its kind, strength, volume, lot, made, best before, how to store, cautions, maker
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.book.batches import Batch
from assistant.book.dates import in_words
from assistant.book.wording import amount
from assistant.dataclass import dataclass

LONGEST_LINE = 60


@dataclass(frozen=True, slots=True)
class Label:
    """What a label holds; empty where nothing is known. `lines` are the maker's own."""

    name: str
    latin: str
    part: str
    ratio: str
    strength: str
    volume: str
    lot: str
    made: str
    best_before: str
    store: str
    cautions: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()

    def rows(self) -> list[str]:
        """The lines in the order they are read, blank ones left out."""
        facts = " · ".join(x for x in (self.ratio, self.strength, self.volume) if x)
        dates = " · ".join(x for x in (f"made {self.made}" if self.made else "", f"best before {self.best_before}" if self.best_before else "") if x)
        rows = [self.name, " · ".join(x for x in (self.latin, self.part) if x), facts, f"Lot {self.lot}", dates, self.store, *self.cautions, *self.lines]
        return [row for row in rows if row]


# cautions of the frozen record that belong on a bottle, and what they say there
ON_THE_BOTTLE = {
    "honey-under-one": "Contains honey: not under 1 year.",
    "external-only": "Not to be taken.",
}
STORE = {
    "tincture": "Keep dark and closed.", "formula": "Keep dark and closed.",
    "mix": "Keep dark and closed.", "oil": "Keep cool and dark.", "salve": "Keep cool.",
    "syrup": "Keep in the fridge.", "vinegar": "Keep cool and dark; no metal lid.", "oxymel": "Keep cool.", "glycerite": "Keep cool and dark.",
    "tea": "Keep dry and dark.", "dried herb": "Keep dry and dark.", "decoction": "Keep in the fridge.", "infusion": "Keep in the fridge.",
}  # fmt: skip


def label_for(batch: Batch, size: float | None = None, lines: Sequence[str] = ()) -> Label:
    """The label of a lot, for a bottle of `size` mL; `lines` are the maker's own."""
    kind = batch.preparation
    called = batch.plant or batch.name or batch.code or batch.lot
    head = called if kind in called else f"{called} {kind}"
    finished = next((v for q in ("finished_strength", "blend_strength", "strength") if (v := batch.figure(q)) is not None), None)
    ratio = batch.figure("ratio")
    words = f"1:{ratio:g}" if ratio is not None and ratio == round(ratio, 2) else f"1:{ratio:.2g}" if ratio is not None else ""
    if words:
        words = f"{batch.state} {words} (weight to volume)".strip()
    honey = any("honey" in str(c.get("what", "")).lower() for c in batch.record.get("components", ()) if isinstance(c, dict))
    ids = {str(c.get("id", "")) for c in batch.record.get("cautions", ()) if isinstance(c, dict)}
    cautions = [text for name, text in ON_THE_BOTTLE.items() if name in ids or (name == "honey-under-one" and honey)]
    return Label(
        name=head[:1].upper() + head[1:], latin=batch.latin, part=batch.part, ratio=words,
        strength=f"{finished:.0f} % vol" if finished is not None and kind in ("tincture", "formula", "mix") else "",
        volume=amount(size, "mL") if size else "", lot=batch.lot,
        made=in_words(batch.pressed_on or batch.started), best_before=in_words(batch.best_before),
        store=STORE.get(kind, ""), cautions=tuple(cautions), lines=tuple(line[:LONGEST_LINE] for line in lines),
    )  # fmt: skip
