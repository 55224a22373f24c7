"""What the tests of the cautions share: figures written briefly, a small vocabulary, rule texts with the usual pieces filled in."""

from dataclasses import dataclass
from functools import lru_cache

from assistant.cautions import Facts, shipped
from assistant.cautions.meaning import Meaning, meaning_of
from assistant.cautions.plants import plants
from assistant.cautions.rules import Rule
from assistant.cautions.speaking import RuleBook
from assistant.quantities.vocabulary import VOCABULARY
from assistant.tagtable import tag_table


@dataclass(frozen=True)
class Figure:
    value: float
    origin: str = "said"
    plus_minus: float | None = None


@lru_cache(maxsize=1)
def meaning() -> Meaning:
    return meaning_of(VOCABULARY, tag_table(), plants(), shipped().sources)


def facts(figures=(), tags="", denied="", plant="", part="", words=(), show=None):
    """Facts from short notes: figures {"ratio": 2} or {"ratio": Figure(…)}, tags and plants as words."""
    found = {key: value if isinstance(value, Figure) else Figure(value) for key, value in dict(figures).items()}
    named = tuple(hit.plants[0] for name in plant.split(",") if name.strip() for hit in [plants().called(name.strip())] if hit)
    return Facts(found, frozenset(tags.split()), frozenset(denied.split()), named, part, dict(words), show)


def rule_text(name="a-rule", when="the herb is fresh", extra="", level="warn", theme="tests", say="Something."):
    return (
        f'rule {name}  theme: {theme}  level: {level}\n  when {when}\n  say "{say}"\n  why "Because."\n  source common practice\n'
        f'  fires on "a"\n  silent on "b"\n{extra}'
    )


def book_of(*rules: Rule) -> RuleBook:
    return RuleBook(rules, shipped().sources, tag_table(), {name: quantity.unit for name, quantity in VOCABULARY.items()})
