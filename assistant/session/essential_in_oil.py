"""Essential oil in a carrier that is measured: "half a litre of rub oil with 1.5 % lavender oil, how much of the lavender"."""

from __future__ import annotations

from assistant.session.merging import Merged

OTHER_WORK = frozenset({"salve", "tea", "syrup", "formula", "mix", "written"})
OF_A_PLANT = frozenset({"herb", "ratio", "ratio_by_weight", "planned_herb", "batch", "pressed"})
NOT_MEANT = frozenset({"herb", "menstruum", "menstruum_weight", "stock", "volume"})


def essential_in_oil(merged: Merged) -> None:
    """The oil measured out is what the essential oil goes into, and its own millilitres are asked for. Changes `merged.batch`."""
    batch = merged.batch
    facts = dict(batch.facts)
    if "essential_in_it" not in batch.frames or batch.members or batch.frames & OTHER_WORK or facts.keys() & (OF_A_PLANT | {"eo_base"}):
        return
    if not {"eo_share", "menstruum"} <= facts.keys() or not merged.new_keys & {"eo_share", "menstruum"}:
        return
    facts["eo_base"] = facts.pop("menstruum")
    merged.new_keys = {"eo_base" if k == "menstruum" else k for k in merged.new_keys}
    wanted = ("eo", *(k for k in batch.wanted if k not in NOT_MEANT and k != "eo"))
    merged.batch = batch.having(facts=facts, frames=(batch.frames - {"oil"}) | {"essential"}, wanted=wanted)


__all__ = ["essential_in_oil"]
