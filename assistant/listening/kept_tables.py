"""Where the tables of the grammar of islands come from.

They stand in grammar/bench.tables.json, made of bench.lark by `python -m assistant.listening.tables`. A change of the grammar is noticed by
a checksum and the tables are then worked out anew in memory: a stale file costs time but never a wrong reading. A test holds the file
against the grammar.
"""

from __future__ import annotations

import json

from assistant.listening.tables import TABLES, fingerprint, worked_out
from assistant.listening.walking import Callbacks, Tables
from assistant.places import grammar_folder


def bench_tables(callbacks: Callbacks) -> Tables:
    """The tables of bench.lark: from the kept file where it is fresh, else worked out.

    fails   HouseFault, naming the file, when the grammar itself is missing
    """
    place = grammar_folder() / TABLES
    if place.is_file():
        kept = json.loads(place.read_text(encoding="utf-8"))
        if kept.get("made_of") == fingerprint():
            return Tables(kept, callbacks)
    return Tables(worked_out(), callbacks)
