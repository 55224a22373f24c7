"""The door for people who write rules: the page on how to write one, and the check of a folder of their own.

Every fault is told with file, line, column and the nearest known name; then each rule's two examples are spoken to a whole conversation that
has the folder laid over the shipped rules: the one must make the rule speak, the near miss must not.
"""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from assistant.cautions.fault import Fault
from assistant.cautions.folder import Pack, faults_in, read_folder
from assistant.cautions.rules import Rule

MANY = 3  # cautions under one answer; where so many stand, the rest is asked for
THE_REST = "what else should I know"


class Checked(NamedTuple):
    """What a check found: the lines to print, and whether all is well."""

    lines: tuple[str, ...]
    is_good: bool


def page() -> str:
    """How to write a rule, and everything a rule can say."""
    from assistant.cautions.page import page as rules_page

    return rules_page()


def check(folder: Path) -> Checked:
    """Every fault of a folder of rules and plants, and what its examples did. Never raises on account of what stands in it."""
    pack = read_folder(folder)
    faults = faults_in(pack)
    lines = [str(fault) for fault in faults]
    failed = [line for rule in pack.own for line in spoken(rule, pack)]
    lines += failed
    lines.append(_in_all(pack, faults, failed))
    return Checked(tuple(lines), not faults and not failed)


def spoken(rule: Rule, pack: Pack) -> Iterable[str]:
    """What is wrong with a rule's two examples as the whole program hears them, a line each."""
    where = f"{rule.file}, line {rule.line}: {rule.id}"
    for sentences, must in ((rule.fires_on, True), (rule.silent_on, False)):
        status, cautions = _said(sentences, pack)
        mine = [level for ident, level in cautions if ident == rule.id]
        heard = " then ".join(f"“{s}”" for s in sentences)
        if must and not mine:
            others = ", ".join(ident for ident, _ in cautions) or "nothing"
            yield f"{where} is silent on {heard}, which should make it speak (the reply was {status}, with {others})."
        elif must and mine[0] != rule.level:
            yield f"{where} speaks as {mine[0]} on {heard}, not as {rule.level}: the last thing it looks at was not said."
        elif not must and mine:
            yield f"{where} speaks on {heard}, where it should be silent."


def _said(sentences: Sequence[str], pack: Pack) -> tuple[str, list[tuple[str, str]]]:
    """The status of the last reply and every caution of it, (name of the rule, level)."""
    from assistant.session import Session
    from assistant.turns import answer

    session = Session()
    session.pack = pack
    replies = [answer(session, sentence) for sentence in sentences]
    if not replies:
        return "none", []
    cautions = list(replies[-1].cautions)
    if len(cautions) >= MANY:
        cautions += answer(session, THE_REST).cautions
    return replies[-1].status, [(c.id, c.level) for c in cautions]


def _in_all(pack: Pack, faults: Sequence[Fault], failed: Sequence[str]) -> str:
    rules = f"{len(pack.own)} rule{'' if len(pack.own) == 1 else 's'} of your own read beside {len(pack.book) - len(pack.own)} shipped ones"
    if not faults and not failed:
        return f"All is well: {rules}, and their examples hold."
    parts = []
    if faults:
        parts.append(f"{len(faults)} fault{'' if len(faults) == 1 else 's'}")
    if failed:
        parts.append(f"{len(failed)} example{' that does' if len(failed) == 1 else 's that do'} not hold")
    return f"{' and '.join(parts)}; {rules}."
