"""A ± goes to the figure it is of: right behind it ("112 g ± 5"), a word or two on ("80 % water give or take 8"), or said as "5 g either way"."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.items import Item

BEARS_ONE = frozenset({"amount", "percent", "number", "temperature", "per"})
FARTHEST = 4  # words between a figure and its ±
#: a word after which a ± is what is wanted, not what is known of the figure before
WISHES = frozenset("want need get keep finish finishes within like have know accurate exact good figure".split())
GONE = "±"
EITHER = frozenset({("either", "way"), ("either", "side"), ("each", "way"), ("each", "side")})


def slacken(items: list[Item], item: Item, sentence: str, adjoins: bool) -> None:
    """Give "± 5 g" to the figure it follows; by itself it stays a number.

    items   what was read before, the figure among them;  item   the ±;  adjoins   whether it stands right behind the last of them
    """
    if adjoins and items:
        found = with_slack(items[-1], item)
        if found is not None:
            text = sentence[items[-1].start : item.end]
            items[-1] = replace(found, text=text, end=item.end)
            return
    at = _figure_before(items)
    if at is not None and (found := with_slack(items[at], item)) is not None and (item.unit in ("", "percent") or items[at].unit.startswith(item.unit)):
        items[at] = found
        items.append(_set_aside(item))
        return
    items.append(replace(item, kind="amount" if item.unit and item.unit != "percent" else item.unit or "number"))


def with_slack(before: Item, slack: Item) -> Item | None:
    """A figure with its ±, in the figure's unit; None where the one cannot be of the other."""
    if before.value is None or slack.value is None or before.kind not in BEARS_ONE:
        return None
    if slack.unit == before.unit or not slack.unit or before.unit.startswith(slack.unit + "/"):
        size = before.value / before.said if before.said and before.kind == "amount" and not slack.unit else 1
        return replace(before, plus_minus=abs(slack.value * size))
    if slack.unit == "percent" and before.kind == "amount":
        return replace(before, plus_minus=abs(before.value * slack.value / 100))
    if before.kind == "number" and not before.unit:
        # 80 ± 2 %: the unit behind the slack is that of both
        size = slack.value / slack.said if slack.said else 1
        return replace(
            before, kind="percent" if slack.unit == "percent" else "amount", value=before.value * size, unit=slack.unit, said_unit=slack.said_unit,
            said=before.value, slack=before.slack * size, plus_minus=abs(slack.value),
        )  # fmt: skip
    return None


def share_of(item: Item) -> float | None:
    """The ± of a figure as a share of it, whatever unit it is turned into; half of a range; None where it has none."""
    if not item.value:
        return None
    if item.plus_minus is not None:
        return item.plus_minus / abs(item.value)
    return (item.high - item.low) / 2 / abs(item.value) if item.low is not None and item.high is not None else None


def _figure_before(items: Sequence[Item]) -> int | None:
    """The figure that a ± a few words on belongs to; None where something else stands between."""
    for distance, at in enumerate(range(len(items) - 1, -1, -1)):
        item = items[at]
        if item.value is not None:
            bears = item.kind in BEARS_ONE and bool(item.unit) and item.plus_minus is None and item.low is None
            return at if bears and 0 < distance <= FARTHEST else None
        if item.word in WISHES or (item.kind == "punct" and item.text not in (",", "(")):
            return None
    return None


def either_way(items: list[Item]) -> list[Item]:
    """ "112 g, 5 g either way", "112 g to within 5 g": the second figure is the ± of the first."""
    result = list(items)
    for n, item in enumerate(items):
        if item.value is None or item.kind not in ("amount", "percent") or item.plus_minus is not None or item.low is not None:
            continue
        behind = tuple(i.word for i in items[n + 1 : n + 3])
        before = tuple(i.word for i in items[max(0, n - 2) : n])
        at = _figure_before(result[:n]) if behind in EITHER else n - 3 if before == ("to", "within") and n > 2 else None
        if at is None or result[at].unit != item.unit or result[at].plus_minus is not None or not (result[at].value or 0) > item.value:
            continue
        result[at] = replace(result[at], plus_minus=item.value)
        result[n] = _set_aside(item)
    return result


def _set_aside(item: Item) -> Item:
    """A ± that has gone to its figure, as it stands in the row: accounted for, and in nobody's way."""
    return replace(item, kind="reference", word=GONE)
