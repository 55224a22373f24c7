"""Talk about the stand a plant comes from: what regrows, which lists it is on, and what would do instead of digging.

What is told of a plant stands in the list of plants; what is not known there is said to be unknown. The law is always a local matter.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.cautions.plant import PART_KINDS, Flag, Plant
from assistant.cautions.plants import plants
from assistant.listening.statements import Reading
from assistant.reply import Question, Reply
from assistant.session.answering import value_of
from assistant.session.caring import all_cautions, caution_line
from assistant.session.figuring import part_of, work_out
from assistant.session.instead import instead_values, instead_words
from assistant.session.questions import question_for
from assistant.session.wording import shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

# What comes back of each part, as every teacher of gathering has it; common practice.
COMES_BACK = {
    "root": "A dug root is a plant gone: what comes back comes from seed, or from a piece of crown with a bud set in the hole again.",
    "bulb": "A dug bulb is a plant gone: small offsets put back take years to flower.",
    "bark": "Bark closes over a narrow strip in years and over a ring never; a branch pruned off, or a tree that is coppiced, sprouts again.",
    "leaf": "Leaf comes again in the same year where most of each plant is left, and less each time it is cut.",
    "herb": "Tops cut above the lowest leaves come again, in many plants in the same year; cut to the ground, the next year at best.",
    "flower": "Flowers come again next year, but each one taken is seed that does not fall.",
    "berry": "Fruit comes again next year; what is taken is seed, and somebody's food.",
    "seed": "Seed comes again next year on a plant that lives on; of one that lives a single year the seed is all there is.",
    "bud": "Each bud taken is a shoot fewer next year.",
    "resin": "Resin flows again slowly; scrape what has run, and cut nothing.",
    "fungus": "A fungus fruits again from what stays in the wood or the ground.",
    "thallus": "It grows in decades where it grows at all.",
}
LISTS = ("at-risk", "protected", "cites")
LAW = "Lists and laws are local and change: ask the authority where the plant stands before you cut or dig, and before it crosses a border."


# As every teacher of gathering has it; common practice.
GIVING_BACK = "Scatter ripe seed where it grew, set a piece of crown with a bud back in the hole, fill the hole and cover it, leave the strongest plants to seed, write down the count, and come back next year to see. Plant in what belongs there, and nothing bought in from elsewhere."  # noqa: E501  (one sentence, or one expression)


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence talks of the stand; None otherwise."""
    switch = reading.act("giving_back")
    if switch is not None and not reading.said:
        session.giving_back = switch.arguments[0] == "yes"
        off = "No line about giving back from here on; “giving-back line again” brings it back."
        return answers.noted("The line about giving back comes again." if session.giving_back else off)
    if reading.said or reading.loose:
        return None
    if reading.has("regrows"):
        return regrows(session, reading, answers)
    if reading.has("give_back_how"):
        return answers.reply("answered", GIVING_BACK, batch=session.batch)
    if reading.has("stand_enough"):
        return enough(session, reading, answers)
    if reading.has("listed"):
        return listed(session, reading, answers)
    if reading.has("instead"):
        return instead(session, answers)
    return None


