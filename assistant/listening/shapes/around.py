"""Where an island stands, and what the shapes of all kinds share."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from assistant.dataclass import dataclass
from assistant.listening.counts import Count, Measure, system_of
from assistant.listening.tokens import Token
from assistant.listening.words import Habits
from assistant.quantities.units import Unit

if TYPE_CHECKING:
    from assistant.listening.islands import Item

Meaning = dict[str, Any]  # the fields of an Item, all but its span
Shape = Callable[[list[Any], "Around"], "Meaning | None"]

UK_WORDS = frozenset("uk british britain english england imperial sikes scotland".split())
HIGHEST_LEFT = 20  # "95 to 40" is a strength on its way down; the left side of a ratio is a small number

VESSELS = frozenset("bottles jars tins vials pots jugs".split())
# What makes a number before it more than a bare number.
TAILS = frozenset("UNIT DAYS HOURS PERCENT PROOF DEGREE BRIX ABV CELSIUS FAHRENHEIT PART TIMES MONEY".split())
COUNTED_THINGS = frozenset(
    "jar jars bottle bottles tin tins pot pots bag bags basket baskets cap capsule capsules plant plants leaf leaves root roots "
    "dose doses serving servings portion portions spoon spoons spoonful spoonfuls person people child children kid kids batch batches "
    "time times round rounds vial vials label labels sprig sprigs handful handfuls head heads clove cloves cup cups".split()
)
COUNTABLE_ONE = COUNTED_THINGS | frozenset("one maceration pressing press run extraction day week month year infusion pour lot go try attempt".split())
BEFORE_PRONOUN = frozenset(
    "the that this these those which any other another first second third last next every no same some only each big bigger small "
    "smaller old older new newer fresh dried dry right wrong weak weaker strong stronger good better best large larger my your his her "
    "little tall taller short middle previous earlier later current original latter former whichever such".split()
)
_ANYWHERE = frozenset("anywhere anything ranging ranges ranged range varies somewhere".split())


@dataclass(frozen=True, slots=True)
class Mentions:
    """Countries named anywhere in the sentence, which settle whose measures are meant throughout.

    measures    the one country named beside a unit ("… a quart? American quart."), or ""
    british     whether Britain is named at all, and America not ("printed in England … 70 proof")
    """

    measures: str = ""
    british: bool = False


def mentions(tokens: list[Token]) -> Mentions:
    """What a sentence says of countries, looked up once for all its islands."""
    beside_unit, british, american = set(), False, False
    for at, token in enumerate(tokens):
        if token.type == "SYSTEM":
            measures = system_of(token)
            if at + 1 < len(tokens) and tokens[at + 1].type == "UNIT":
                beside_unit.add(measures)
            american = american or measures == "us"
        british = british or token.word in UK_WORDS
    return Mentions(beside_unit.pop() if len(beside_unit) == 1 else "", british and not american)


class Around:
    """Where an island stands: the tokens before and behind it, the items so far, the person's habits."""

    __slots__ = ("at", "end", "habits", "items", "mentions", "tokens")

    def __init__(self, tokens: list[Token], at: int, end: int, items: list[Item], habits: Habits, mentions: Mentions) -> None:
        self.tokens = tokens
        self.at = at
        self.end = end
        self.items = items
        self.habits = habits
        self.mentions = mentions

    def before(self, back: int = 1) -> str:
        """The word `back` places before the island, or ""."""
        at = self.at - back
        return self.tokens[at].word if at >= 0 else ""

    def kind_before(self) -> str:
        return self.tokens[self.at - 1].type if self.at else ""

    def after(self, on: int = 0) -> str:
        at = self.end + on
        return self.tokens[at].word if at < len(self.tokens) else ""

    def kind_after(self, on: int = 0) -> str:
        at = self.end + on
        return self.tokens[at].type if at < len(self.tokens) else ""

    def words_before(self, count: int) -> set[str]:
        """The last few words of the same clause."""
        words: set[str] = set()
        for token in reversed(self.tokens[max(0, self.at - count) : self.at]):
            if token.type == "PUNCT":
                break
            words.add(token.word)
        return words

    def size(self, measure: Measure) -> float:
        """Bench units in one of the unit, by the measure said with it, elsewhere in the sentence, or usual here."""
        if "" in measure.unit.sizes:
            return measure.unit.sizes[""]
        return measure.unit.size(measure.system or self.mentions.measures or self.habits.measures)

    def has_gaps(self) -> bool:
        """Whether there is space between the tokens of the island."""
        pieces = self.tokens[self.at : self.end]
        return any(one.end != other.start for one, other in pairwise(pieces))

    def adjoins_figure(self) -> bool:
        """Whether the item just before, with nothing between, is a figure."""
        return bool(self.items) and self.at > 0 and self.items[-1].value is not None and self.items[-1].end == self.tokens[self.at - 1].end


def number_meaning(count: Count, said_unit: str = "") -> Meaning:
    return {"kind": "number", "value": count.value, "low": count.low, "high": count.high, "said_unit": said_unit, "said": count.value, "slack": count.slack}


def is_range(count: Count, around: Around) -> bool:
    """Whether "X to Y" are two ends: not where something goes from the one to the other."""
    assert count.low is not None
    assert count.high is not None
    if count.low >= count.high:
        return False
    return around.before() != "from" or around.before(2) in _ANYWHERE


def is_either(count: Count) -> bool:
    """Whether "X or Y" are two ends ("two or three drops") and not a choice ("is it 40 or 60 %?")."""
    assert count.low is not None
    assert count.high is not None
    return 0 < count.high - count.low <= max(2.0, 0.1 * count.high)


def is_two_ends(count: Count, around: Around) -> bool:
    """Whether a count is one number, or two that are truly the ends of a range."""
    if count.low is None or count.high is None:
        return True
    if count.form == "to":
        return is_range(count, around)
    return is_either(count) if count.form == "or" else count.low < count.high


def unit_in(children: list[Any]) -> Unit:
    """The last unit among the parts of an island."""
    unit: Unit | None = next(child.unit for child in reversed(children) if isinstance(child, Token) and child.unit is not None)
    assert unit is not None
    return unit
