"""The cautions beside an answer: which rules speak, which have spoken, and what a stop does to the reply."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, cast

from assistant.cautions.facts import Facts
from assistant.cautions.folder import in_use
from assistant.cautions.plants import Found, Plant, plants, unknown_plant
from assistant.cautions.rules import Caution as Spoken
from assistant.cautions.speaking import speak
from assistant.listening.statements import Reading
from assistant.reply import Caution, Level, Question, Reply, Value
from assistant.session.figuring import Worked, part_of
from assistant.session.instead import instead_values, instead_words
from assistant.session.rescue import rescue_words
from assistant.session.wording import in_working

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.batch import Batch

MOST_SHOWN = 3
MORE = "There is more to mind: “what else should I know”."
EVERY_TIME = frozenset({"child-rule-is-historical"})  # said with each such figure, not once a batch
GIVE_BACK = "give-back"  # the line a person may switch off for good
# What a shared name may hide, and is worth a word before the person has said which plant it is.
DANGERS = ("deadly", "aristolochic", "toxic")
OFF_THE_ARITHMETIC = frozenset({"emergency", "red_flag", "diagnosis", "ailment", "burnt", "eye_splashed", "ablaze", "off_topic"})  # answered before any figure
# What a sentence that nothing was understood of may still be about, and how it is then answered: the gravest first.
OVERHEARD = (("alarm", "emergency"), ("sickness", "ailment"))
# What helps after a stop, by its theme, in words that the bench takes.
WAYS_ON = {
    "fire": ("no flame, it stands in hot water", "start afresh"),
    "people": ("it is for an adult", "start afresh"),
    "look-alikes": ("a botanist has identified it", "start afresh"),
    "scope": ("112 g fresh nettle, 1:2 at 60 %", "100 mL bottle, 3 mL three times a day, how many days?"),
}
WAYS_ON_ELSE = ("for outside use only", "start afresh")


class Care:
    """The cautions of one turn: `stops` first, then at most three warnings and notes that were not given before for this batch."""

    def __init__(self, session: Any, worked: Worked, reading: Reading) -> None:
        self.session = session
        self.worked = worked
        self.all = weighed(session, worked, reading)
        self.stops = [told(c) for c in self.all if c.level == "stop"]
        before = worked.batch.spoken
        again = "to_keep" in reading.tags
        fresh = [
            c
            for c in self.all
            if c.level != "stop" and not self._is_quiet(c) and (c.key not in before or c.id in EVERY_TIME or (again and c.theme == "keeping"))
        ]
        shown = fresh[: 0 if self.stops else MOST_SHOWN]  # beside a stop nothing else matters
        self.spoken = once_each(self.stops + [told(c) for c in shown], instead_words(worked).values())[:MOST_SHOWN]
        if self.spoken:
            session.last_cautions, session.cautioned = tuple(self.spoken), session.turn
        self.lines = [caution_line(c) for c in self.spoken]
        if len(fresh) > len(shown) and not self.stops:
            self.lines.append(MORE)
        self.shared = [found for found in shared_names(worked, reading) if f"which:{found.name}" not in before]
        self.questions = [which_plant(found) for found in self.shared]
        # A warning that found no room comes with the next answer; a note waits until it is asked for.
        given = {c.key for c in shown} | {c.key for c in fresh[len(shown) :] if c.level == "note"}
        held = {c.key for c in self.all}
        asked = {key for key in before if key.startswith("which:")} | {f"which:{found.name}" for found in self.shared}
        self.given = frozenset(before & held | given | asked)  # as RuleBook.still_spoken: what no longer holds may be told again
        self.values: list[Value] = instead_values(worked) if any(word in c.text for c in self.spoken for word in instead_words(worked).values()) else []

    def _is_quiet(self, caution: Spoken) -> bool:
        if caution.id == GIVE_BACK and not self.session.giving_back:
            return True
        return caution.id in self.session.muted or caution.id in self.worked.batch.muted

    def stopped(self, answers: Answers, merged: Any, index: int) -> Reply:
        """A stop is a refusal with a question: no figure is shown before the person answers."""
        self.session.hold(merged.batch, (), index)
        self.session.halted = True
        return stop_reply(answers, self.spoken, batch=merged.batch)

    @staticmethod
    def emergency(answers: Answers, reading: Reading) -> Reply | None:
        """Emergencies, diagnosis and matters off the bench: said plainly, without any figure."""
        from assistant.session.batch import Batch
        from assistant.session.figuring import work_out

        tags = (reading.tags | reading.passing) & OFF_THE_ARITHMETIC
        if not tags:
            return None
        if tags <= {"off_topic", "ailment"} and reading.said:
            return None
        worked = work_out(Batch(tags=frozenset(reading.tags), plants=tuple(n.name for n in reading.named)))
        cautions = [told(c) for c in weighed(answers.session, worked, reading) if c.level == "stop"][:MOST_SHOWN]
        return stop_reply(answers, cautions) if cautions else None

    @staticmethod
    def overheard(answers: Answers, reading: Reading) -> Reply | None:
        """The same for a sentence that was not understood, where a single word tells that a person is unwell or in danger."""
        for heard, meant in OVERHEARD:
            if heard in reading.tags:
                reading.tags |= {meant}
                return Care.emergency(answers, reading)
        return None


def once_each(cautions: list[Caution], sentences: Iterable[str]) -> list[Caution]:
    """The cautions, each of these sentences in the first of them only that bears it."""
    for sentence in sentences:
        bearing = [n for n, c in enumerate(cautions) if sentence in c.text]
        for n in bearing[1:]:
            cautions[n] = cautions[n].model_copy(update={"text": cautions[n].text.replace(sentence, "").strip()})
    return cautions


def stop_reply(answers: Answers, cautions: list[Caution], **fields: Any) -> Reply:
    """The refusal of a stop. It ends in the stop's own question where its text closes in one, else in a question that fits any stop."""
    first = cautions[0]
    asked = closing_question(first.text)
    choices = WAYS_ON.get(first.theme, WAYS_ON_ELSE)
    lines = [caution_line(c) for c in cautions]
    if asked:
        question = Question(text=asked, choices=choices)
        if len(lines) > 1:  # the question stands last, where it is read
            lines[0] = lines[0].removesuffix(asked).rstrip()
            lines.append(asked)
    else:
        question = Question(text="Is it meant another way? Say how it is to be used, or name another plant.", choices=choices)
        lines.append(question.text)
    return answers.reply("refused", "\n".join(lines), cautions=tuple(cautions), questions=(question,), **fields)


