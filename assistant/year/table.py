"""A table: at most 60 columns on a screen, the same as CSV, as Markdown and as a page that prints."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.book.page import table_page
from assistant.book.spreadsheets import as_csv
from assistant.dataclass import dataclass

WIDTH = 60
GAP = 2
LEAST_NAME = 8  # columns a name keeps when a table is too wide


@dataclass(frozen=True, slots=True)
class Cell:
    """One figure: the words shown, and the plain number a spreadsheet gets (None for words alone)."""

    text: str
    value: float | None = None


NOTHING = Cell("–")


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of cells under heads; the first column holds names and stands left, the others right.

    units   the unit of each column, as the CSV names it beside its head ("" for none)
    total   a last row that stands apart; empty for none
    note    what the figures are in, a line below
    """

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    total: tuple[Cell, ...] = ()
    units: tuple[str, ...] = ()
    note: str = ""

    def as_text(self, width: int = WIDTH) -> str:
        """The table in at most `width` columns: names are cut where they must be, figures never; what does not fit goes below in a second part."""
        parts, first = [], 1
        while first < len(self.heads):
            last = self._fitting(first, width)
            parts.append(self._part(first, last, width))
            first = last
        return "\n\n".join(parts) + (f"\n{self.note}" if self.note else "")

    def _widths(self) -> list[int]:
        every = [self.heads, *((c.text for c in row) for row in (*self.rows, *([self.total] if self.total else [])))]
        return [max(len(text) for text in column) for column in zip(*every, strict=True)]

    def _fitting(self, first: int, width: int) -> int:
        """Behind the last column that still fits beside the names."""
        widths = self._widths()
        room = width - min(widths[0], LEAST_NAME)
        last = first
        while last < len(widths) and (room := room - widths[last] - GAP) >= 0:
            last += 1
        return max(last, first + 1)

    def _part(self, first: int, last: int, width: int) -> str:
        widths = self._widths()
        names = min(widths[0], width - sum(w + GAP for w in widths[first:last]))

        def line(cells: Sequence[str]) -> str:
            name = cells[0] if len(cells[0]) <= names else cells[0][: names - 1] + "…"
            return (name.ljust(names) + "".join(" " * GAP + cells[i].rjust(widths[i]) for i in range(first, last))).rstrip()

        lines = [line(self.heads), *(line([c.text for c in row]) for row in self.rows)]
        if self.total:
            lines += ["-" * min(width, names + sum(w + GAP for w in widths[first:last])), line([c.text for c in self.total])]
        return "\n".join(lines)

    def as_csv(self) -> str:
        """Plain numbers in bench units, the unit beside each head."""
        units = self.units or ("",) * len(self.heads)
        heads = [f"{head} [{unit}]" if unit else head for head, unit in zip(self.heads, units, strict=True)]
        return as_csv(heads, ([plain(c) for c in row] for row in (*self.rows, *([self.total] if self.total else []))))

    def as_markdown(self) -> str:
        lines = [f"# {self.title}", "", _piped(self.heads), _piped(["---", *("---:" for _ in self.heads[1:])])]
        return "\n".join([*lines, *(_piped([c.text for c in row]) for row in (*self.rows, *([self.total] if self.total else [])))]) + "\n"

    def as_page(self, paper: str = "a4") -> str:
        """HTML that stands alone."""
        rows = [[c.text for c in row] for row in self.rows]
        return table_page(self.title, self.heads, rows, [c.text for c in self.total], paper)


def plain(cell: Cell) -> object:
    """A cell as a spreadsheet gets it."""
    if cell.value is None or cell.text.isalpha():  # a month goes by its name
        return "" if cell == NOTHING else cell.text
    value = round(cell.value, 6)
    return int(value) if value == int(value) else value


def _piped(cells: Sequence[str]) -> str:
    return "| " + " | ".join(c.replace("|", "\\|") for c in cells) + " |"
