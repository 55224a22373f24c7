"""Kinds of the year's work that no single phrase tells, but words that stand together anywhere in a sentence do."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.listening.phrases import Match
from assistant.listening.statements import Reading
from assistant.listening.words import MONTHS
from assistant.patterns import looked_for

COUNTED_OUT = frozenset({"reserve", "refill", "crowns"})  # what goes out a day, or a year, is told there in its own words
WITHOUT_STANDS = frozenset({"sharing", "press_day", "orders", "lines", "kits", "market", "crowns"})  # what is counted there stands in no wild stand
ADDS_UP = frozenset("spirit_bought spirit_used spirit_on_shelf bought_strength used_strength shelf_strength".split())  # said twice, they are a sum
CROWNS = frozenset("crown crowns".split())
IN_ROTATION = frozenset("bed beds row rows rotation rotate ground grow grows fail fails die dies years replant".split())
ENDS = frozenset("gone run runs lasts when until out empty next".split())  # of what is left: when does it end
HANDED = frozenset("gave given handed dispensed sent".split())
BOUGHT = frozenset("bought purchased".split())
SPENT = frozenset("used shelf unaccounted missing left".split())
_MONTH, _DAY = f"(?:{'|'.join(sorted(MONTHS))})", r"\d{1,2}(?:st|nd|rd|th)?"
DATE = looked_for(rf"\b(?:{_DAY}\s+(?:of\s+)?{_MONTH}|{_MONTH}\s+(?:the\s+)?{_DAY})\b", re.IGNORECASE)
STARTS = frozenset("start started starting begin begun put_up".split())
STARTED = frozenset("started begun jarred put_up".split())
OF_DAYS = STARTS | frozenset("bottle bottled bottling bottles ready press pressed pressing strain jar settle settling clear macerate steep stands sits".split())
WHEN = frozenset("when latest which what by".split())
GROWING = frozenset("bed beds patch plot border cut cuts".split())
ON_RACKS = frozenset("rack racks tray trays screen screens dry drying spread".split())
NO_DATES = frozenset("<g> <:> <x> <aday> <drop> <mL> <oz>".split())
NOT_IN_A_LEDGER = frozenset({"@", "<g>", "<:>", "<n>", "<money>", "<per>", "oil", "honey", "wax", "bottles"})


def hear_work(tokens: Sequence[str], reading: Reading) -> None:
    """Add the frames such words set."""
    words = set(tokens)
    if words & CROWNS and (words & IN_ROTATION or "<year>" in words or {"to", "plant"} <= words):
        reading.frames.add("crowns")
        reading.frames.discard("stand")
    handed = words & HANDED and tokens.count("<mL>") >= 3
    if "left" in words and words & {"<x>", "<aday>"} and (handed or ("<day>" in words and tokens.count("<mL>") >= 2)) and "@" not in words:
        reading.frames.add("refill")
    if "<aday>" in words and "refill" not in reading.frames and words & {"left", "have"} and words & ENDS and tokens.count("<mL>") == 2:
        reading.frames.add("reserve")
    if "year" in words and words & {"next", "this", "coming"} and tokens.count("@") >= 2 and tokens.count("<mL>") >= 2:
        reading.frames.add("year")
    if "<time>" in words and "<day>" in words and words & WHEN and words & OF_DAYS and not words & NO_DATES and DATE.search(reading.heard):
        reading.frames.add("timeline")
    if words & STARTED and not words & NO_DATES and DATE.search(reading.heard):
        reading.frames.add("timeline")  # "started on the 3rd of march, when to press"
    if words & GROWING and not words & ON_RACKS:
        reading.frames.discard("racks")  # "600 g a square metre" off a bed is what grows there
    if words & BOUGHT and words & SPENT and tokens.count("<mL>") >= 2 and not words & NOT_IN_A_LEDGER:
        reading.frames.add("ledger")


def tells_growth(act: Match, matches: Sequence[Match]) -> bool:
    """ "Expect 20 % less" in a year's plan says how the year differs, not how the plan is scaled."""
    return any(m.phrase.quantity in ("growth", "fall") and m.phrase.act == "say" and m.first < act.last and act.first < m.last for m in matches)


__all__ = ["ADDS_UP", "COUNTED_OUT", "WITHOUT_STANDS", "hear_work", "tells_growth"]