def closing_question(text: str) -> str:
    """The question a text ends in, "" where it ends in none.

    >>> closing_question("Drinking spirit only, vodka or grain spirit. Which will you take?")
    'Which will you take?'
    """
    if not text.rstrip().endswith("?"):
        return ""
    sentences = text.replace("! ", ". ").split(". ")
    return sentences[-1].strip()


def caution_line(caution: Caution) -> str:
    if caution.id == "off-the-bench":
        return caution.text  # "this is off the bench" is no alarm
    head = {"stop": "STOP", "warn": "Caution", "note": "Note"}[caution.level]
    return f"{head}: {caution.text}"


def told(caution: Spoken) -> Caution:
    """A caution as a reply bears it."""
    return Caution(id=caution.id, level=cast(Level, caution.level), theme=caution.theme, text=caution.text, why=caution.why, source=caution.source)


def all_cautions(session: Any, worked: Worked, reading: Reading) -> list[Caution]:
    """Every caution that holds, stops first, whether it was given before or not."""
    return [told(c) for c in weighed(session, worked, reading)]


def weighed(session: Any, worked: Worked, reading: Reading) -> list[Spoken]:
    """What the rules in use say of a batch, stops first."""
    batch = worked.batch
    tags = worked.tags | batch.tags | reading.passing | ({"practising"} if session.practises else set()) | _swallowed(batch)
    words = {**rescue_words(worked), **instead_words(worked)}
    facts = Facts(worked.solution.figures, frozenset(tags), batch.denied, tuple(plants_of(worked, reading)), part_of(batch), words, in_working)
    return [*_hidden(worked, reading), *speak(in_use().book, facts)]


def _swallowed(batch: Batch) -> set[str]:
    """A dose in mL with how often it is taken is swallowed, as plainly as "per dose" says it, unless it was said to be for the skin.

    Drops may go on the skin as well: there the rules ask.
    """
    dosed = {"dose", "times_a_day"} <= batch.facts.keys()
    return {"internal"} if dosed and not ({"external"} & batch.tags or {"internal"} & batch.denied) else set()


def plants_of(worked: Worked, reading: Reading) -> list[Plant]:
    """The plants of a batch; one that the list does not know is there by its name alone, once it has figures. A shared name is no plant yet."""
    batch = worked.batch
    found: dict[str, Plant] = {}
    for name in batch.plants or tuple(n.name for n in reading.named):
        hit = plants().called(name)
        if hit is None and batch.facts and batch.plants:
            found[name] = unknown_plant(name)
        elif hit is not None and hit.plant is not None:
            found[name] = hit.plant
    for member in batch.members:
        hit = plants().called(member)
        if hit is not None and hit.plant is not None:
            found[member] = hit.plant
    return list(found.values())


# ── names that several plants share ──────────────────────────────────────────────────────────────────────────────────────


def shared_names(worked: Worked, reading: Reading) -> list[Found]:
    """The names of a batch that mean more than one plant."""
    batch = worked.batch
    names: Iterable[str] = (*(batch.plants or tuple(n.name for n in reading.named)), *batch.members)
    hits = [plants().called(name) for name in dict.fromkeys(names)]
    return [hit for hit in hits if hit is not None and hit.question]


def which_plant(found: Found) -> Question:
    """Which plant a shared name means; the choices are names that the bench takes."""
    return Question(text=found.question, choices=tuple(p.name for p in found.plants))


def _hidden(worked: Worked, reading: Reading) -> list[Spoken]:
    """A warning where one of the plants that share a name is a poison: it holds until the person has said which it is."""
    spoken = []
    for found in shared_names(worked, reading):
        flags = [(p, flag) for p in found.plants for name in DANGERS if (flag := p.flag(name)) is not None]
        if flags:
            text = "; ".join(f"{p.name} ({p.latin}): {flag.note}" for p, flag in flags)
            sources = "; ".join(dict.fromkeys(flag.source for _, flag in flags))
            spoken.append(Spoken(f"which-{found.name.replace(' ', '-')}", "warn", "look-alikes", f"Poisons go by that name too. {text}. None of it is swallowed before you are sure which it is.",  # noqa: E501  (one sentence, or one expression)
                                 "A common name is no plant: the Latin one is.", sources, "memory"))  # fmt: skip
    return spoken
