"""How long a year of sixty batches takes: the whole table, and sixty that share what spirit there is. Processor time, so that a busy machine tells nothing."""

from __future__ import annotations

import time

from assistant import Session
from assistant.year.shares import Planned, least_left
from tests.year.test_plan import plenty

A_SECOND = 1.0
SIXTY = 60


def test_the_whole_year_of_sixty_batches():
    session = Session()
    for sentence in plenty():
        if len(session.batches) < SIXTY:
            session.say(sentence)
    assert len(session.batches) == SIXTY
    session.say("show me the whole year")  # once, so that what is loaded on the way counts for nothing
    began = time.process_time()
    reply = session.say("show me the whole year")
    taken = time.process_time() - began
    print(f"\nthe whole year of sixty batches: {taken:.3f} s")
    assert reply.status == "answered"
    assert taken < A_SECOND


def test_sixty_batches_share_the_spirit():
    plans = [Planned(f"p{n}", 1000 + 37 * n, 600 + 20 * n, 400 + 11 * n, 400 + 11 * n, 1500 + 40 * n) for n in range(SIXTY)]
    spirit = 0.7 * sum(p.spirit for p in plans)
    least_left(plans, spirit)  # the library is loaded
    for vessels in (None, 90):
        began = time.process_time()
        shares = least_left(plans, spirit, vessels, 3000.0)
        taken = time.process_time() - began
        print(f"sixty batches share the spirit{'' if vessels is None else f' in {vessels} jars'}: {taken:.3f} s")
        assert sum(s.spirit for s in shares) <= spirit + 1e-3
        assert taken < A_SECOND
