"""What would meet a batch without the stand: as much from a garden or a grower, or its dried stock. Words and figures for the rules of gathering."""

from __future__ import annotations

from assistant.reply import Value
from assistant.session import answering
from assistant.session.figuring import Worked, part_of, water_range
from assistant.session.wording import shown

DRIED_WATER = 10.0  # [percent] water left in dried herb, where nothing was said


def dried_for(worked: Worked) -> float | None:
    """Grams of dried herb that bear the same dry matter as the fresh plant of the batch; None where the water in it is not known."""
    if "dried" in worked.tags and "fresh" not in worked.tags:
        return worked.value("herb")
    herb, water = worked.value("herb"), worked.value("water_content")
    if water is None:
        span = water_range(worked.batch)
        water = None if span is None else (span[1] + span[2]) / 2
    if herb is None or water is None:
        return None
    left = worked.value("dried_water")
    return herb * (100 - water) / (100 - (DRIED_WATER if left is None else left))


def instead_words(worked: Worked) -> dict[str, str]:
    """The pieces a rule of gathering may show: `garden instead` and `dried instead`, each a sentence; none where no amount of plant is known."""
    words: dict[str, str] = {}
    herb, dried = worked.value("herb"), dried_for(worked)
    part = part_of(worked.batch) or "herb"
    if dried is not None:
        words["dried instead"] = f"{shown('dried', dried)} of dried {part} from a grower bears as much."
    if herb is not None:
        fresh = "dried" not in worked.tags or "fresh" in worked.tags
        amount = f"{shown('herb', herb)} fresh" if fresh else f"{shown('herb', herb)} dried"
        other = f", or {shown('dried', dried)} dried," if fresh and dried is not None else ""
        words["garden instead"] = f"From a garden or a grower {amount}{other} would meet the batch."
    return words


def instead_values(worked: Worked) -> list[Value]:
    """The figures that those pieces show."""
    values = [answering.value_of(worked, "herb")] if worked.value("herb") is not None else []
    dried = dried_for(worked)
    if dried is not None and worked.value("dried") is None:
        values.append(Value(quantity="dried", batch=worked.batch.title, value=dried, unit="g", origin="found", text=shown("dried", dried)))
    elif dried is not None and "dried" in worked.solution.figures:
        values.append(answering.value_of(worked, "dried"))
    return values
