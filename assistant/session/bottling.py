"""A volume into bottles of several sizes: the fewest bottles, or the least left over."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.dataclass import dataclass, replace
from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.reply import Question, Reply, Used, Value
from assistant.session.wording import number, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session
    from assistant.session.figuring import Worked

POOLS = ("racked", "pressed", "blend", "syrup", "in_jar", "menstruum", "batch_volume")
GRAIN = 0.5  # mL: sizes are counted in halves of a mL
MOST_GRAINS = 400_000  # beyond that only the greedy way is offered
SAID = frozenset({"menstruum", "pressed", "in_jar", "blend", "to_bottle", "racked", "spirit_in_hand", "stock", "rest", "supply", "syrup"})


def fewest(volume: float, sizes: Sequence[float]) -> dict[float, int]:
    """The largest first, until not even the smallest can be filled.

    >>> fewest(444, [100, 50, 30])
    {100: 4, 50: 0, 30: 1}
    """
    counts = {}
    left = volume
    for size in sorted(sizes, reverse=True):
        counts[size] = int((left + 1e-9) // size)
        left -= counts[size] * size
    return counts


def least_left(volume: float, sizes: Sequence[float]) -> dict[float, int]:
    """The fullest set of bottles, and of sets as full the one with the fewest bottles.

    >>> least_left(444, [100, 50, 30])
    {100: 3, 50: 1, 30: 3}
    """
    grains = [max(1, round(size / GRAIN)) for size in sizes]
    whole = int((volume + 1e-9) / GRAIN)
    if whole > MOST_GRAINS:
        return fewest(volume, sizes)
    best: list[tuple[int, int] | None] = [None] * (whole + 1)  # bottles, and the size last added
    best[0] = (0, -1)
    for at in range(1, whole + 1):
        for n, grain in enumerate(grains):
            before = best[at - grain] if at >= grain else None
            if before is not None and (best[at] is None or before[0] + 1 < best[at][0]):  # type: ignore[index]
                best[at] = (before[0] + 1, n)
    at = next(a for a in range(whole, -1, -1) if best[a] is not None)
    counts = dict.fromkeys(sorted(sizes, reverse=True), 0)
    while at > 0:
        n = best[at][1]  # type: ignore[index]
        counts[sizes[n]] += 1
        at -= grains[n]
    return counts


def several_sizes(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "444 mL into 100s, 50s and 30s": both ways side by side, or the same again the other way; None where one size is spoken of."""
    if len(reading.sizes) < 2:
        return _share_filled(session, reading, answers) or _filled_again(session, reading, answers)
    sizes = [f.value for f in reading.sizes]
    frames = reading.frames | (session.batch.frames if session.batch is not None else frozenset())
    if "dose" in frames and not any(s.quantity in SAID for s in reading.said) and any(s.quantity in ("dose", "course", "daily") for s in reading.said):
        session.sizes = tuple(sorted(sizes))
        _use(reading.sizes, "bottle_size", answers)
        return None  # which of them holds the course is told once the course is reckoned
    said = next((s for s in reading.said if s.quantity in SAID), None)
    volume = said.value if said is not None else None
    if volume is None and session.last is not None:
        volume = next((v for k in POOLS if (v := session.last.value(k)) is not None), None)
    _use(reading.sizes, "bottle_size", answers)
    if said is not None:
        answers.used.append(Used(text=reading.heard[said.start : said.end][:40], start=said.start, end=min(said.end, said.start + 40), quantity="to_bottle"))
    if volume is None:
        return answers.reply(
            "asking",
            "How many millilitres are there to bottle?",
            questions=(Question(text="How many millilitres are there to bottle?", wants=("to_bottle",), choices=("444 mL",)),),
        )
    return _told(session, answers, Filled(session.turn, volume, tuple(sizes)), reading.heard)


@dataclass(frozen=True, slots=True)
class Filled:
    """What was bottled at a turn: mL, and the mL of each size there is."""

    turn: int
    volume: float
    sizes: tuple[float, ...]


