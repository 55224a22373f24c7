"""Facts → cautions: which rules speak, in which order, and what they say. Never fails on a person's numbers.

Rules are woken by what they look at (a figure, a tag, a flag of a plant), so that a thousand of them cost little more than a hundred.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from assistant.cautions.conditions import And, Compare, Condition, Flagged, Key, Or, Scene, Tagged, keys_of_each, usual_span
from assistant.cautions.facts import UNKNOWN, YES, Facts
from assistant.cautions.plant import Plant, Span
from assistant.cautions.rules import EVIDENCE, LEVELS, Caution, Rule
from assistant.tagtable import TagTable

PRACTISING = "practising"  # the tag of one who practises: some stops become warnings
_SOFTER = {"stop": "warn", "warn": "note", "note": "note"}  # level of a question
_PLACE = re.compile(r"\{([^{}]*)\}")
_SENTENCES = re.compile(r"(?<=[.!?])\s+")
_UNITS = {"percent": " %", "g": " g", "mL": " mL", "g/mL": " g/mL", "mL/g": " mL/g", "drop": " drops", "day": " days", "degC": " °C"}
_OF_THE_PLANT = frozenset({"plant", "latin", "note", "part", "usual strength", "usual ratio", "usual daily weight"})


class RuleBook:
    """All rules in order, with what wakes each. `units` tells the bench unit of a quantity's key, `sources` the title of a source.

    Rules out of the ready file stay plain data until they are woken.
    """

    def __init__(self, data: Sequence[Mapping[str, Any] | Rule], sources: Mapping[str, str], tags: TagTable, units: Mapping[str, str]) -> None:
        self.data = data
        self.sources = sources
        self.tags = tags
        self.units = units
        self._made: dict[int, Rule] = {}
        self._index: dict[Key, list[int]] = {}
        self._always: list[int] = []
        self._plantless: set[int] = set()
        self._needed: dict[int, tuple[str, ...]] = {}
        for place, item in enumerate(self.data):
            keys, plantless = (wakes_of(item), is_plantless(item)) if isinstance(item, Rule) else (item["wakes"], item["plantless"])
            if plantless:
                self._plantless.add(place)
            if keys is None:
                self._always.append(place)
                continue
            for kind, name in keys:
                self._index.setdefault((kind, name), []).append(place)

    def __len__(self) -> int:
        return len(self.data)

    def rule(self, place: int) -> Rule:
        made = self._made.get(place)
        if made is None:
            item = self.data[place]
            made = self._made[place] = item if isinstance(item, Rule) else Rule.from_data({k: v for k, v in item.items() if k not in ("wakes", "plantless")})
        return made

    def rules(self) -> tuple[Rule, ...]:
        return tuple(self.rule(place) for place in range(len(self.data)))

    def called(self, ident: str) -> Rule | None:
        """The rule of that name."""
        for place, item in enumerate(self.data):
            if (item.id if isinstance(item, Rule) else item["id"]) == ident:
                return self.rule(place)
        return None

    def all_firing(self, facts: Facts) -> list[Caution]:
        """Everything that speaks about these facts, whether it was said before or not: stops, then warnings, then notes."""
        held, denied = self.tags.closed(facts.tags, facts.denied)
        facts = facts._replace(tags=held, denied=denied, of_each=keys_of_each(facts.figures))
        scenes = [Scene(facts, denied, plant) for plant in facts.plants] or [Scene(facts, denied)]
        woken = set(self._always)
        for key in _present(facts, scenes):
            woken.update(self._index.get(key, ()))
        spoken = [caution for place in sorted(woken) if (caution := self._caution(place, facts, scenes))]
        return sorted(spoken, key=lambda caution: (LEVELS.index(caution.level), caution.asked))

    def _caution(self, place: int, facts: Facts, scenes: list[Scene]) -> Caution | None:
        rule = self.rule(place)
        if len(scenes) > 1 and _at_most(rule.when, scenes[0]) < (UNKNOWN if rule.asks else YES):
            return None  # so it is with every plant
        if rule.level == "stop":
            scenes = [scene._replace(strict=True) for scene in scenes]
        if not rule.asks:  # then it can speak only of plants that bear its flag
            for flag in self._flags_needed(place, rule):
                scenes = [scene for scene in scenes if scene.plant is not None and scene.plant.is_known and scene.plant.flag(flag)]
        fired: list[Scene] = []
        asked: list[Scene] = []
        for scene in scenes[:1] if place in self._plantless else scenes:
            verdict = rule.when.weigh(scene)
            if verdict < UNKNOWN or (verdict == UNKNOWN and not rule.asks):
                continue
            if rule.unless is not None and rule.unless.weigh(scene) == YES:
                continue
            if verdict == YES:
                fired.append(scene)
            elif _last_is_open(rule.when, scene):
                asked.append(scene)
        if fired:
            level = rule.practising if rule.practising and PRACTISING in facts.tags else rule.level
            return self._said(rule, rule.say, level, fired, facts, asked=False)
        if asked:
            return self._said(rule, rule.asks, _SOFTER[rule.level], asked, facts, asked=True)
        return None

    def _flags_needed(self, place: int, rule: Rule) -> tuple[str, ...]:
        """The flags without which a rule says nothing of the plant in view."""
        needed = self._needed.get(place)
        if needed is None:
            parts = rule.when.parts if isinstance(rule.when, And) else (rule.when,)
            needed = self._needed[place] = tuple(part.flag for part in parts if isinstance(part, Flagged) and not part.other)
        return needed

    def _said(self, rule: Rule, text: str, level: str, scenes: list[Scene], facts: Facts, *, asked: bool) -> Caution:
        flags = [flag for scene in scenes if (flag := _flag_of(rule.when, scene))]
        near = frozenset(atom.name for atom in rule.when.atoms() if isinstance(atom, Compare) and atom.how.startswith("may be"))
        shown = self._filled(text, scenes, facts, [flag.note for flag in flags], near)
        sources = [self.sources.get(ident, ident) + (f", {where}" if where else "") for ident, where, _ in rule.sources]
        evidence = rule.evidence
        for flag in flags if "{note}" in text else ():
            sources.append(flag.source)
            evidence = max(evidence, flag.evidence, key=EVIDENCE.index)
        return Caution(rule.id, level, rule.theme, shown, rule.why, "; ".join(dict.fromkeys(sources)), evidence, asked)

    def _filled(self, text: str, scenes: list[Scene], facts: Facts, notes: list[str], near: frozenset[str]) -> str:
        """The text with its places filled; a sentence of which a place cannot be filled is left out. Figures in `near` are shown with their ±."""
        kept: list[str] = []
        for sentence in _SENTENCES.split(text):
            filled = [(hit[0], self._place(hit[1], scenes, facts, notes, near)) for hit in _PLACE.finditer(sentence)]
            if all(value for _, value in filled):
                for place, value in filled:
                    sentence = sentence.replace(place, value)
                kept.append(sentence[:1].upper() + sentence[1:])
        return " ".join(kept) or _PLACE.sub("it", text)

    def _place(self, name: str, scenes: list[Scene], facts: Facts, notes: list[str], near: frozenset[str]) -> str:
        if name in facts.words:
            return facts.words[name]
        if name in _OF_THE_PLANT:
            return _of_the_plant(name, scenes, notes)
        for scene in scenes:
            for key in (name, f"{name}[{scene.plant.name}]" if scene.plant else name):
                figure = facts.figures.get(key)
                if figure is not None:
                    told = facts.show(key, figure.value) if facts.show else plain(figure.value, self.units.get(name, ""))
                    return f"{told} ± {figure.plus_minus:.2g}" if name in near and figure.plus_minus else told
        return ""


def speak(book: RuleBook, facts: Facts, already: frozenset[str] = frozenset()) -> list[Caution]:
    """What is to be said now: every caution not yet spoken (its `key` is not in `already`), and every stop as long as it holds."""
    return [caution for caution in book.all_firing(facts) if caution.level == "stop" or caution.key not in already]


def still_spoken(book: RuleBook, facts: Facts, already: frozenset[str]) -> frozenset[str]:
    """`already` without what no longer holds, so that a figure that tips over its limit again is told again."""
    return already & {caution.key for caution in book.all_firing(facts)}


def wakes_of(rule: Rule) -> frozenset[Key] | None:
    """What must be present, at least one of it, for a rule to speak or to ask; None where it must always be weighed."""
    if rule.asks and isinstance(rule.when, And):
        return And(rule.when.parts[:-1]).wakes()  # it asks while its last claim is open, so one of the others tells
    return rule.when.wakes()


def is_plantless(rule: Rule) -> bool:
    """Whether a rule looks at no plant, so that one look is enough however many plants there are."""
    conditions = [rule.when] + ([rule.unless] if rule.unless else [])
    texts = rule.say + rule.asks
    if any(f"{{{name}}}" in texts for name in _OF_THE_PLANT):
        return False
    return all(type(atom).__name__ in ("Tagged", "Compare", "Known") for condition in conditions for atom in condition.atoms())


def plain(value: float, unit: str) -> str:
    """A figure as a jug reads it, for when nothing better is handed in: 17.04 percent → "17 %"."""
    size = abs(value)
    digits = 0 if size >= 20 else 1 if size >= 1 else 3
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text + _UNITS.get(unit, "")


def _at_most(condition: Condition, scene: Scene) -> int:
    """The most a condition can come to, whatever plant is in view: what the tags settle need not be asked of each of forty plants."""
    if isinstance(condition, Tagged):
        return condition.weigh(scene)
    if isinstance(condition, And | Or):
        most = [_at_most(part, scene) for part in condition.parts]
        return min(most) if isinstance(condition, And) else max(most)
    return YES


def _last_is_open(when: Condition, scene: Scene) -> bool:
    """Every claim holds but the last, which is not known: that is the one worth asking about."""
    if not isinstance(when, And):
        return False
    return when.parts[-1].weigh(scene) == UNKNOWN and all(part.weigh(scene) == YES for part in when.parts[:-1])


def _present(facts: Facts, scenes: Iterable[Scene]) -> set[Key]:
    keys: set[Key] = {("tag", tag) for tag in facts.tags}
    keys.update(("figure", key.split("[", 1)[0]) for key in facts.figures)
    for scene in scenes:
        keys.add(("part", scene.part()))
        plant = scene.plant
        if plant is None:
            continue
        keys.add(("plant", "any"))
        if not plant.is_known:
            keys.add(("plant", "?"))
        keys.add(("plant", plant.latin or plant.name.lower()))
        keys.update((("family", plant.family), ("genus", plant.genus)))
        keys.update([("flag", flag.name) for flag in plant.flags])
    return keys


def _flag_of(when: Condition, scene: Scene) -> Any:
    if scene.plant is None:
        return None
    for atom in when.atoms():
        if isinstance(atom, Flagged) and not atom.other:
            flag = scene.plant.flag(atom.flag)
            if flag:
                return flag
    return None


def _of_the_plant(name: str, scenes: list[Scene], notes: list[str]) -> str:
    if name == "note":
        return "; ".join(dict.fromkeys(notes))
    if name in ("plant", "latin"):
        plants: list[Plant] = [scene.plant for scene in scenes if scene.plant]
        return _listed(list(dict.fromkeys(plant.name if name == "plant" else plant.latin for plant in plants)))
    if name == "part":
        return scenes[0].part()
    span = usual_span(scenes[0], {"usual strength": "strength", "usual ratio": "ratio"}.get(name, "daily"))
    return _range(span, {"usual strength": " %", "usual ratio": ""}.get(name, " g")) if span else ""


def _range(span: Span, unit: str) -> str:
    return f"{span.low:g}{unit}" if span.low == span.high else f"{span.low:g} to {span.high:g}{unit}"


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""
