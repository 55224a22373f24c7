"""Another dose for the one in hand: "5 mL three times a day …", then "and 4 mL?", "or 2.5?"."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from assistant.dataclass import replace
from assistant.listening.statements import Act, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.session.batch import Fact
from assistant.session.work import Work, renamed, said_as

_WORDS = (
    "and n or so then what how about with at if it it's its was were make take taking took say only just that now ok maybe on the for he they i takes"
    " she we you client patient person someone her him has have need needs goes went stays up down back drop drops dropped to"
)
FILL = rf"(?:(?:{'|'.join(_WORDS.split())})\b\W*)*"
SPOON = r"(?:tsps?|teaspoons?|tea ?spoonfuls?|teaspoonfuls?|tbsps?|tablespoons?|spoons?|spoonfuls?)"
OFTEN = r"(?:once|twice|thrice|(?:one|two|three|four|five|six|\d) ?(?:times?|x))"
ANOTHER = looked_for(
    rf"^\W*{FILL}(?:(?:\d+(?:[.,]\d+)?|\d/\d|an?|one|two|three|half(?: an?)?|a half|quarter|a quarter|(?:an? |one )?(?:whole|full))\s*"
    rf"(?:mls?|millilit(?:re|er)s?|drops?|gtts?|{SPOON})?\W*)?"
    rf"(?:{OFTEN}\W*)?(?:(?:instead|then|each|a|at|time|though|please|dose|doses|of|it|day|daily)\b\W*)*"
    r"(?:(?:when|while|if|on|for)\b[^\d;?!]{3,30})?$",  # "when it's bad", "on bad days"
    re.IGNORECASE,
)
BY_ITSELF = ("menstruum", "liquid", "blend", "bottle_size")  # what millilitres are taken for where nothing is said of them
MEANT = ("dose", "bottle_size")
DOSES = frozenset({"dose", "dose_drops", "dropperfuls"})
MOST_TIMES = 12.0


def another_dose(said: list[Said], loose: list[Loose], work: Work) -> None:
    """A single figure without a word to it is the dose or the bottle, where of all the figures in hand it is most like that; "twice" is how often.

    Changes both lists in place, and takes the acts it used from the reading.
    """
    reading = work.reading
    if not DOSES & work.facts.keys() or reading.asked or not ANOTHER.match(reading.heard):
        return
    often: Act | Loose | None = times_meant(reading, work.facts)
    if often is None and "times_a_day" in work.facts:
        often = next((f for f in loose if f.kind == "times" and f.value == int(f.value) and 1 <= f.value <= MOST_TIMES), None)
    figures: list[Said | Loose] = [*said, *(f for f in loose if f is not often)]
    if len(figures) > 1 or (not figures and often is None):
        return
    figure = figures[0] if figures else None
    if figure is not None and "dose" not in work.facts and not (isinstance(figure, Said) and figure.quantity in DOSES):
        return
    if isinstance(figure, Said) and figure.quantity in DOSES:
        pass  # "30 drops 3x instead": only how often it is taken has no word to it
    elif figure is not None:
        if not (figure.kind in ("mL", "#") if isinstance(figure, Loose) else figure.quantity in BY_ITSELF):
            return
        alike = [(abs(math.log(fact.value / figure.value)), key) for key, fact in work.facts.items()
                 if VOCABULARY[base(key)].unit == "mL" and fact.value > 0 and figure.value > 0]  # fmt: skip
        spoon = figure.said_unit.startswith(SPOONS)
        if not spoon and (not alike or min(alike)[1] not in MEANT):
            return
        meant = "dose" if spoon else min(alike)[1]
        said[:] = [said_as(figure, meant) if isinstance(figure, Loose) else renamed(figure, meant)]
        loose.clear()
    if often is not None:
        loose[:] = [f for f in loose if f is not often]
        said.append(Said("times_a_day", often.value if isinstance(often, Loose) else often.figures[0], often.start, often.end))
        if isinstance(often, Act):
            reading.acts.remove(often)


A_GO = looked_for(
    r"\b(?:a|each|every|per|one) (?:go|time|turn|dose|shot)\b|\bat once\b|\beach\b|\bsqueeze|\bsquirt|"
    r"\b(?:droppers?|dropperfull?s?|pipettes?|pipettefull?s?|bulbs?)\b",
    re.IGNORECASE,
)
ASKS_LASTING = looked_for(r"[,;.]?\s*(?:(?:so|then|and)\s+)*(?:how long|how many days|how's it last|lasts?|days)\b[^?.;]*[?.]?\s*$", re.IGNORECASE)
THE_ONE = looked_for(r"\bone\b", re.IGNORECASE)
HALF_OF_ONE = looked_for(r"^ an? (?:one|squeeze)\b", re.IGNORECASE)
MOST_SQUEEZES = 4.0  # in one dose, where nothing else says that they are counted
NO_SQUEEZES = looked_for(r"\b(?:times|days?|weeks?|bottles?|ml|grams?|drops?|percent|months?)\b|%", re.IGNORECASE)


def counted_squeezes(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "Two a go?", "and half a one?" where a dropper was measured and its squeezes are counted: so many of them, never so many mL.

    Changes both lists in place.
    """
    reading = work.reading
    if not {"dropper_size", "dropperfuls"} <= work.facts.keys() or any(a.quantity != "days" for a in reading.asked):
        return
    if any(s.quantity not in ("times_a_day", "bottle_size") for s in said):
        return
    counts = [f for f in loose if f.kind in ("#", "n", "share") and f.value > 0]
    one = THE_ONE.search(reading.heard)
    if not counts and not said and one and ANOTHER.match(ASKS_LASTING.sub("", reading.heard)):
        said.append(Said("dropperfuls", 1.0, one.start(), one.end()))  # "make it one"
        return
    if len(counts) != 1:
        return
    figure = counts[0]
    behind, bare = reading.heard[figure.end :], ASKS_LASTING.sub("", reading.heard)
    told = A_GO.search(behind) is not None or HALF_OF_ONE.match(behind) is not None
    alone = not said and figure.value <= MOST_SQUEEZES and ANOTHER.match(bare) is not None and not NO_SQUEEZES.search(bare)
    if told or alone:
        loose.remove(figure)
        said.append(said_as(figure, "dropperfuls"))