def _share_filled(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Put half of the lot in 30s", "a third of it into 100s": a share of what there is to bottle; the lot itself stays as it is."""
    share = next((a for a in reading.acts if a.name == "scale_n" and len(a.figures) == 1 and 0 < a.figures[0] < 1), None)
    sizes = [s for s in reading.said if s.quantity == "bottle_size"]
    if share is None or len(sizes) != 1 or len(reading.said) != 1 or reading.loose or reading.ingredients or session.last is None:
        return None
    if not INTO.search(reading.heard[: sizes[0].start]) or share.start > sizes[0].start:
        return None
    volume = next((v for k in ("to_bottle", *POOLS) if (v := session.last.value(k)) is not None), None)
    if volume is None:
        return None
    _use(sizes, "bottle_size", answers)
    answers.used += [
        Used(text=reading.heard[r.start : r.end][:40], start=r.start, end=min(r.end, r.start + 40), quantity="reference")
        for r in reading.references
        if share.start <= r.start < share.end
    ]
    return _told(session, answers, Filled(session.turn, volume * share.figures[0], (sizes[0].value,)), reading.heard)


INTO = looked_for(r"\b(?:in|into|to)\s*(?:the|my|some|a few)?\s*$", re.IGNORECASE)
WITHOUT = looked_for(r"\b(?:no|without|out of|ran out of|run out of|minus|not the|leave out|skip)\b", re.IGNORECASE)
LEAST = looked_for(r"\b(?:least|less|smallest|minimum)\b[^,;.]*\b(?:left|over|waste|wasted|remainder)\b|\bleft over\b|\bwaste\b", re.IGNORECASE)
FEWEST = looked_for(r"\b(?:fewest|fewer|least) (?:bottles|number|jars|vials)\b|\bfewest\b|\bfew(?:er)? bottles\b", re.IGNORECASE)


def _filled_again(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """Right behind such a filling: "least left over?", "fewest bottles?", "without the 30s", "and 500 mL?"."""
    filled = session.filled
    if filled is None or session.turn - filled.turn > 1:
        return None
    figures: list[Said | Loose] = [*reading.said, *reading.loose, *reading.sizes]
    dropped = [f for f in figures if f.value in filled.sizes]
    if WITHOUT.search(reading.heard) and dropped and len(dropped) == len(figures) and len(filled.sizes) - len(dropped) >= 2:
        _use(dropped, "bottle_size", answers)
        kept = tuple(s for s in filled.sizes if s not in {f.value for f in dropped})
        return _told(session, answers, replace(filled, turn=session.turn, sizes=kept), reading.heard)
    if not figures and (FEWEST.search(reading.heard) or LEAST.search(reading.heard)):
        return _told(session, answers, replace(filled, turn=session.turn), reading.heard)
    volumes: list[Said | Loose] = [s for s in reading.said if s.quantity in SAID | {"bottle_size", "dose"}]
    volumes += [f for f in reading.loose if f.kind == "mL"]
    if len(figures) == 1 and volumes and volumes[0].value > max(filled.sizes) and not reading.asked and not reading.named and not reading.acts:
        _use(volumes, "to_bottle", answers)
        return _told(session, answers, replace(filled, turn=session.turn, volume=volumes[0].value), reading.heard)
    return None


def _use(figures: Sequence[Said | Loose], quantity: str, answers: Answers) -> None:
    heard = answers.heard
    answers.used += [Used(text=heard[f.start : f.end][:40], start=f.start, end=min(f.end, f.start + 40), quantity=quantity) for f in figures]


def _told(session: Session, answers: Answers, filled: Filled, heard: str) -> Reply:
    session.filled = filled
    ways = [("fewest bottles", fewest(filled.volume, filled.sizes)), ("least left over", least_left(filled.volume, filled.sizes))]
    if ways[0][1] == ways[1][1]:
        ways = [("", ways[0][1])]
    elif LEAST.search(heard) and not FEWEST.search(heard):
        ways.reverse()
    lines, values = [], []
    for name, counts in ways:
        over = filled.volume - sum(size * n for size, n in counts.items())
        bottles = " and ".join(f"{n} of {shown('bottle_size', size)}" for size, n in counts.items() if n)
        lines.append(f"{(name + ': ').capitalize() if name else ''}{bottles or 'no bottle'}, {shown('rest', over)} over.")
        values += [
            Value(quantity="bottles", about=f"{number(size, 'mL')} mL", batch=name, value=float(n), unit="1", text=f"{n}") for size, n in counts.items() if n
        ]
        values.append(Value(quantity="bottles", batch=name, value=float(sum(counts.values())), unit="1", text=f"{sum(counts.values())} in all"))
        values.append(Value(quantity="rest", batch=name, value=over, unit="mL", text=shown("rest", over)))
    return answers.reply("answered", "\n".join(lines), batch=session.batch, values=tuple(values))


def holding(session: Session, worked: Worked, reply: Reply) -> Reply:
    """The reply with the smallest bottle on the shelf that holds the course, where bottles to choose from were told."""
    supply = worked.value("supply")
    if not session.sizes or supply is None or reply.status != "answered":
        return reply
    size = next((s for s in session.sizes if s >= supply - 1e-9), None)
    if size is None:
        largest = session.sizes[-1]
        return reply.model_copy(update={"text": f"{reply.text}\nNo bottle of yours holds it: the largest is {shown('bottle_size', largest)}."})
    value = Value(quantity="bottle_size", value=size, unit="mL", text=shown("bottle_size", size), origin="found")
    return reply.model_copy(update={"text": f"{reply.text}\nThe {shown('bottle_size', size)} bottle holds it.", "values": (*reply.values, value)})
