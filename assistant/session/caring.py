"""The cautions beside an answer: which rules speak, which have spoken, and what a stop does to the reply."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from assistant.listening.statements import Reading
from assistant.cautions.plants import Plant
from assistant.reply import Caution, Level, Question, Reply
from assistant.session.figuring import Worked, part_of
from assistant.session.rescue import rescue_words
from assistant.session.wording import in_working

if TYPE_CHECKING:
    from assistant.session.answers import Answers

MOST_SHOWN = 3
EVERY_TIME = frozenset({"child-rule-is-historical"})  # said with each such figure, not once a batch


class Care:
    """The cautions of one turn: `stops` first, then at most three warnings and notes that were not given before for this batch."""

    def __init__(self, session: Any, worked: Worked, reading: Reading) -> None:
        self.session = session
        self.worked = worked
        self.all = all_cautions(session, worked, reading)
        self.stops = [c for c in self.all if c.level == "stop"]
        said = worked.batch.spoken
        fresh = [c for c in self.all if c.level != "stop" and (c.id not in said or reading.has("caution") or "to_keep" in reading.tags or c.id in EVERY_TIME) and c.id not in session.muted]
        self.spoken = (self.stops + fresh)[:MOST_SHOWN]
        if self.spoken:
            session.last_cautions = tuple(self.spoken)
        self.lines = [caution_line(c) for c in self.spoken]

    def stopped(self, answers: Answers, merged: Any, index: int) -> Reply:
        """A stop is a refusal with a question: no figure is shown before the person answers."""
        self.session.hold(merged.batch, (), index)
        question = Question(text="Is it meant another way? Say how it is to be used, or name another plant.", choices=("for outside use only", "start afresh"))
        return answers.reply(
            "refused", "\n".join([caution_line(c) for c in self.spoken] + [question.text]), batch=merged.batch, cautions=tuple(self.spoken), questions=(question,)
        )

    @staticmethod
    def emergency(answers: Answers, reading: Reading) -> Reply | None:
        """Emergencies, diagnosis and matters off the bench: said plainly, without any figure."""
        from assistant.session.figuring import work_out
        from assistant.session.batch import Batch

        tags = (reading.tags | reading.passing) & {"emergency", "diagnosis", "off_topic"}
        if not tags:
            return None
        if tags == {"off_topic"} and reading.said:
            return None
        worked = work_out(Batch(tags=frozenset(reading.tags), plants=tuple(n.name for n in reading.named)))
        cautions = [c for c in all_cautions(answers.session, worked, reading) if c.level == "stop"][:MOST_SHOWN]
        if not cautions:
            return None
        question = Question(text="Is there something to measure, dilute or dry that I can work out?", choices=("112 g fresh nettle, 1:2 at 60 %",))
        return answers.reply("refused", "\n".join([*(caution_line(c) for c in cautions), question.text]), cautions=tuple(cautions), questions=(question,))


def caution_line(caution: Caution) -> str:
    if caution.id == "off-the-bench":
        return caution.text  # "this is off the bench" is no alarm
    head = {"stop": "STOP", "warn": "Caution", "note": "Note"}[caution.level]
    return f"{head}: {caution.text}"


def all_cautions(session: Any, worked: Worked, reading: Reading) -> list[Caution]:
    """Every caution that holds, stops first."""
    from assistant.cautions.facts import Facts
    from assistant.cautions.plants import plants as plant_list

    from assistant.cautions.folder import shipped
    from assistant.cautions.speaking import speak

    found: list[Plant] = []
    for name in worked.batch.plants or tuple(n.name for n in reading.named):
        hit = plant_list().called(name)
        if hit is not None:
            found.extend(hit.plants)
    for member in worked.batch.members:
        hit = plant_list().called(member)
        if hit is not None:
            found.extend(hit.plants)
    facts = Facts(
        figures=worked.solution.figures, tags=worked.tags | worked.batch.tags | frozenset(reading.passing) | ({"practising"} if session.practises else frozenset()), denied=worked.batch.denied, plants=tuple(found), part=part_of(worked.batch),
        show=in_working, words=rescue_words(worked),
    )  # fmt: skip
    return [
        Caution(id=c.id, level=cast(Level, c.level), theme=c.theme, text=c.text, why=c.why, source=c.source) for c in speak(shipped().book, facts, frozenset())
    ]
