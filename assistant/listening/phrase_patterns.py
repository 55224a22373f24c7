"""One phrase as a regular expression over the tokens of a sentence, and what it weighs.

A function word counts little, any other word and any figure 1; a required group counts as its least telling alternative; what may be
missing counts nothing. The anchors are words one of which must stand in a sentence for the phrase to fit: they choose the few phrases
that are tried at all.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from assistant.dataclass import dataclass
from assistant.faults import BenchError

GAP = r"(?:[^<>,.;?! ]+ ){0,%d}"
LOOSE_GAP = r"(?:[^<>.;?! ]+ ){0,%d}"
# Words that say little by themselves: a phrase that rests on them gives way to one that names its quantity.
FUNCTION_WORDS = frozenset(
    "using off at to with in of for on from by the a an is it its it's and or my , . as into be are was so then that this i up down out about".split()
)
LITTLE = 0.3
KINDS_OF_UNIT = {"g": "g", "mL": "mL", "percent": "%", "1": "#", "drop": "drop", "day": "day", "g/mL": "g/mL", "mL/g": "mL/g", "degC": "C"}
ALSO = {
    "g": ("g", "oz"),
    "mL": ("mL", "oz", "cup"),
    "#": ("#", "n"),
    "bx": ("bx",),
    "any": ("g", "oz", "mL", "cup", "%", "#", "n", ":", "drop", "day", "mL/g", "g/mL", "part", "x", "money", "C", "per"),
}


@dataclass(frozen=True, slots=True)
class Capture:
    """One island of a phrase: the regex group, and the quantity it becomes (`_` for none)."""

    group: str
    quantity: str


@dataclass(frozen=True, slots=True)
class Worth:
    """What a phrase weighs, the words one of which it needs, the kinds of figure it needs."""

    weight: float
    anchors: frozenset[str]
    needs: frozenset[str]


class Patterns:
    """Translates phrases, knowing the word classes, the units of the quantities and the kinds their blocks declare."""

    def __init__(self, units: Mapping[str, str], classes: dict[str, frozenset[str]], kinds: dict[str, str]) -> None:
        self.units = units
        self.classes = classes
        self.kinds = kinds
        self._met: dict[str, frozenset[str]] = {}
        self._written: dict[str, str] = {}

    def kinds_for(self, block: str, kinds: str) -> str:
        """The kinds of figure a block takes: as declared, else those of its unit."""
        kinds = kinds or self.kinds.get(block, "")
        return kinds or KINDS_OF_UNIT.get(self.units.get(block, ""), "#")

    def worth(self, body: str, block: str, own: str, where: str, words: set[str]) -> Worth:
        """Weigh a phrase and find its anchors; its words are added to `words`. Fails with BenchError on a name that is no quantity."""
        anchors: frozenset[str] = frozenset()
        needs: set[str] = set()
        weight = 0.0
        depth = 0
        group_worth = choice_worth = 0.0
        choices: list[frozenset[str]] = []  # of a required group, the words one of which each alternative needs
        alone = len(body.split()) == 1
        for element in body.split():
            if element in GROUPING:
                if element == "(" and depth == 0:
                    group_worth, choice_worth, choices = 1.0, 0.0, [frozenset()]
                elif depth == 1:
                    group_worth, choice_worth = min(group_worth, choice_worth or 1.0), 0.0
                    if element == "|":
                        choices.append(frozenset())
                    if element in (")", ")+"):
                        weight += group_worth
                        wanted = frozenset().union(*choices) if all(choices) else frozenset()
                        if wanted and (not anchors or len(wanted) < len(anchors)):
                            anchors = wanted
                depth += {"(": 1, "|": 0}.get(element, -1)
                continue
            core, optional = core_of(element)
            if core in GAPS:
                continue
            if core.startswith("<"):
                _, _, kinds = self._island(core, block, own, 0, where, alone=alone)
                if not optional and depth == 0:
                    weight += 1.0
                    if len(kinds) == 1:
                        needs.add(kinds[0])
                continue
            spelt = self._alternatives(core)
            worth = LITTLE if spelt & FUNCTION_WORDS else 1.0
            if depth > 0:
                choice_worth = max(choice_worth, worth)
            if depth == 1 and spelt and not optional and not choices[-1]:
                choices[-1] = frozenset(w.split("_")[0] for w in spelt)
            if not optional and depth == 0 and core not in ("ASKEND", "QEND"):
                weight += worth
                if spelt and (not anchors or len(spelt) < len(anchors)):
                    anchors = frozenset(w.split("_")[0] for w in spelt)
            words.update(part for w in spelt for part in w.split("_") if part.isalpha())
        return Worth(weight, anchors, frozenset(needs))

    def requirements(self, body: str) -> tuple[frozenset[str], ...]:
        """Sets of words, one of each of which a sentence must bear for the phrase to fit: its required words and required groups."""
        needed: list[frozenset[str]] = []
        depth = 0
        choices: list[frozenset[str]] = []
        for element in body.split():
            if element in GROUPING:
                if element == "(" and depth == 0:
                    choices = [frozenset()]
                elif element == "|" and depth == 1:
                    choices.append(frozenset())
                elif element in (")", ")+") and depth == 1 and all(choices):
                    needed.append(frozenset().union(*choices))
                depth += {"(": 1, "|": 0}.get(element, -1)
                continue
            core, optional = core_of(element)
            if optional or core in GAPS or core.startswith("<"):
                continue
            spelt = frozenset(w.split("_")[0] for w in self._alternatives(core))
            if spelt and depth == 0:
                needed.append(spelt)
            elif spelt and depth == 1 and not choices[-1]:
                choices[-1] = spelt
        return tuple(sorted(needed, key=len))

    def compiled(self, body: str, block: str, own: str) -> tuple[re.Pattern[str], tuple[Capture, ...]]:
        """The expression of a phrase, and its captures in order."""
        captures: list[Capture] = []
        parts: list[str] = []
        alone = len(body.split()) == 1
        for element in body.split():
            if element in GROUPING:
                parts.append({"(": "(?:"}.get(element, element))
                continue
            core, optional = core_of(element)
            if core in GAPS:
                parts.append(GAPS[core])
                continue
            if core.startswith("<"):
                text, capture, _ = self._island(core, block, own, len(captures), "", alone=alone)
                captures.extend(capture)
            else:
                text = self._words_regex(core, self._alternatives(core))
            parts.append(f"(?:{text})?" if optional else text)
        return re.compile(r"(?<![^ ])" + "".join(parts)), tuple(captures)

    def _island(self, core: str, block: str, own: str, count: int, where: str, *, alone: bool) -> tuple[str, list[Capture], list[str]]:
        inside = core.strip("<>")
        if inside.startswith("::"):
            kinds, name = ":", inside[2:]
        else:
            kinds, _, name = inside.rpartition(":") if ":" in inside else (inside, "", "")
            if inside == ":":
                kinds = ":"
        if inside == ":_":
            kinds, name = ":", "_"
        if inside in ("", "+"):
            kinds, name = own + ("|#" if inside == "+" and "#" not in own.split("|") else ""), block
        elif kinds == "+":
            kinds = self.kinds_for(name, "") + "|#"
        elif kinds == "":
            kinds = self.kinds_for(name, "")
        if name and name != "_" and name not in self.units:
            raise BenchError(what=f"“{core}” names no quantity", where=where, try_this="write <kind:quantity>")
        if name == "_":
            name = ""
        alternatives: list[str] = []
        for kind in kinds.split("|"):
            alternatives.extend(ALSO.get(kind, (kind,)))
        if alternatives == ["%"] and (name or block) in SAID_AS_SHARES and not alone:
            alternatives.append("share")  # "lose a fifth"
        group = f"c{count}"
        text = f"(?P<{group}><(?:{'|'.join(re.escape(a) for a in dict.fromkeys(alternatives))})>) "
        if not name:
            name = "_" if inside.endswith(":_") else block
        if name != "_" and name not in self.units:
            name = "_"
        return text, [Capture(group, name)], list(dict.fromkeys(alternatives))

    def _alternatives(self, core: str) -> frozenset[str]:
        known = self._met.get(core)
        if known is None:
            known = self._met[core] = self._spelt_out(core)
        return known

    def _spelt_out(self, core: str) -> frozenset[str]:
        words: set[str] = set()
        for option in core.split("/"):
            if option in ("PLANT", "ASKEND", "QEND", "WORD"):
                return frozenset()
            if option.isupper() and option in self.classes:
                words |= self.classes[option]
            else:
                words.add(option)
        return frozenset(words)

    def _words_regex(self, core: str, words: frozenset[str]) -> str:
        known = self._written.get(core)
        if known is None:
            known = self._written[core] = self._regex_of(core, words)
        return known

    def _regex_of(self, core: str, words: frozenset[str]) -> str:
        if core == "PLANT":
            return "(?:@ )"
        if core == "WORD":
            return r"[^<>,.;:?! ]+ "
        if core == "QEND":
            return r"(?=\? |$|[.!] $)"
        if core == "ASKEND":
            return r"(?=\? |$|[.,;] )"
        ordered = sorted(words, key=lambda w: (-len(w), w))
        return "(?:" + "|".join(re.escape(w.replace("_", " ")) for w in ordered) + ") "


# "lose a fifth", "three quarters full": percents that are also said as fractions.
SAID_AS_SHARES = frozenset({"trim_loss", "yield_share", "fill", "rack_loss", "stand_share", "margin", "share"})
GROUPING = frozenset({"(", "|", ")", ")?", ")*", ")+"})
GAPS = {"..": GAP % 4, "...": LOOSE_GAP % 9, "~": GAP % 1}


def core_of(element: str) -> tuple[str, bool]:
    """An element without its question mark, and whether it may be missing."""
    optional = len(element) > 1 and element.endswith("?")
    return (element[:-1] if optional else element), optional
