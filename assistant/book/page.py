"""Sheets and labels as one page that prints: HTML that stands alone, with nothing fetched and nothing run.

Labels fill a grid on A4 or Letter; a label never breaks over two pages.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from assistant.book.labels import Label
from assistant.book.sheets import Sheet
from assistant.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper with its grid of labels, in millimetres."""

    name: str
    width: float
    height: float
    margin: float
    columns: int
    rows: int

    @property
    def label_width(self) -> float:
        return (self.width - 2 * self.margin) / self.columns

    @property
    def label_height(self) -> float:
        return (self.height - 2 * self.margin) / self.rows


PAPERS = {"a4": Paper("A4", 210.0, 297.0, 8.0, 3, 7), "letter": Paper("Letter", 215.9, 279.4, 8.0, 3, 6)}

_HEAD = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>{title}</title>
<style>
@page {{ size: {paper}; margin: {margin}mm; }}
* {{ box-sizing: border-box; }}
body {{ margin: 0; font-family: Georgia, serif; color: #000; background: #fff; }}
{style}
</style>
</head>
<body>
"""
_SHEET_STYLE = """main { max-width: 180mm; margin: 0 auto; font-size: 10.5pt; line-height: 1.35; }
h1 { font-size: 15pt; } h2 { font-size: 11.5pt; margin: 4mm 0 1mm; border-bottom: 0.3mm solid #000; break-after: avoid; }
table { width: 100%; border-collapse: collapse; } th { width: 34%; text-align: left; font-weight: normal; font-style: italic; }
th, td { vertical-align: top; padding: 0.5mm 2mm 0.5mm 0; overflow-wrap: anywhere; } tr { break-inside: avoid; }"""


def sheet_page(sheet: Sheet, paper: str = "a4") -> str:
    """A sheet as a page."""
    parts = [_HEAD.format(title=escape(sheet.title), paper=PAPERS[paper].name, margin=15, style=_SHEET_STYLE), f"<main>\n<h1>{escape(sheet.title)}</h1>\n"]
    for section in sheet.sections:
        parts.append(f"<h2>{escape(section.heading)}</h2>\n<table>\n")
        for name, words in section.rows:
            parts.append(f"<tr><th>{escape(name)}</th><td>{escape(words)}</td></tr>\n" if name else f'<tr><td colspan="2">{escape(words)}</td></tr>\n')
        parts.append("</table>\n")
    return "".join(parts) + "</main>\n</body>\n</html>\n"


_TABLE_STYLE = """main { max-width: 180mm; margin: 0 auto; font-size: 10.5pt; line-height: 1.35; } h1 { font-size: 15pt; }
table { width: 100%; border-collapse: collapse; } th, td { padding: 1mm 2mm; text-align: right; border-bottom: 0.2mm solid #bbb; }
th:first-child, td:first-child { text-align: left; } thead th { border-bottom: 0.4mm solid #000; } tfoot td { border-top: 0.4mm solid #000; font-weight: bold; }
tr { break-inside: avoid; }"""


def table_page(title: str, heads: Sequence[str], rows: Sequence[Sequence[str]], total: Sequence[str] = (), paper: str = "a4") -> str:
    """A table as a page: its heads come again on every sheet of paper."""

    def line(cells: Sequence[str], mark: str) -> str:
        return "<tr>" + "".join(f"<{mark}>{escape(cell)}</{mark}>" for cell in cells) + "</tr>\n"

    parts = [_HEAD.format(title=escape(title), paper=PAPERS[paper].name, margin=15, style=_TABLE_STYLE), f"<main>\n<h1>{escape(title)}</h1>\n<table>\n"]
    parts += ["<thead>\n", line(heads, "th"), "</thead>\n"]
    parts += ["<tfoot>\n", line(total, "td"), "</tfoot>\n"] if total else []
    parts += ["<tbody>\n", *(line(row, "td") for row in rows), "</tbody>\n</table>\n"]
    return "".join(parts) + "</main>\n</body>\n</html>\n"


def label_page(labels: Sequence[Label], paper: str = "a4") -> str:
    """Labels in a grid, as many to a page as the paper holds."""
    sheet = PAPERS[paper]
    style = (
        f".page {{ width: {sheet.width - 2 * sheet.margin:g}mm; height: {sheet.height - 2 * sheet.margin:g}mm; display: grid; overflow: hidden;"
        f" grid-template-columns: repeat({sheet.columns}, {sheet.label_width:.3f}mm); grid-template-rows: repeat({sheet.rows}, {sheet.label_height:.3f}mm);"
        " break-after: page; }\n.page:last-child { break-after: auto; }\n"
        ".label { border: 0.2mm dashed #999; padding: 2mm 3mm; overflow: hidden; text-align: center; break-inside: avoid; font-size: 7pt; line-height: 1.2; }\n"
        ".label b { display: block; font-size: 9.5pt; } .label i { display: block; } .label span { display: block; overflow-wrap: anywhere; }"
    )
    parts = [_HEAD.format(title="Labels", paper=sheet.name, margin=f"{sheet.margin:g}", style=style)]
    each = sheet.columns * sheet.rows
    for first in range(0, max(len(labels), 1), each):
        parts.append('<section class="page">\n')
        for label in labels[first : first + each]:
            name, *rows = label.rows()
            latin = rows[0] if (label.latin or label.part) and rows else ""
            lines = "".join(f"<span>{escape(row)}</span>" for row in (rows[1:] if latin else rows))
            parts.append(f'<div class="label"><b>{escape(name)}</b>{f"<i>{escape(latin)}</i>" if latin else ""}{lines}</div>\n')
        parts.append("</section>\n")
    return "".join(parts) + "</body>\n</html>\n"
