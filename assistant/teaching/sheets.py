"""Worksheet and answer key as text, Markdown, or one printable page that needs nothing beside it."""

from __future__ import annotations

import html
from collections.abc import Sequence

from assistant.quantities.showing import caption, shown
from assistant.teaching.problems import Problem
from assistant.teaching.working import worked

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
    head, sub = ("# ", "## ") if form == "markdown" else ("", "")
    lines = [f"{head}Worksheet {number}", ""]
    for n, problem in enumerate(problems, 1):
        lines += [f"{n}. {problem.text}", ""]
    if key:
        lines += _key_lines(problems, number, form, sub)
    return "\n".join(lines).rstrip() + "\n"


def answer_key(problems: Sequence[Problem], number: int, form: str = "text") -> str:
    """The answers with their working alone, in a form of `worksheet`."""
    if form == "html":
        return _html(f"Answers to worksheet {number}", _key_section(problems, number, "h1"))
    return "\n".join(_key_lines(problems, number, form, "# " if form == "markdown" else "")).rstrip() + "\n"


def _key_lines(problems: Sequence[Problem], number: int, form: str, head: str) -> list[str]:
    mark = "`" if form == "markdown" else ""
    lines = [f"{head}Answers to worksheet {number}", ""]
    for n, problem in enumerate(problems, 1):
        lines.append(f"{n}. {answer_of(problem)}")
        lines += [f"   {mark}{line}{mark}" for line in working_of(problem)]
    return lines


def _page(problems: Sequence[Problem], number: int, *, key: bool) -> str:
    asked = "\n".join(f'<li>{html.escape(p.text)}<div class="room"></div></li>' for p in problems)
    body = f"<h1>Worksheet {number}</h1>\n<ol>\n{asked}\n</ol>"
    if key:
        body += f'\n<section class="key">{_key_section(problems, number, "h2")}</section>'
    return _html(f"Worksheet {number}", body)


def _key_section(problems: Sequence[Problem], number: int, head: str) -> str:
    answers = "\n".join(f"<li>{html.escape(answer_of(p))}<pre>{html.escape(chr(10).join(working_of(p)))}</pre></li>" for p in problems)
    return f"<{head}>Answers to worksheet {number}</{head}>\n<ol>\n{answers}\n</ol>"


def _html(title: str, body: str) -> str:
    return f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title><style>{STYLE}</style></head>\n<body>\n{body}\n</body></html>\n'