SQUEEZES = frozenset({"#", "n", "mL", "share"})
LARGEST_SQUEEZE = 5.0  # mL
READ_SO = frozenset({"held_per_gram", "menstruum", "bottle_size", "pressed", "dose", "ratio"})


def squeeze_told(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "It holds 0.8", "0.7", right after what one squeeze lifts was asked: that, whatever the words would mean elsewhere. Changes both lists."""
    figures: list[Said | Loose] = [*said, *loose]
    if "dropper_size" not in work.wants or len(figures) != 1 or work.reading.asked or not 0 < figures[0].value <= LARGEST_SQUEEZE:
        return
    figure = figures[0]
    if figure.kind in SQUEEZES if isinstance(figure, Loose) else figure.quantity in READ_SO:
        loose.clear()
        said[:] = [said_as(figure, "dropper_size") if isinstance(figure, Loose) else renamed(figure, "dropper_size")]


SPOONS = ("tsp", "teaspoon", "spoon", "tbsp", "tablespoon")


def times_meant(reading: Reading, facts: Mapping[str, Fact]) -> Act | None:
    """ "5 mL twice?", "three times?" where a dose is in hand and nothing that could be made larger: so many times a day."""
    if "times_a_day" not in facts or not DOSES & facts.keys() or not ANOTHER.match(reading.heard):
        return None
    act = next((a for a in reading.acts if a.name == "scale_n" and len(a.figures) == 1), None)
    return act if act is not None and act.figures[0] == int(act.figures[0]) and 1 <= act.figures[0] <= MOST_TIMES else None


OF_A_JAR = frozenset({"herb", "menstruum", "bottle_size", "pressed", "stock", "in_jar", "spirit_in_hand"})


def of_the_dose_asked(said: list[Said], work: Work) -> None:
    """ "1:5 at 40 %, 3 mL dose: how much herb, how much alcohol": both of what is taken, where no jar and no bottle was told."""
    told = {s.quantity for s in said} | work.facts.keys()
    if "dose" not in work.frames or not told >= {"dose", "ratio"} or told & OF_A_JAR or work.members:
        return
    asked = work.reading.asked
    alcohol = any(a.quantity == "alcohol_per_dose" for a in asked)
    asked[:] = [replace(a, quantity="herb_per_dose") if a.quantity == "herb" else a for a in asked if not (alcohol and a.quantity == "stock")]
