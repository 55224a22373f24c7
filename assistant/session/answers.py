"""Replies put together: answered, noted, asking, conflict, refused, not understood."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from assistant.listening.statements import Loose, Reading
from assistant.matter import FUNCTIONS
from assistant.quantities.vocabulary import VOCABULARY, about, base, bracket
from assistant.reply import Question, Reply, Status, Step, Used, Value
from assistant.session import answering, reaching
from assistant.session.asides import asides
from assistant.session.asked_unit import unit_asked
from assistant.session.batch import Batch
from assistant.session.caring import Care
from assistant.session.figuring import Worked, work_out
from assistant.session.fresh_or_dried import STATE, hangs_on_its_state, state_question
from assistant.session.merging import Merged
from assistant.session.offers import ceiling_of, offer
from assistant.session.plain_words import in_plain_words
from assistant.session.questions import ASKABLE, first_counted, question_for, unplaced_question
from assistant.session.reconcile import ways
from assistant.session.telling import told_keys
from assistant.session.wording import number, shown
from assistant.session.year_work import WORK
from assistant.solving.missing import missing

if TYPE_CHECKING:
    from assistant.session.conversation import Session

SHELF_KEYS = frozenset({"herb_served", "herb_left", "left_dried", "spirit_short", "menstruum_served"})
MEASURED_FIRST = {"dropperful": ("dose", "dropper_size"), "herbcup": ("herb",)}  # measures that are none until counted or weighed: what is asked of them
EXAMPLES = ("112 g fresh nettle, 1:2 at 60 %", "make 500 mL of 60 % from 95 %", "600 g fresh leaf at 80 % water, what does it dry to?")


class Answers:
    """The reply to one sentence in the making: what it used so far, and what came of it."""

    def __init__(self, session: Session, heard: str) -> None:
        self.session = session
        self.heard = heard
        self.used: list[Used] = []
        self.merged: Merged | None = None
        self.notes: list[str] = []
        self.kept_beside = ""  # what was kept of the sentence besides what it is answered for

    # ── the plain outcomes ───────────────────────────────────────────────────────────────────────────────────────────

    def reply(self, status: Status, text: str, **fields: Any) -> Reply:
        batch = fields.pop("batch", None)
        title = batch.title if isinstance(batch, Batch) else (batch or "")
        used = tuple(sorted({(u.start, u.end, u.quantity): u for u in self.used if u.text}.values(), key=lambda u: u.start))
        lines = [text, *(f"Read as: {n}." for n in self.notes), *filter(None, [self.kept_beside])]
        return Reply(turn=self.session.turn, heard=self.heard, status=status, batch=title, used=used, text="\n".join(lines), **fields)

    def not_understood(self, text: str, offer_text: str) -> Reply:
        return self.reply("not_understood", f"{text} {offer_text}", questions=(Question(text=offer_text, choices=EXAMPLES),))

    def too_long(self, too_much: str) -> Reply:
        """A sentence that is not read at all."""
        ask = "Can you say it in shorter sentences, one after the other?"
        return self.reply("refused", f"{too_much}\n{ask}", questions=(Question(text=ask),))

    def lost(self, reading: Reading) -> Reply:
        """Nothing in the sentence could be placed: nothing is changed, and what can be said is offered."""
        words = [w for w in reading.unread if w.isprintable()][:3]
        where = f" I stopped at “{words[0]}”." if words else ""
        numbers = [loose.text for loose in reading.loose]
        about_numbers = f" What is {', '.join(f'“{n}”' for n in numbers)} meant for?" if numbers else ""
        text = f"I do not understand that, and nothing was changed.{where}{about_numbers} I do the arithmetic of the bench."
        return self.reply(
            "asking" if numbers else "not_understood", text + " Try: " + "; ".join(f"“{e}”" for e in EXAMPLES) + ".",
            questions=(Question(text=("What is meant by " + ", ".join(f"“{n}”" for n in numbers) + "?") if numbers else "What shall I work out?", choices=EXAMPLES),),  # noqa: E501  (one sentence, or one expression)
        )  # fmt: skip

    def noted(self, text: str, batch: Batch | None = None, values: Sequence[Value] = (), questions: Sequence[Question] = ()) -> Reply:
        return self.reply("noted", text, batch=batch, values=tuple(values), questions=tuple(questions))

    # ── what cannot be ───────────────────────────────────────────────────────────────────────────────────────────────

    def refused_figures(self, merged: Merged) -> Reply:
        """A figure that cannot be: one message, the rest of the sentence is held for the repair."""
        lines, questions, wants = [], [], []
        for key, said, fault in merged.bad:
            caption = VOCABULARY[base(key)].caption
            name = f"{about(key)} {caption}" if about(key) else caption
            value = shown(key, said.value) if said is not None else ""
            lines.append(f"{name.capitalize()} {value} {fault}.")
            text, choices = question_for(key)
            questions.append(Question(text=text, wants=(base(key),), choices=choices))
            wants.append(key)
        self.session.hold(merged.batch, wants, self.session.current)
        text = " ".join(dict.fromkeys(lines)) + " I keep the rest. " + " ".join(dict.fromkeys(q.text for q in questions))
        return self.reply("refused", text, batch=merged.batch, questions=tuple(questions))

    def weight_in_millilitres(self, merged: Merged) -> Reply:
        """A plant is weighed, a liquid is measured: a weight in millilitres is asked about, and the rest is held."""
        volume = merged.batch.facts["menstruum"].value
        text = f"{shown('menstruum', volume)} is a volume: a plant is weighed, in grams or ounces. What does the scale say?"
        self.session.hold(merged.batch.without("menstruum"), ("herb",), self.session.current)
        return self.reply("refused", text, batch=merged.batch, questions=(Question(text=text, wants=("herb",), choices=(f"{number(volume, 'g')} g",)),))

    def doubled(self, merged: Merged) -> Reply:
        """One thing said twice over with different figures: which one holds?"""
        questions, steps = [], []
        rest = merged.batch
        wants = []
        for key, values in merged.doubled:
            texts = [shown(key, v) for v in values]
            caption = VOCABULARY[base(key)].caption
            questions.append(Question(text=f"Two figures for the {caption}: {' and '.join(texts)}. Which one holds?", wants=(base(key),), choices=tuple(texts)))
            steps += [
                Step(quantity=base(key), about=about(key), value=v, unit=VOCABULARY[base(key)].unit, relation="implied", says=f"the {caption} as said")
                for v in values
            ]
            rest = rest.without(key)
            wants.append(key)
        self.session.hold(rest, wants, self.session.current)
        return self.reply("conflict", "\n".join(q.text for q in questions), batch=rest, questions=tuple(questions), steps=tuple(steps))

    def conflicting(self, worked: Worked, merged: Merged) -> Reply:
        clash = worked.solution.conflicts[0]
        lines, steps, choices = [], [], []
        shares = {k: s for k, _, s in clash.implied if base(k) == "share"}
        for key, implied, said in clash.implied:
            caption = _caption(key)
            if implied is None and len(shares) == len(clash.implied):
                implied = 100.0 - sum(s for k, s in shares.items() if k != key)  # the percents do not make a hundred
            if implied is None:
                lines.append(f"{caption} {shown(key, said)}: nothing fits with the rest")
                continue
            lines.append(f"{caption} said {shown(key, said)}, but the rest makes it {shown(key, implied)}")
            choices.append(f"{caption} {shown(key, implied)}")
            steps.append(Step(quantity=base(key), about=about(key), batch=worked.batch.title, value=implied, unit=VOCABULARY[base(key)].unit, relation="implied",  # noqa: E501  (one sentence, or one expression)
                              says=f"what the other figures make of the {caption}", working=f"said {shown(key, said)}"))  # fmt: skip
        names = ", ".join(f"{_caption(k)} {shown(k, v)}" for k, _, v in clash.implied)
        text = f"These cannot all hold: {names}. Which one gives?\n" + "\n".join(f"- {line}" for line in lines)
        plain = in_plain_words(clash)
        if plain is not None:
            text = plain[0] + "\n" + "\n".join(f"- {line}" for line in lines if ": nothing fits" not in line)
            choices = [*plain[1], *choices]
        self.session.hold(merged.batch, clash.said, self.session.current)
        self.session.disputed = tuple(clash.said)
        question = Question(
            text=f"Which gives: {', '.join(_caption(k) for k in clash.said)}?", wants=tuple(base(k) for k in clash.said), choices=tuple(choices)
        )
        return self.reply("conflict", text, batch=worked.batch, questions=(question,), steps=tuple(steps))

    def still_disputed(self, draft: Batch, holds: Sequence[str], left: Sequence[str]) -> Reply:
        """Some of the figures in conflict were confirmed: which of the others gives, and what would it become?"""
        steps, choices = [], []
        for key in left:
            other = work_out(draft.without(key), wanted=(key,))
            if other.solution.conflicts or key not in other.solution.figures:
                continue
            value = other.solution.figures[key].value
            choices.append(f"{_caption(key)} {shown(key, value)}")
            steps.append(Step(quantity=base(key), about=about(key), batch=draft.title, value=value, unit=VOCABULARY[base(key)].unit, relation="implied",
                              says=f"what the other figures make of the {_caption(key)}", working=f"said {shown(key, draft.facts[key].value)}"))  # fmt: skip
        sure = ", ".join(f"{_caption(k)} {shown(k, draft.facts[k].value)}" for k in holds)
        question = Question(text=f"Which gives then: {' or '.join(_caption(k) for k in left)}?", wants=tuple(base(k) for k in left), choices=tuple(choices))
        self.session.hold(draft, left, self.session.current if self.session.draft_of_current else -1)
        self.session.disputed = tuple(left)
        text = f"{sure[:1].upper() + sure[1:]} stands. {question.text}" + "".join(f"\n- {c}" for c in choices)
        return self.reply("conflict", text, batch=draft, questions=(question,), steps=tuple(steps))

    def impossible(self, worked: Worked, merged: Merged) -> Reply | None:
        """A result no bench can reach: say why, and what would work."""
        reason = offer(worked)
        if reason is None:
            return None
        text, question, wants = reason
        self.session.hold(merged.batch, wants, self.session.current)
        top = ceiling_of(worked)
        steps = (
            () if top is None else (Step(quantity="ceiling", value=top, unit="percent", relation="implied", says="the stock poured as it is finishes here"),)
        )
        return self.reply("refused", f"{text} {question.text}", batch=worked.batch, questions=(question,), steps=steps)

    # ── the answer ───────────────────────────────────────────────────────────────────────────────────────────────────

    def answer(self, reading: Reading, merged: Merged, worked: Worked, index: int) -> Reply:
        session = self.session
        self.notes = list(reading.notes)
        if worked.solution.conflicts:
            worked = self._stock_taken_for_pour(worked, merged) or worked
        if worked.solution.conflicts:
            return self.conflicting(worked, merged)
        if {"wilted", "herb"} <= worked.batch.facts.keys() and worked.batch.facts.keys() & {"ratio", "menstruum"} and "wilted" not in worked.batch.wanted:
            return self._which_weight(worked, merged)
        care = Care(session, worked, reading)
        if care.stops:
            return care.stopped(self, merged, index)
        cannot = reaching.instead_of_a_loss(session, worked, self, index) or self.impossible(worked, merged)
        if cannot is not None:
            return cannot
        if (
            "finished_strength" in merged.new_keys
            and "strength" not in worked.solution.figures
            and "spirit" in worked.tags
            and "dose" not in worked.batch.facts
        ):
            worked = work_out(worked.batch, wanted=tuple(dict.fromkeys((*worked.batch.wanted, "strength"))))
            return self.asking(worked, merged, ("strength",), index, care)
        mending = session.draft is not None and bool(session.wants) and not merged.unplaced  # an answer to our question keeps what was asked before it
        asked_now = tuple(worked.batch.wanted) if reading.asked or mending else ()
        answers, open_ = answering.settle_asked(worked, worked.batch.wanted)
        told = answering.told(worked)
        main = answers or answering.leading(told)
        if asked_now and open_ and not answers:
            return self.asking(worked, merged, open_, index, care)
        if not answers and not told:
            if worked.batch.wanted and open_ and not merged.new_keys:
                return self.asking(worked, merged, open_, index, care)
            return self._nothing_yet(worked, merged, index, care, reading)
        if not asked_now:
            told = [*(k for k in main if k not in told), *told]
            main = answering.news_first(worked, session.last, main, told)
        if main[:1] == ["fill_short"]:
            session.keep(worked.batch.having(spoken=care.given), index)
            session.last, session.last_keys = work_out(worked.batch, wanted=reaching.ASKED), ("fill_short",)
            return reaching.told(session.last, self)
        main = list(dict.fromkeys([*main, *answering.companions(worked, main)]))
        rest = [k for k in told if k not in main]
        session.keep(worked.batch.having(spoken=care.given), index)
        session.last, session.last_keys = worked, tuple(main)
        return self._answered(worked, main, rest, reading, merged, care, open_ if asked_now else [])

    def _answered(self, worked: Worked, main: Sequence[str], rest: Sequence[str], reading: Reading, merged: Merged, care: Care, open_: Sequence[str]) -> Reply:
        unit = unit_asked(reading)
        shelf = ways(worked, merged.asked, reading.heard)
        head, shown_keys = answering.first_line(worked, main, unit, self.session.measures)
        rest = [k for k in rest if k not in shown_keys and not (shelf and k in SHELF_KEYS)]
        if shelf is not None and not shelf.reaches:
            main_only = [k for k in main if k not in SHELF_KEYS]
            lines = [shelf.head, *(f"{n}. {line}" for n, line in enumerate(shelf.lines, 1))]
            if main_only:
                lines.insert(1, head) if head not in lines else None
        elif shelf is not None:
            lines = [shelf.head, head]
        else:
            lines = [head]
        if rest:
            lines.append(answering.second_line(worked, rest))
        questions = [unplaced_question(loose) for loose in merged.unplaced]
        questions += care.questions
        for key in open_:
            text, choices = question_for(self._missing(worked, key)[0] if self._missing(worked, key) else key)
            questions.append(Question(text=text, wants=(base(key),), choices=choices))
        keys = [*main, *(k for k in shown_keys if k not in main), *rest]
        assumed = answering.assumptions_for(worked, keys)
        beside = asides(worked, reading)
        lines += [*(a.text for a in beside), answering.assumption_line(assumed), *care.lines, answering.ask_text(questions)]
        values = [answering.value_of(worked, k) for k in keys]
        values += [v for a in beside for v in a.values]
        values += [v for v in care.values if (v.quantity, v.about) not in {(w.quantity, w.about) for w in values}]
        if shelf is not None:
            told_already = {(v.quantity, v.value) for v in values}
            values += [v for v in shelf.values if (v.quantity, v.value) not in told_already]
        figures = worked.solution.figures
        for key in [k for k in worked.batch.facts if k in merged.new_keys]:
            if key in figures and key not in keys:
                values.append(answering.value_of(worked, key))
        for assumption in assumed:
            key = next((k for k in worked.taken if base(k) == assumption.quantity and worked.taken[k].text == assumption.text), "")
            if key and key in figures and key not in keys:
                values.append(answering.value_of(worked, key))
        reply = self.reply(
            "answered", "\n".join(line for line in lines if line), batch=worked.batch, values=tuple(values), assumptions=tuple(assumed),
            questions=tuple(questions), cautions=tuple(care.spoken), steps=tuple(answering.steps_for(worked, main)),
        )  # fmt: skip
        if not worked.batch.frames & WORK:
            return reply
        from assistant.session.year_view import viewed

        return viewed(self.session, reading, worked, reply)

    def _stock_taken_for_pour(self, worked: Worked, merged: Merged) -> Worked | None:
        """ "95 % alcohol, to finish at 65": where both cannot be, the one strength is the stock's and the pour is what is sought."""
        clash = set(worked.solution.conflicts[0].said)
        facts = worked.batch.facts
        if not {"strength", "finished_strength"} <= clash & merged.new_keys or "stock_strength" in facts:
            return None
        changed = dict(facts)
        changed["stock_strength"] = changed.pop("strength")
        again = work_out(worked.batch.having(facts=changed))
        if again.solution.conflicts:
            return None
        merged.batch = again.batch
        merged.new_keys = (merged.new_keys - {"strength"}) | {"stock_strength"}
        return again

    def _which_weight(self, worked: Worked, merged: Merged) -> Reply:
        """A wilted plant has two weights, and the ratio counts one of them."""
        facts = worked.batch.facts
        text = f"Which weight does the ratio count: {shown('herb', facts['herb'].value)} before wilting, or {shown('wilted', facts['wilted'].value)} after?"
        self.session.hold(merged.batch, (), self.session.current)
        self.session.weighing = True
        question = Question(text=text, wants=("herb",), choices=("count the weight before", "count the weight after"))
        return self.reply("asking", text, batch=worked.batch, questions=(question,))

    def _missing(self, worked: Worked, key: str) -> tuple[str, ...]:
        askable = [k for k in (*ASKABLE, *(f"strength_of[{m}]" for m in worked.batch.members)) if k not in worked.known or worked.known[k].origin == "assumed"]
        if "mix" in worked.batch.frames and all(f"volume[{m}]" in worked.known for m in worked.batch.members):
            askable = [k for k in askable if k != "blend"]  # the volumes are told: what is made follows from the strengths
        sets = missing((key,), worked.known, worked.relations, worked.batch.members, FUNCTIONS, bracket, askable)
        of_the_plant = [] if base(key) not in FROM_THE_PLANT else [s for s in sets if s != ("herb",)]  # its weight is what is looked for
        return (of_the_plant or sets)[0] if sets else ()

    def asking(self, worked: Worked, merged: Merged, open_: Sequence[str], index: int, care: Care) -> Reply:
        wants: list[str] = []
        for key in open_:
            needed = self._missing(worked, key)
            for alternative in answering.STANDS_FOR.get(base(key), ()):
                if needed:
                    break
                for option in answering.expand(alternative, worked.batch):
                    needed = needed or self._missing(worked, option)
            wants.extend(needed or (key,))
        of_state = hangs_on_its_state(worked, open_)
        wants = [STATE] if of_state else first_counted(wants, worked.batch.facts)
        questions = [state_question()] if of_state else []
        asked_so = {key for figure in merged.unplaced for key in MEASURED_FIRST.get(figure.kind, ())}
        for key in [k for k in wants if k not in asked_so and not of_state][:3]:
            text, choices = question_for(key)
            questions.append(Question(text=text, wants=(base(key),), choices=choices))
        questions += [*care.questions, *(unplaced_question(loose) for loose in merged.unplaced)]
        self.session.hold(worked.batch.having(spoken=care.given), [*_measured_first(merged.unplaced), *(w for w in wants if w not in asked_so)], index)
        known = ", ".join(f"{_caption(k)} {shown(k, f.value)}" for k, f in worked.batch.facts.items())
        lines = ["To work that out I need one thing more." if len(questions) == 1 else "To work that out I need a little more.", answering.ask_text(questions)]
        if known:
            lines.append(f"I have: {known}.")
        lines += care.lines
        values = [answering.value_of(worked, k, "said") for k in worked.batch.facts if k in merged.new_keys and k in worked.solution.figures]
        return self.reply("asking", "\n".join(lines), batch=worked.batch, questions=tuple(questions), cautions=tuple(care.spoken), values=tuple(values))

    def _nothing_yet(self, worked: Worked, merged: Merged, index: int, care: Care, reading: Reading) -> Reply:
        """Facts kept, nothing to tell yet: the kind of work tells what is missing."""
        batch = worked.batch
        told_whole = bool(batch.members) and all(f"volume[{m}]" in batch.facts for m in batch.members)  # "100 mL: valerian 40, hops 20, linden 40"
        goals = [] if told_whole else [k for k in told_keys(batch) if k not in batch.facts]
        if batch.frames & {"dilution", "mix", "formula", "salve", "tea", "child_rule"} and goals:
            return self.asking(worked, merged, goals[:1], index, care)
        if merged.unplaced:
            questions = [unplaced_question(loose) for loose in merged.unplaced]
            self.session.hold(batch, _measured_first(merged.unplaced), index)
            return self.reply("asking", answering.ask_text(questions), batch=batch, questions=tuple(questions), cautions=tuple(care.spoken))
        beside = asides(worked, reading)
        if beside:  # nothing follows from the figures but what is told beside an answer
            self.session.keep(batch.having(spoken=care.given), index)
            self.session.last, self.session.last_keys = worked, ()
            lines = [*(a.text for a in beside), *care.lines]
            values = [*(v for a in beside for v in a.values)]
            return self.reply("answered", "\n".join(lines), batch=batch, values=tuple(values), cautions=tuple(care.spoken))
        kept = [f"{_caption(k)} {shown(k, batch.facts[k].value)}" for k in batch.facts if k in merged.new_keys]
        if not kept and not batch.name and not care.spoken:
            return self.lost_plain()
        self.session.keep(batch.having(spoken=care.given), index)
        self.session.last, self.session.last_keys = worked, ()
        needed = self._missing(worked, "menstruum") if "herb" in batch.facts or "ratio" in batch.facts else ()
        questions = []
        if needed:
            text, choices = question_for(needed[0])
            questions.append(Question(text=text, wants=(base(needed[0]),), choices=choices))
            self.session.wants = needed
        questions += care.questions
        told = ", ".join(kept) or batch.name
        text = " ".join([*([f"Noted: {told}."] if told else []), *(q.text for q in questions)])
        values = [answering.value_of(worked, k, "said") for k in worked.batch.facts if k in merged.new_keys and k in worked.solution.figures]
        return self.reply(
            "noted", "\n".join(filter(None, (text, *care.lines))), batch=batch, values=tuple(values), questions=tuple(questions), cautions=tuple(care.spoken)
        )

    def lost_plain(self) -> Reply:
        return self.not_understood("I do not understand that, and nothing was changed.", "Try: " + "; ".join(f"“{e}”" for e in EXAMPLES) + ".")

    def emergency(self, reading: Reading) -> Reply | None:
        return Care.emergency(self, reading)

    def overheard(self, reading: Reading) -> Reply | None:
        return Care.overheard(self, reading)


FROM_THE_PLANT = frozenset({"to_gather", "picked", "gross"})


def _measured_first(unplaced: Sequence[Loose]) -> list[str]:
    """What is held to be answered about measures that are none until they are counted or weighed."""
    return [MEASURED_FIRST[figure.kind][-1] for figure in unplaced if figure.kind in MEASURED_FIRST]


def _caption(key: str) -> str:
    caption = VOCABULARY[base(key)].caption
    return f"{about(key)} {caption}" if about(key) else caption
