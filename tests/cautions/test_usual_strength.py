"""Every plant whose usual strength is known says so when it is poured far too weak: fresh, dried, and where nobody said which."""

import pytest

from assistant import Session
from assistant.cautions.folder import shipped

SAYS_SO = {"under-usual-strength", "weak-for-resin", "resin-by-its-name"}
BELOW = 12  # percent under the low end: past any rounding


def spans():
    """(state, plant, kind of part, low end of the usual strength) of all that the list knows."""
    for plant in shipped().plants:
        for part in plant.parts:
            known = {"fresh": part.fresh_strength, "dried": part.dried_strength}
            lows = {state: span.low for state, span in known.items() if span is not None}
            if lows:
                lows[""] = min(lows.values())
            yield from ((state, plant.name, part.kind, low) for state, low in lows.items() if low - BELOW >= 5)


CASES = list(spans())


def test_there_are_many():
    assert len(CASES) > 350


@pytest.mark.parametrize(("state", "name", "kind", "low"), CASES)
def test_far_too_weak_is_said(state, name, kind, low):
    part = "" if kind in name else kind
    sentence = " ".join(f"100 g {state} {name} {part} 1:5 at {low - BELOW:g} %".split())
    reply = Session().say(sentence)
    assert SAYS_SO & {c.id for c in reply.cautions}, f"{sentence}: {reply.text}"


@pytest.mark.parametrize(
    ("sentence", "caution"),
    [
        ("100 g wibbleweed resin 1:5 at 25 %", "resin-by-its-name"),
        ("100 g pine resin, 1:5 at 40 %", "resin-by-its-name"),
        ("100 g dried wibbleweed root, 1:5 at 20 %", "unknown-root-or-bark-in-weak"),
        ("100 g dried wibbleweed bark, 1:5 at 90 %", "unknown-bark-in-strong"),
    ],
)
def test_a_plant_known_by_its_part_alone(sentence, caution):
    assert caution in {c.id for c in Session().say(sentence).cautions}


@pytest.mark.parametrize("sentence", ["100 g myrrh 1:5 at 90 %", "100 g valerian root 1:5 at 60 %", "100 g wibbleweed resin 1:5 at 90 %"])
def test_what_is_usual_is_left_alone(sentence):
    assert not (SAYS_SO | {"unknown-root-or-bark-in-weak"}) & {c.id for c in Session().say(sentence).cautions}
