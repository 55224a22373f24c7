"""A worked batch as the teaching sees it, and the lines that tell an apprentice where a figure comes from."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Step
from assistant.session.figuring import Worked
from assistant.teaching.case import Case
from assistant.teaching.working import Line


def case_of(worked: Worked) -> Case:
    """The figures and relations of a batch."""
    return Case(worked.known, worked.relations, worked.batch.members)


def steps_of(lines: Sequence[Line], batch: str) -> list[Step]:
    """The lines of a lesson for the reply; what makes sense of a figure is a step of its own."""
    steps: list[Step] = []
    for line in lines:
        unit = VOCABULARY[base(line.key)].unit
        steps.append(
            Step(
                quantity=base(line.key),
                about=about(line.key),
                batch=batch,
                value=line.value,
                unit=unit,
                relation=line.relation,
                says=line.rule,
                working=line.numbers,
            )
        )
        if line.sense:
            steps.append(
                Step(
                    quantity=base(line.key),
                    about=about(line.key),
                    batch=batch,
                    value=line.value,
                    unit=unit,
                    relation="sense",
                    says=line.sense,
                    working=line.sense,
                )
            )
    return steps
