"""A file that a person asked for by name: whole or not at all, and never over one that is there unless that was asked for too."""

from __future__ import annotations

import os
import re
from pathlib import Path

from assistant.faults import FileFault

ELSEWHERE = "name another file"  # what a person is told who named it on the command line
PLAIN_NAME = re.compile(r"[^\W_][\w\-]{0,80}\.(?:html?|md|txt)", re.IGNORECASE)


def write_new(place: Path, text: str, *, replace: bool = False, try_this: str = "another name") -> None:
    """All of a text in a file that was not there, or no file.

    replace   writes over one that is there, all of it or nothing; the file is for its owner alone either way
    try_this  what a person is told to do where it cannot be written
    fails     FileFault, where there is one already, or none can be made
    """
    try:
        import tempfile  # only a page that is written needs it

        handle, name = tempfile.mkstemp(dir=place.parent, prefix=f".{place.name}.")
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
            if replace:
                Path(name).replace(place)
            else:
                os.link(name, place)  # fails where there is one, even if it came this very moment
        finally:
            Path(name).unlink(missing_ok=True)
    except FileExistsError as fault:
        raise FileFault("there is a file of that name already, and it is left as it was", where=str(place), try_this="another name") from fault
    except OSError as fault:
        raise FileFault(f"it cannot be written: {(fault.strerror or str(fault)).lower()}", where=str(place), try_this=try_this) from fault


def write_here(name: str, text: str) -> None:
    """The same in the folder the program was started in, by a plain name: a sentence must not reach further.

    fails    FileFault, where the name is none of a page, or as `write_new`
    """
    if not PLAIN_NAME.fullmatch(name):
        raise FileFault("that is no plain name of a page", where=name, try_this="sheet.html, sheet.md or sheet.txt")
    write_new(Path(name), text)


def named_in(sentence: str) -> tuple[str, int, int]:
    """The name of a page in a sentence, with its place; "" where there is none. A path comes whole, so that it can be refused.

    >>> named_in("write the worksheet to sheet.html, please")
    ('sheet.html', 23, 33)
    """
    hit = re.search(r"[\w\-./\\~:]*[\w\-]\.(?:html?|md|txt)\b", sentence, re.IGNORECASE)
    return (hit.group(), hit.start(), hit.end()) if hit else ("", 0, 0)


def form_of(name: str) -> str:
    """What kind of page a name asks for: html, markdown or text."""
    ending = name.rpartition(".")[2].lower()
    return "html" if ending in ("html", "htm") else "markdown" if ending == "md" else "text"
