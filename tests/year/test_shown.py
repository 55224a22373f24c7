"""Whatever a reply about the year shows stands in its values, its steps or what it assumed: no figure out of nowhere."""

from __future__ import annotations

import re

import pytest

from assistant.reply import Reply
from tests.dialogues.judge import FOLDER, read_cases
from tests.year.bench import bench

NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?")
COUNT_OF_A_LINE = re.compile(r"^\d\. ")
AT_20 = "20"  # °C, at which spirit is counted


def carried(reply: Reply) -> set[float]:
    texts = [v.text for v in reply.values] + [f"{s.working} {s.says}" for s in reply.steps] + [f"{a.text} {a.change_by}" for a in reply.assumptions]
    texts += [" ".join((q.text, *q.choices)) for q in reply.questions] + [f"{c.text} {c.why} {c.source}" for c in reply.cautions]
    texts += [f"{abs(v.value):g}" for v in reply.values if v.value is not None]
    return {float(n) for text in texts for n in NUMBER.findall(text)}


@pytest.mark.parametrize("case", read_cases(FOLDER / "year.jsonl"), ids=lambda case: case["id"])
def test_every_figure_shown_is_carried(case):
    session = bench()
    for turn in case["turns"]:
        reply = session.say(turn["say"])
        if not reply.is_good:
            continue
        known = carried(reply) | {float(AT_20)}
        for line in reply.text.split("\n"):
            for number in NUMBER.findall(COUNT_OF_A_LINE.sub("", line)):
                assert float(number) in known, f"{turn['say']!r} shows {number} in {line!r}"
