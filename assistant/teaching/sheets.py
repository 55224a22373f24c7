"""Worksheet and answer key as text, Markdown, or one printable page that needs nothing beside it."""

from __future__ import annotations

import html
from collections.abc import Sequence

from assistant.quantities.showing import caption, shown
from assistant.teaching.problems import Problem
from assistant.teaching.working import worked

FORMS = ("text", "markdown", "html")
STYLE = """body{font:12pt/1.5 Georgia,serif;max-width:42em;margin:2em auto;padding:0 1em;color:#000;background:#fff}
h1{font-size:1.4em}h2{font-size:1.15em;margin-top:2em}li{margin:0 0 1.6em}.room{border-bottom:1px solid #999;height:2.6em}
.key li{margin:0 0 .8em}pre{font:10pt/1.4 monospace;white-space:pre-wrap;margin:.2em 0}@media print{.key{page-break-before:always}body{margin:0}}"""


def answer_of(problem: Problem) -> str:
    """The key's line: "menstruum 224 mL"."""
    return f"{caption(problem.asked)} {shown(problem.asked, problem.answer)}"


def working_of(problem: Problem) -> list[str]:
    """The arithmetic of a problem, a line each."""
    return [line.numbers for line in worked(problem.case, problem.asked)]


def worksheet(problems: Sequence[Problem], number: int, form: str = "text", *, key: bool = True) -> str:
    """The problems, and behind them the answer key where it is wanted.

    number  of the sheet, by which the same one is made again
    form    text | markdown | html
    """
    if form == "html":
        return _page(problems, number, key=key)
    head, item, sub = ("# ", "{n}. {t}", "## ") if form == "markdown" else ("", "{n}. {t}", "")
    lines = [f"{head}Worksheet {number}", ""]
    for n, problem in enumerate(problems, 1):
        lines += [item.format(n=n, t=problem.text), ""]
    if key:
        lines += [f"{sub}Answers to worksheet {number}", ""]
        for n, problem in enumerate(problems, 1):
            lines.append(item.format(n=n, t=answer_of(problem)))
            lines += [f"   {'`' if form == 'markdown' else ''}{line}{'`' if form == 'markdown' else ''}" for line in working_of(problem)]
    return "\n".join(lines).rstrip() + "\n"


def _page(problems: Sequence[Problem], number: int, *, key: bool) -> str:
    title = f"Worksheet {number}"
    asked = "\n".join(f'<li>{html.escape(p.text)}<div class="room"></div></li>' for p in problems)
    body = f"<h1>{title}</h1>\n<ol>\n{asked}\n</ol>"
    if key:
        answers = "\n".join(f"<li>{html.escape(answer_of(p))}<pre>{html.escape(chr(10).join(working_of(p)))}</pre></li>" for p in problems)
        body += f'\n<section class="key"><h2>Answers to worksheet {number}</h2>\n<ol>\n{answers}\n</ol></section>'
    return f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title><style>{STYLE}</style></head>\n<body>\n{body}\n</body></html>\n'
