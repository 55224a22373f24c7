"""Talk that has to do with the book: which sentences it is, and who answers them.

A conversation without a file has a book in memory: lots, gatherings and stock last as long as the talk, and the reply says so.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from assistant.faults import BenchError
from assistant.listening.statements import Reading
from assistant.reply import Question, Reply, Used
from assistant.session import keeping_dates, keeping_lots, keeping_stock, keeping_trace, keeping_yields
from assistant.session.entering import Entry

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

Handler = Callable[[Entry], Reply | None]

# In the order in which they are tried: what changes the book before what asks about it.
HANDLERS: dict[str, Handler] = {
    "book_forget": keeping_trace.forget,
    "book_keep": keeping_lots.keep,
    "book_note": keeping_lots.note,
    "book_bottled": keeping_yields.bottled,
    "book_yield": keeping_yields.pressed,
    "book_yield_it": keeping_yields.pressed_by_name,
    "book_gathered": keeping_stock.gathered,
    "book_measured": keeping_yields.measured,
    "book_brought": keeping_stock.brought,
    "book_gone": keeping_stock.gone,
    "book_label": keeping_trace.label,
    "book_sheet": keeping_trace.sheet,
    "book_blank": keeping_trace.blank,
    "book_gathering_sheet": keeping_trace.gathering_sheet,
    "book_from": keeping_trace.came_from,
    "book_into": keeping_trace.went_into,
    "book_due": keeping_trace.due,
    "book_past": keeping_trace.past,
    "book_stand": keeping_trace.stand,
    "book_when": keeping_trace.when,
    "book_stock": keeping_stock.stock_list,
    "book_own": keeping_trace.own,
    "book_list": keeping_trace.lots,
    "book_press": keeping_dates.dates,
    "book_started": keeping_dates.dates,
    "book_shake": keeping_dates.dates,
    "book_settle": keeping_dates.dates,
}


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence is about the book; None for every other sentence."""
    acts = {act.name for act in reading.acts}
    if not any(name.startswith("book_") for name in acts):
        return None
    for name, handler in HANDLERS.items():
        if name in acts:
            used = list(answers.used)
            entry = Entry(session, reading, answers)
            try:
                reply = handler(entry)
            except BenchError as fault:
                session.memory.abandon()
                return _refused(answers, fault, used)
            if reply is not None:
                return reply
            answers.used = used
    return None


def _refused(answers: Answers, fault: BenchError, used: list[Used]) -> Reply:
    answers.used = used
    ask = "Can you say it another way?"
    text = str(fault) if fault.try_this else f"{fault} {ask}"
    return answers.reply("refused", text, questions=(Question(text=(fault.try_this and f"Try: {fault.try_this}") or ask),))