def regrows(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """What comes back of the part that is taken, and how fast this plant does, where that is known."""
    name, plant = _meant(session, reading)
    part = _part(session, reading, plant)
    if not name and not part:
        question = Question(text="Of which plant, and which part?", choices=("will goldenseal root grow back?", "will nettle leaf grow back?"))
        return answers.reply("asking", question.text, questions=(question,))
    lines = [COMES_BACK[part]] if part in COMES_BACK else []
    flags = [f for f in (plant.flag("slow"), plant.flag("weedy"), plant.flag("at-risk")) if f is not None] if plant is not None else []
    lines += [_noted(name, flag) for flag in flags]
    if name and not flags:
        lines.append(f"How fast {name} itself comes back is not known here: count the stand now, and again next year.")
    if not part:
        lines.append("Say which part is taken: a root is a plant gone, a leaf comes again.")
    return answers.reply("answered", "\n".join(lines), batch=session.batch)


def enough(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """Whether the stand bears it: the share, and what the rules say of it. None where no stand is in hand."""
    if session.batch is None:
        return None
    worked = work_out(session.batch)
    share = worked.value("stand_share")
    if share is None:
        if "stand_plants" not in worked.batch.facts and "plants_taken" not in worked.batch.facts:
            return None
        key = "plants_taken" if "stand_plants" in worked.batch.facts else "stand_plants"
        text, choices = question_for(key)
        return answers.reply("asking", text, batch=session.batch, questions=(Question(text=text, wants=(key,), choices=choices),))
    cautions = [c for c in all_cautions(session, worked, reading) if c.theme == "gathering" and c.level != "note"]
    lines = [f"That is {shown('stand_share', share)} of the stand."]
    lines += [caution_line(c) for c in cautions]
    if cautions:
        session.last_cautions, session.cautioned = tuple(cautions), session.turn
    else:
        lines.append("Common practice is a fifth at most of what comes again, and one in twenty of what is dug; less where others have been.")
    return answers.reply("answered", "\n".join(lines), batch=session.batch, values=(value_of(worked, "stand_share"),), cautions=tuple(cautions))


def listed(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """Which lists a plant is on as far as is known here; the law is left to the authority of the place."""
    name, plant = _meant(session, reading)
    if not name:
        return answers.reply("asking", f"Which plant? {LAW}", questions=(Question(text="Which plant?", choices=("is goldenseal at risk?",)),))
    flags = [f for f in (plant.flag(n) for n in LISTS) if f is not None] if plant is not None else []
    known = [_noted(name, flag) for flag in flags] or [f"Nothing is known here of a list with {name} on it. That is silence, not leave."]
    return answers.reply("answered", "\n".join([*known, LAW]), batch=session.batch)


def instead(session: Session, answers: Answers) -> Reply | None:
    """Whether the batch could be met without the stand: as much from a garden, or its dried stock."""
    if session.batch is None:
        return None
    worked = work_out(session.batch)
    words = instead_words(worked)
    if not words:
        question = Question(text="How much plant does the batch take?", wants=("herb",), choices=("90 g fresh root",))
        return answers.reply("asking", question.text, batch=session.batch, questions=(question,))
    open_ = "How much dried herb that is hangs on the water in the fresh plant: say it, “80 % water”, and it is reckoned."
    lines = [words["garden instead"], words.get("dried instead", open_)]
    lines.append("A ratio and a strength of its own go with dried herb: reckon the batch again with it.")
    return answers.reply("answered", "\n".join(lines), batch=session.batch, values=tuple(instead_values(worked)))


def _meant(session: Session, reading: Reading) -> tuple[str, Plant | None]:
    """The plant a sentence is about: named in it, else that of the batch in hand."""
    names = [n.name for n in reading.named] or list(session.batch.plants if session.batch is not None else ())
    if not names:
        return "", None
    hit = plants().called(names[0])
    plant = hit.plant if hit is not None else None
    return names[0], plant if plant is not None and plant.is_known else None


def _part(session: Session, reading: Reading, plant: Plant | None) -> str:
    said = next((PART_KINDS[t] for t in sorted(reading.tags) if t in PART_KINDS and t != "herb"), "")
    held = part_of(session.batch) if session.batch is not None else ""
    implied = "" if plant is None else plant.called_part or (plant.parts[0].kind if len(plant.parts) == 1 else "")
    return said or PART_KINDS.get(held, held) or implied


def _noted(name: str, flag: Flag) -> str:
    said = "CITES" if flag.name == "cites" else flag.name.replace("-", " ")
    return f"{name[:1].upper()}{name[1:]}, {said}: {flag.note} ({flag.source})."
