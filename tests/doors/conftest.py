"""A talker that says what a test wants, so that the doors are tested apart from what is behind them."""

import sys
import types

import pytest

from assistant.faults import SentenceFault
from assistant.reply import Question, Reply

ANSWER = "Pour 224 mL of 60 % over 112 g of nettle.\nIn the jar it becomes 43 %."


class Parrot:
    """Answers every sentence alike; some words make it fail on purpose."""

    def __init__(self, book=None, folder=None):
        self.heard = []

    def say(self, text):
        self.heard.append(text)
        if "spill" in text:
            raise KeyError("menstruum\x1b[2J")
        if "upside down" in text:
            raise SentenceFault("a jar has no such side", where="upside down", try_this="the right way up")
        if "how much" in text:
            ask = "How much does the nettle weigh?"
            return Reply(turn=len(self.heard), heard=text, status="asking", text=ask, questions=[Question(text=ask, wants=["herb"])])
        return Reply(turn=len(self.heard), heard=text, status="answered", text=ANSWER)

    def next_words(self, text):
        if "spill" in text:
            raise ValueError("no words")
        return ["nettle", "menstruum", "lemon balm"]

    def bench_line(self):
        if self.heard and "tip" in self.heard[-1]:
            raise ZeroDivisionError("no line")
        return f"nettle tincture · 112 g · 1:2 · {len(self.heard)} said"


@pytest.fixture
def parrot(monkeypatch):
    """Every session opened by a door is a Parrot; gives the list of those opened."""
    opened = []

    class Counted(Parrot):
        def __init__(self, book=None, folder=None):
            super().__init__(book, folder)
            opened.append(self)

    room = types.ModuleType("assistant.session")
    room.Session = Counted
    monkeypatch.setitem(sys.modules, "assistant.session", room)
    return opened
