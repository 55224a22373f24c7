"""Makes rules/ready.json, the shipped rules and plants in the form they are loaded from; run it after any change in rules/ or grammar/tags.txt.

    python -m assistant.cautions.ready

A test makes it again and compares, and the loader falls back to the texts where it is out of date.
"""

from __future__ import annotations

import json
import sys
from typing import Any

from assistant.cautions.folder import READY, Pack, digest, read_texts
from assistant.cautions.speaking import is_plantless, wakes_of
from assistant.places import rules_folder


def ready_data(pack: Pack, fingerprint: str) -> dict[str, Any]:
    """A pack as plain data."""
    rules = []
    for rule in pack.book.rules():
        keys = wakes_of(rule)
        rules.append({**rule.to_data(), "wakes": None if keys is None else [list(key) for key in sorted(keys)], "plantless": is_plantless(rule)})
    entries = [[" ".join(key), entry.name, list(entry.plants), entry.part] for key, entry in sorted(pack.plants.entries.items())]
    return {
        "digest": fingerprint,
        "rules": rules,
        "sources": dict(pack.sources),
        "plants": {"records": list(pack.plants.records), "entries": entries},
    }


def main() -> int:
    folder = rules_folder()
    pack = read_texts(folder)
    for fault in pack.faults:
        print(fault, file=sys.stderr)
    if pack.faults:
        return 1
    text = json.dumps(ready_data(pack, digest(folder)), ensure_ascii=False, indent=None, separators=(",", ":"))
    # One rule or plant a line, so that a change shows in the diff.
    text = text.replace('},{"id":', '},\n{"id":').replace('},{"latin":', '},\n{"latin":').replace('"plants":{', '\n"plants":{')
    (folder / READY).write_text(text + "\n", encoding="utf-8")
    print(f"{len(pack.book)} rules, {len(pack.plants)} plants, {len(pack.plants.entries)} spellings")
    return 0


if __name__ == "__main__":
    sys.exit(main())
