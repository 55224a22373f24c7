"""Whether it is only the plant's state, fresh or dried, that is wanting: then that is asked, and no figure."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.reply import Question
from assistant.session.batch import STATES
from assistant.session.figuring import Worked, work_out

STATE = "water_content"  # what the state brings with it; said in percent it answers the question too


def hangs_on_its_state(worked: Worked, open_: Sequence[str]) -> bool:
    """Whether a plant of no told state is in the work, and all that is open (keys) follows once it is called fresh."""
    batch = worked.batch
    if not open_ or batch.members or "herb" not in batch.facts or STATE in batch.facts or batch.tags & STATES:
        return False
    fresh = work_out(batch.having(tags=batch.tags | {"fresh"}))
    return not fresh.solution.conflicts and all(key in fresh.solution.figures for key in open_)


def state_question() -> Question:
    """The question, and the two answers it can be given as they stand."""
    return Question(text="Is the plant fresh or dried?", wants=(STATE,), choices=("it is fresh", "it is dried"))
