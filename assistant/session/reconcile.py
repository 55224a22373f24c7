"""Where the spirit on the shelf does not reach: what would work, each way computed."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import dataclass
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY
from assistant.reply import Value
from assistant.session.figuring import Worked, work_out
from assistant.session.wording import shown

HOW_MUCH = looked_for(r"\bhow (?:much|many)\b|\b(?:most|biggest|largest)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Ways:
    """The head line, the ways out a line each, and their figures. `reaches` is True where there is nothing to mend."""

    head: str
    lines: tuple[str, ...]
    values: tuple[Value, ...]
    reaches: bool


def ways(worked: Worked, asked: Sequence[str] = (), heard: str = "") -> Ways | None:
    """The ways out of a batch that wants more spirit than there is; None where no shelf was spoken of or the batch is not yet settled.

    asked    what this sentence, `heard`, asks: the plant that the spirit serves is told ahead of all else where its amount was asked for
    """
    need, have, strength = worked.value("stock"), worked.value("spirit_in_hand"), worked.value("stock_strength")
    if need is None or have is None or strength is None or "spirit_in_hand" not in worked.batch.facts:
        return None
    batch = worked.batch
    spirit = f"{shown('stock', have)} of {shown('stock_strength', strength)}"
    if need <= have * 1.0005:
        left = have - need
        head = f"Yes, it reaches: {shown('stock', need)} of your {spirit}, {shown('stock', left)} left."
        return Ways(head, (), (_value(worked, "stock", need), _named("left on the shelf", "rest", left, batch.title)), True)
    served = worked.value("herb_served") if "herb_served" in asked and HOW_MUCH.search(heard) else None
    head = "" if served is None else f"It serves {shown('herb', served)} of plant. "
    head += f"The shelf does not reach: it takes {shown('stock', need)} and you have {spirit}."
    lines: list[str] = []
    values = [_value(worked, "stock", need)]
    _largest(worked, lines, values)
    _stretched(worked, have, strength, lines, values)
    short = need - have
    lines.append(f"Fetch {shown('spirit_short', short)} more of the {shown('stock_strength', strength)}, and all of it is made as planned.")
    values.append(_value(worked, "spirit_short", short))
    return Ways(head, tuple(lines), tuple(values), False)


def _largest(worked: Worked, lines: list[str], values: list[Value]) -> None:
    """Ratio and strength kept: as much plant as the spirit serves, the rest hung up to dry."""
    served, left = worked.value("herb_served"), worked.value("herb_left")
    if served is None or left is None:
        return
    menstruum = worked.value("menstruum_served")
    text = f"Keep ratio and strength: {shown('herb', served)} of plant"
    if menstruum is not None:
        text += f" in {shown('menstruum', menstruum)}"
        values.append(_value(worked, "menstruum_served", menstruum))
    values += [_value(worked, "herb_served", served), _value(worked, "herb_left", left)]
    text += f", and {shown('herb_left', left)} left over"
    dried = worked.value("left_dried")
    if dried is not None:
        text += f", which dries down to {shown('left_dried', dried)}"
        values.append(_value(worked, "left_dried", dried))
    lines.append(text + ".")


def _stretched(worked: Worked, have: float, stock: float, lines: list[str], values: list[Value]) -> None:
    """All the plant at the ratio wanted: the strength that the alcohol on the shelf gives, and where it finishes."""
    menstruum = worked.value("menstruum")
    if menstruum is None or menstruum <= 0:
        return
    weaker = have * stock / menstruum
    if weaker >= stock:
        return
    thin = work_out(worked.batch.without("strength", "finished_strength").having(tags=worked.batch.tags - {"neat"}), extra={"strength": weaker})
    whole = " over all the plant" if worked.value("herb") is not None else ""
    text = f"Stretch it{whole}: {shown('menstruum', menstruum)} at {shown('strength', weaker)}"
    values.append(_named("stretched", "stretched_strength", weaker, "stretched"))
    water, finish = thin.value("water"), thin.value("finished_strength")
    if water is not None:
        text += f" ({shown('stock', have)} of spirit and {shown('water', water)} of water)"
        values.append(_named("stretched", "water", water, "stretched"))
    if finish is not None:
        text += f", finishing at {shown('finished_strength', finish)}"
        values.append(_named("stretched", "finished_strength", finish, "stretched"))
        if finish < 25:
            text += ", which may not keep"
    lines.append(text + ".")


def _value(worked: Worked, key: str, amount: float) -> Value:
    return _named("", key, amount, worked.batch.title)


def _named(_: str, key: str, amount: float, batch: str) -> Value:
    return Value(quantity=key, batch=batch, value=amount, unit=VOCABULARY[key].unit, origin="found", text=shown(key, amount))
