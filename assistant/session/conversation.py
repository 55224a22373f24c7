"""Session: sentences in, replies out, one conversation in between."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.cautions.fault import Fault
from assistant.cautions.folder import Pack, read_folder, using
from assistant.listening.islands import read
from assistant.listening.lengths import LONGEST_SENTENCE, excess
from assistant.listening.reading import read_statements
from assistant.listening.statements import Reading, Weighing
from assistant.listening.tags import read_tags
from assistant.listening.whole_measures import with_whole_measures
from assistant.listening.words import Habits
from assistant.newfile import named_in
from assistant.quantities.vocabulary import base
from assistant.reply import Caution, Question, Reply, Used
from assistant.session import care_talk, explaining, instrument_talk, talk
from assistant.session.accounting import accounted
from assistant.session.adjusting import adjust, weighing_settled
from assistant.session.aiming import aimed_at, frozen
from assistant.session.answers import Answers
from assistant.session.asked_again import asked_again
from assistant.session.batch import Batch
from assistant.session.bottling import holding
from assistant.session.checking import claimed
from assistant.session.comparing import variants
from assistant.session.converting import Conversion
from assistant.session.cups_of_it import cups_of_it
from assistant.session.drying_turns import dry_weight_wanted
from assistant.session.essential_in_oil import essential_in_salve
from assistant.session.figuring import Worked, work_out
from assistant.session.instruments import NONE, in_hand, taken_up
from assistant.session.jar_turns import settle_jar
from assistant.session.journal import Journal, Mark
from assistant.session.known_words import lexicon
from assistant.session.merging import Merged, gives_way, lay_over
from assistant.session.nicknames import names_for
from assistant.session.other_measure import asked_otherwise
from assistant.session.over_time import over_time
from assistant.session.plans import Plans
from assistant.session.pointing import as_the_plant, ask_before_name, unnamed
from assistant.session.renumbering import swap
from assistant.session.repairing import which_mends
from assistant.session.spirit_turns import settle_spirit
from assistant.session.stillroom import stillroom
from assistant.session.trimmed import clean_weight_wanted
from assistant.session.year_work import WORK

if TYPE_CHECKING:
    from assistant.session.bottling import Filled
    from assistant.session.reaching import Reach
    from assistant.session.remembering import Memory
    from assistant.session.two_weights import TwiceWeighed
    from assistant.teaching.practice import Lesson

SHARING = frozenset({"sharing"})  # what is told there of each way can be asked for later
YEAR_TALK = frozenset({"year", "orders", "ledger", "sharing"})  # work that the book, or another plan, may add to
HABITS = ("measures", "decimal_comma", "plain", "fahrenheit", "giving_back")  # how the person likes to be spoken to


OPENS = frozenset({"dried", "to_gather"})  # asked before anything was told: what is lacking is asked for

class Session:
    """A conversation. `Session()` is in memory and reads nothing of the person's; the same sentences give the same replies on every machine.

    >>> Session().say("112 g fresh nettle, 1:2 at 60 %").status
    'answered'
    """

    def __init__(self, book: Path | None = None, folder: Path | None = None, *, today: Callable[[], date] = date.today) -> None:
        self.turn = 0
        self.batches = Plans()
        self.current = -1
        self.previous: int | None = None
        self.journal = Journal()
        self.firsts: list[Batch] = []
        self.draft: Batch | None = None
        self.wants: tuple[str, ...] = ()
        self.measures = "us"
        self.decimal_comma = False
        self.plain = False
        self.fahrenheit = False
        self.last: Worked | None = None
        self.last_keys: tuple[str, ...] = ()
        self.gap: tuple[str, float, str] | None = None
        self.pair: tuple[int, tuple[Batch, Batch]] | None = None  # what was laid side by side, and at which turn
        self.claimed: tuple[tuple[str, float], ...] = ()  # what was last checked: key and the figure that was claimed
        self.conversion: Conversion | None = None
        self.practises = False
        self._lesson: Lesson | None = None
        self.writer: Callable[[str, str], None] | None = None  # writes a page by name; handed over by a door that may
        self.last_cautions: tuple[Caution, ...] = ()
        self.cautioned = 0  # the turn in which a caution was last given
        self.giving_back = True  # whether the line about giving back is told
        self.muted: set[str] = set()
        self.weighing = False  # asked which of a wilted plant's two weights the ratio counts
        self.both_weights: Batch | None = None  # of a wilted plant, as they stood before one of them was taken
        self.rewinding = False  # this sentence undoes or redoes
        self.instruments = NONE
        self.twice_weighed: TwiceWeighed | None = None  # a plant weighed in the field and at home, until it is said what went
        self.weighings: tuple[Weighing, ...] = ()  # the two weights last laid side by side
        self.sizes: tuple[float, ...] = ()  # mL of the bottles there are to choose from
        self.filled: Filled | None = None  # what was last filled into bottles of several sizes
        self.reach: Reach | None = None  # so many bottles, held against what there is
        self.disputed: tuple[str, ...] = ()  # the figures of a conflict that is not yet mended
        self.halted = False  # the last reply was a stop
        self.went = False  # this sentence went to another plan by its own words
        self.pack: Pack | None = None if folder is None else read_folder(folder)
        self._memory: Memory | None = None
        self._book_file, self._today = book, today
        if book is not None:
            self.memory.begin(self)

    # ── the one way in ───────────────────────────────────────────────────────────────────────────────────────────────

    def say(self, text: str) -> Reply:
        """Answer one sentence. Never raises on account of what was said. With a book, the turn is kept before the reply is given."""
        if too_much := excess(text):
            self.turn += 1
            return Answers(self, text[:LONGEST_SENTENCE]).too_long(too_much)
        with using(self.pack), in_hand(self.instruments):
            return self._say(text) if self._memory is None else self.memory.remembered(self, text, self._say)

    def _say(self, text: str) -> Reply:
        self.turn += 1
        answers = Answers(self, text)
        if not text.strip():
            return answers.not_understood("I heard nothing.", "Say what you have in hand: “112 g fresh nettle, 1:2 at 60 %”.")
        before = self.mark()
        reading = self.read(text)
        units = reading.act("units")
        if units is not None and units.arguments[0] != self.measures:
            self.measures = units.arguments[0]
            reading = self.read(text)  # a pint in this very sentence is meant in them
        self.rewinding = self.went = False
        reply = accounted(self._respond(reading, answers), reading.numbers)
        if self._memory is not None:
            from assistant.session.keeping_stock import beside

            reply = beside(self, reading, reply)
        after = self.mark()
        only_asks = bool(reading.asked) and not (reading.said or reading.loose or reading.ingredients or reading.liquids)
        if not self.rewinding and (
            after.has_other_figures(before) or (not only_asks and after.has_other_shades(before)) or (self.went and after.current != before.current)
        ):
            self.journal.note(before)
        return reply

    def read(self, text: str) -> Reading:
        """A sentence read against the batch in hand; changes nothing."""
        lots = self._memory.lots_named(text) if self._memory is not None else []
        if lots:  # "24-07 bottled, 5 of 50 ml": a lot by its mere name, where something is done with it in the book
            of_the_book = self._read(text, [])
            if any(act.name.startswith("book_") for act in of_the_book.acts):
                return of_the_book
        return self._read(text, lots)

    def _read(self, text: str, lots: Sequence[str]) -> Reading:
        spoken, text = text, as_the_plant(unnamed(text, [*(alias for alias, _ in self.batches.aliases), *lots]), self.batch)
        heard = read(text, Habits(measures=self.measures, decimal_comma=self.decimal_comma, lexicon=lexicon()))
        if heard.measures and not any(item.kind == "proof" for item in heard.items):
            self.measures = heard.measures  # "an imperial pint": said once, kept
        context = frozenset() if self.batch is None else self.batch.frames | ({"stand"} if "stand_plants" in self.batch.facts else set())
        items = with_whole_measures(heard.items, self.measures)
        first = self.firsts[self.current] if 0 <= self.current < len(self.firsts) else None
        reading = read_statements(text, items, heard.notes, names_for(self.batch, first), context)
        if (reading.frames | context) & WORK:
            from assistant.session.year_dates import place_dates

            place_dates(reading, context, self._today(), self.batch)
        tags = read_tags(text)
        reading.tags |= tags.tags
        reading.denied |= tags.denied
        reading.passing |= tags.passing
        reading.heard = spoken
        reading.numbers = [(i.start, i.end, i.kind) for i in heard.items if i.value is not None or i.kind in ("label", "time")]
        # a lot by its mere name is no figure
        reading.numbers += [(m.start(), m.end(), "label") for lot in lots for m in re.finditer(re.escape(lot), spoken, re.IGNORECASE)]
        reading.measures = self.measures
        return reading

    @property
    def lesson(self) -> Lesson:
        """What is being practised; the schoolroom is opened when first asked for."""
        if self._lesson is None:
            from assistant.teaching.practice import Lesson

            self._lesson = Lesson()
        return self._lesson

    @lesson.setter
    def lesson(self, lesson: Lesson) -> None:
        self._lesson = lesson

    @property
    def at_school(self) -> bool:
        """Whether anything was practised in this conversation."""
        return self._lesson is not None

    @property
    def memory(self) -> Memory:
        """The book of this conversation; made when first asked for, since most single sentences do without one."""
        if self._memory is None:
            from assistant.session.remembering import Memory

            self._memory = Memory(self._book_file, self._today)
        return self._memory

    @property
    def batch(self) -> Batch | None:
        """The batch in hand, the draft before it."""
        if self.draft is not None:
            return self.draft
        return self.batches[self.current] if 0 <= self.current < len(self.batches) else None

    # ── from reading to reply ────────────────────────────────────────────────────────────────────────────────────────

    def _respond(self, reading: Reading, answers: Answers) -> Reply:
        stopped = answers.emergency(reading)
        if stopped is not None:
            return stopped
        if any(act.name.startswith("book_") for act in reading.acts) and not named_in(reading.heard)[0]:
            from assistant.session import keeping

            booked = keeping.handle(self, reading, answers)
            if booked is not None:
                return booked
        measured = instrument_talk.handle(self, reading, answers)
        if measured is not None:
            return measured
        in_hand = self.batch.frames if self.batch is not None else frozenset()
        if reading.fault is not None or (reading.frames | (in_hand & SHARING)) & YEAR_TALK or any(act.name.startswith("year_") for act in reading.acts):
            from assistant.session import year_talk

            planned = year_talk.handle(self, reading, answers)
            if planned is not None:
                return planned
        cared = care_talk.handle(self, reading, answers)
        if cared is not None:
            return cared
        stillroom(self, reading)
        handled = talk.handle(self, reading, answers)
        if handled is not None:
            return handled
        taken = explaining.with_working(self, reading, self.take(reading, answers))
        return (answers.overheard(reading) or taken) if taken.status == "not_understood" else taken

    def take(self, reading: Reading, answers: Answers, onto: Batch | None = None, index: int | None = None) -> Reply:
        """Lay a sentence over the batch it speaks of, and answer."""
        cups_of_it(self, reading)
        asked_otherwise(self, reading)
        swap(self, reading)
        ask_before_name(self, reading)
        over_time(self, reading)
        target, place = self.target(reading) if onto is None else (onto, self.current if index is None else index)
        dry_weight_wanted(reading, target)
        clean_weight_wanted(reading, target)
        essential_in_salve(reading, target)
        settle_spirit(reading, target)
        settle_jar(reading, target, self.firsts[place] if 0 <= place < len(self.firsts) else None)
        freed = [k for k in target.facts if base(k) in reading.freed]
        if freed:
            target = target.without(*freed)
        target = frozen(self, target, reading)
        self.wants = which_mends(self, reading)
        merged = lay_over(target, reading, self.turn, self.wants)
        adjust(self, reading, merged)
        weighing_settled(self, reading, merged)
        answers.merged = merged
        answers.used = [Used(text=reading.heard[a:b][:40], start=a, end=min(b, a + 40), quantity=q) for a, b, q in merged.used if b > a]
        answers.used += [
            Used(text=reading.heard[r.start : r.end][:40], start=r.start, end=min(r.end, r.start + 40), quantity=r.what) for r in reading.references
        ]
        if reading.has("weight_in_ml") and any(s.quantity == "menstruum" and s.key in merged.new_keys for s in reading.said):
            return answers.weight_in_millilitres(merged)
        if merged.bad:
            return answers.refused_figures(merged)
        compared = variants(self, reading, merged, answers)
        if compared is not None:
            return compared
        if merged.doubled:
            return answers.doubled(merged)
        checked = claimed(self, reading, merged, answers)
        if checked is not None:
            return checked
        if onto is None and not (0 <= place != self.current) and not self._says_anything(reading, merged):
            return answers.lost(reading)
        worked = self._reconciled(merged)
        return holding(self, worked, answers.answer(reading, merged, worked, place))

    def target(self, reading: Reading) -> tuple[Batch, int]:
        """The batch a sentence speaks of, and its place among the plans (-1 for a new one)."""
        return aimed_at(self, reading)

    draft_of_current = True

    def _says_anything(self, reading: Reading, merged: Merged) -> bool:
        if merged.new_keys or merged.unplaced:
            return True
        if reading.asked and (self.batch is not None and (self.batch.facts or self.batch.members)):
            return True
        if reading.asked and (reading.named or reading.frames or (not reading.unread and {a.quantity for a in reading.asked} & OPENS)):
            return True
        return (
            bool(reading.freed)
            or bool(reading.acts)
            or bool(reading.named)
            or bool(reading.tags)
            or bool(self.batch is not None and reading.denied & self.batch.tags)
        )

    def _reconciled(self, merged: Merged) -> Worked:
        """Solve, letting older figures give way where what was just said replaces what followed from them."""
        worked = asked_again(merged) or work_out(merged.batch)
        for _ in range(6):
            if not worked.solution.conflicts:
                return worked
            clash = worked.solution.conflicts[0]
            if self.draft is not None and len(set(clash.said) & set(self.disputed)) >= 2:
                return worked  # what was in conflict still is: the person decides, not we
            loser = gives_way(clash.said, merged.new_keys, merged.batch)
            if loser is None:
                return worked
            merged.batch = merged.batch.without(loser)
            worked = work_out(merged.batch)
        return worked

    # ── keeping ──────────────────────────────────────────────────────────────────────────────────────────────────────

    def mark(self) -> Mark:
        """The bench as it stands, for undo to come back to."""
        habits = tuple(getattr(self, h) for h in HABITS)
        return Mark(self.batches.all(), tuple(self.firsts), self.current, self.draft, self.wants, self.draft_of_current, habits, self.instruments)

    def stand_on(self, mark: Mark) -> None:
        """Put the bench back to where it was."""
        self.batches.become(mark.batches)
        self.firsts, self.current = list(mark.firsts), mark.current
        self.draft, self.wants, self.draft_of_current = mark.draft, mark.wants, mark.of_current
        for habit, value in zip(HABITS, mark.habits, strict=True):
            setattr(self, habit, value)
        self.instruments = mark.instruments
        taken_up(mark.instruments)
        self.disputed = ()
        self.rewinding = True

    def keep(self, batch: Batch, index: int) -> None:
        """Make a batch the one in hand: a new plan, or the next moment of one."""
        self.draft, self.wants, self.halted = None, (), False
        if index < 0:
            self.batches.add(batch)
            self.firsts.append(batch)
            index = len(self.batches) - 1
        else:
            self.batches.put(batch, index)
        if index != self.current and self.current >= 0:
            self.previous = self.current
        self.current = index

    def hold(self, batch: Batch, wants: Sequence[str], index: int) -> None:
        """Keep what was said for the repair, without making a batch of it."""
        self.draft, self.wants, self.disputed, self.halted = batch, tuple(wants), (), False
        self.draft_of_current = index >= 0

    # ── for the doors ────────────────────────────────────────────────────────────────────────────────────────────────

    @property
    def faults(self) -> tuple[Fault, ...]:
        """What of the person's own folder was left out, and why."""
        return () if self.pack is None else self.pack.faults

    def bench_line(self) -> str:
        """The batch's key figures in one short line, "" where there is none."""
        batch = self.batch
        if batch is None or self.last is None:
            return ""
        from assistant.session.wording import shown

        keys = ("herb", "ratio", "strength", "menstruum", "finished_strength", "pressed", "blend", "batch")
        figures = self.last.solution.figures
        parts = [shown(k, figures[k].value) for k in keys if k in figures]
        return " · ".join([batch.title or "this batch", *parts[:5]])

    def next_words(self, text: str) -> list[str]:
        """Words that may come next after `text`, plants among them."""
        from assistant.session.completing import next_words

        with using(self.pack):
            return next_words(text)


__all__ = ["Question", "Session"]
