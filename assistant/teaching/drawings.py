"""Drawings in plain characters, at most 60 columns wide, each with a spoken equivalent for those who cannot see it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from assistant.dataclass import dataclass
from assistant.faults import HouseFault
from assistant.quantities.showing import number
from assistant.teaching.crosswise import linked_parts, links

WIDTH = 60
BAR = 50
MARKS = "#=+-:o*%.x"


@dataclass(frozen=True, slots=True)
class Drawing:
    """Lines of at most 60 columns, and the same in words."""

    lines: tuple[str, ...]
    spoken: str

    def __post_init__(self) -> None:
        if any(len(line) > WIDTH for line in self.lines):
            raise HouseFault(f"a drawing wider than {WIDTH} columns", where=max(self.lines, key=len))


def alligation(strong: float, weak: float, wanted: float) -> Drawing:
    """The alligation square: percents, the wanted one between the two. Simple parts, without the shrinking, and says so."""
    if not weak < wanted < strong:
        raise HouseFault("alligation needs the wanted strength between the two", where=f"{strong:g}, {weak:g}, {wanted:g}")
    of_strong, of_weak = wanted - weak, strong - wanted
    a, b, c, d, e = (number(v, "percent") for v in (strong, weak, wanted, of_strong, of_weak))
    lines = (
        f"  {a:>5} %           {d:>5} parts of {a} %",
        "         \\         /",
        f"          {c:^5} %",
        "         /         \\",
        f"  {b:>5} %           {e:>5} parts of {b} %",
        "by simple parts: the mixture shrinks a little",
    )
    spoken = (
        f"{a} stands top left, {b} bottom left, {c} in the middle. Across the corners: {c} less {b} is {d} parts of the {a} percent; "
        f"{a} less {c} is {e} parts of the {b} percent. These are simple parts; mixed, they shrink a little."
    )
    return Drawing(lines, spoken)


def alligation_of_many(strengths: Sequence[float], wanted: float) -> Drawing:
    """The same for three or more: the strong above, the weak below, each with its links and its parts."""
    parts_of = linked_parts(strengths, wanted)
    partners: dict[float, list[float]] = {s: [] for s in parts_of}
    for above, below in links(strengths, wanted):
        partners[above].append(below)
        partners[below].append(above)
    lines, told, middle = [], [], False
    for strength, parts_ in parts_of.items():
        if strength < wanted and not middle:
            lines.append(f"          {number(wanted, 'percent'):^5} %")
            middle = True
        mates = " and ".join(number(m, "percent") for m in partners[strength])
        total = number(sum(parts_), "1")
        worked = total if len(parts_) == 1 else " + ".join(number(p, "1") for p in parts_) + f" = {total}"
        lines.append(f"  {number(strength, 'percent'):>5} %   with {mates:<12} {worked} parts"[:WIDTH])
        told.append(f"{number(strength, 'percent')} percent, linked with {mates}, takes {worked} parts")
    lines.append("by simple parts, without shrinking; one way of many")
    spoken = f"{number(wanted, 'percent')} stands in the middle. {'; '.join(told)}. These are simple parts, and one way of many; mixed, they shrink a little."
    return Drawing(tuple(line[:WIDTH] for line in lines), spoken)


def jar(liquid: float, herb_room: float = 0.0, size: float | None = None) -> Drawing:
    """A jar with its layers, mL: headspace, what the plant takes, liquid. Without a size the jar is as large as what is in it."""
    contents = liquid + herb_room
    whole = max(size or contents, 1e-9)
    if contents > whole * (1 + 1e-9):
        over = number(contents - whole, "mL")
        return Drawing((f"It does not fit: {over} mL too much for {number(whole, 'mL')} mL.",), f"It does not fit: {over} millilitres too much.")
    layers = [("headspace", whole - contents, " "), ("plant", herb_room, "%"), ("liquid", liquid, "~")]
    lines = ["  ____________", " /            \\"]
    told = []
    for name, volume, mark in layers:
        if volume <= 0.005 * whole:
            continue
        rows = max(1, round(8 * volume / whole))
        share = f"{number(volume, 'mL')} mL, {number(100 * volume / whole, 'percent')} %"
        lines += [f"|{mark * 14}|" + (f"  {name}: {share}" if row == rows // 2 else "") for row in range(rows)]
        told.append(f"{name} {number(volume, 'mL')} millilitres, {number(100 * volume / whole, 'percent')} percent of the jar")
    lines.append("|______________|")
    return Drawing(tuple(lines), f"A jar of {number(whole, 'mL')} millilitres, from the top: {'; '.join(told)}.")


def strengths(stock: float | None, poured: float, finished: float | None) -> Drawing:
    """A bar from 0 to 100 % for each: stock, poured, finished."""
    rows = [(name, value) for name, value in (("stock", stock), ("poured", poured), ("finished", finished)) if value is not None]
    scale = 36
    lines = ["          0" + " " * (scale // 2 - 3) + "50" + " " * (scale // 2 - 3) + "100 %"]
    lines += [f"{name:<9} |{'#' * round(scale * value / 100):<{scale}}| {number(value, 'percent')} %" for name, value in rows]
    falls = ", ".join(f"{name} {number(value, 'percent')} percent" for name, value in rows)
    return Drawing(tuple(lines), f"From the bottle to the jar: {falls}.")


def parts(shares: Mapping[str, float], unit: str = "") -> Drawing:
    """A formula as one bar, each ingredient its share, and the list below it. Amounts or parts; more than nothing in all."""
    whole = sum(shares.values())
    if whole <= 0:
        raise HouseFault("a formula of nothing cannot be drawn", where=", ".join(shares))
    widths = _widths(list(shares.values()), whole)
    marks = [MARKS[n % len(MARKS)] for n in range(len(shares))]
    lines = ["[" + "".join(mark * width for mark, width in zip(marks, widths, strict=True)) + "]"]
    told = []
    for mark, (name, share) in zip(marks, shares.items(), strict=True):
        amount = f"{number(share, unit or '1')}{' ' + unit if unit else ''}"
        percent = number(100 * share / whole, "percent")
        lines.append(f"{mark * 3} {name[:24]}: {amount}, {percent} %"[:WIDTH])
        told.append(f"{name} {amount}, {percent} percent")
    return Drawing(tuple(lines), f"The whole is {'; '.join(told)}.")


def _widths(values: list[float], whole: float) -> list[int]:
    """Columns for each share, BAR in all: what is left by rounding down goes to the largest remainders."""
    exact = [BAR * value / whole for value in values]
    widths = [int(x) for x in exact]
    for n in sorted(range(len(values)), key=lambda n: widths[n] - exact[n])[: BAR - sum(widths)]:
        widths[n] += 1
    return widths
