"""What is said in the stillroom and at the dispensary, and the figures that come back."""

from __future__ import annotations

import pytest

from assistant import Session
from tests.stillroom.sentences import Case, cases

SHARE = 0.003  # of a figure


@pytest.mark.parametrize("case", cases(), ids=lambda c: c.name)
def test_case(case: Case) -> None:
    session = Session()
    for turn in case.turns:
        reply = session.say(turn.say)
        values = [(v.quantity, v.about, v.value) for v in reply.values if v.value is not None] + [
            (s.quantity, s.about, s.value) for s in reply.steps if s.value is not None
        ]
        for quantity, whose, figure in turn.figures:
            hits = [value for q, a, value in values if q == quantity and (not whose or a == whose)]
            assert any(abs(hit - figure) <= SHARE * abs(figure) + 1e-9 for hit in hits), (
                f"{turn.say!r}: {quantity} {whose} {figure:g}, not in {hits} — {reply.text}"
            )
        for status in turn.statuses:
            assert reply.status == status, f"{turn.say!r}: {reply.status}: {reply.text}"
            assert reply.questions, f"{turn.say!r} asks nothing"
        spoken = " ".join(c.text for c in reply.cautions).lower()
        for word in turn.words:
            assert word in spoken, f"{turn.say!r}: no caution with {word!r} in {spoken!r}"
        if turn.figures:
            assert reply.status == "answered", f"{turn.say!r}: {reply.status}: {reply.text}"
