"""How a reply looks on a screen: wrapped, its first line standing out, and nothing in it that could command a terminal.

What is said is the session's matter; this room only lays it out. The same text is laid out for three readers:
    a wide or narrow terminal   lines wrapped at its width, the answer in bold, cautions in colour unless NO_COLOR or TERM=dumb
    a pipe                      lines as they are, no escapes
    a screen reader (plain)     one unwrapped line a statement, signs spelt out as words, no escapes
"""

import re
import shutil
import sys
import unicodedata
from collections.abc import Mapping
from typing import TYPE_CHECKING, TextIO

from assistant.dataclass import dataclass

if TYPE_CHECKING:  # the prompt stands before pydantic is loaded
    from assistant.reply import Reply

NARROWEST = 20
WIDEST = 100  # longer lines are hard to follow with an eye that has just left the jar
NO_WRAPPING = 0

_BOLD, _RED, _YELLOW, _CYAN, _OFF = "\x1b[1m", "\x1b[1;31m", "\x1b[33m", "\x1b[36m", "\x1b[0m"
_BY_LEVEL = {"stop": _RED, "warn": _YELLOW, "note": ""}

# Left-to-right and right-to-left marks, embeddings, overrides and isolates: they make a line read other than it is.
_BIDI = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
# A whole terminal command, so that no "[31m" is left of it.
_COMMAND = re.compile(r"\x1b(?:\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)|[@-Z\\^_])")
_UNWANTED = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b\u2028\u2029\u2060-\u206f\ufeff\ufff9-\ufffb\ud800-\udfff\U000e0000-\U000e007f" + _BIDI + "]"
)

# Signs a screen reader passes over or reads badly, in the words of the bench.
_ALOUD = (
    (re.compile(r"(?<=\d)\s*–\s*(?=\d)"), " to "),
    (re.compile(r"\s*×\s*"), " times "),
    (re.compile(r"\s*÷\s*"), " divided by "),
    (re.compile(r"\s*±\s*"), " plus or minus "),
    (re.compile(r"\s*→\s*"), " gives "),
    (re.compile(r"\s*≈\s*"), " about "),
    (re.compile(r"\s*−\s*(?=\d)"), " minus "),
    (re.compile(r"\s+=\s+"), " equals "),
    (re.compile(r"\b(\d+(?:\.\d+)?) ?%"), r"\1 percent"),
    (re.compile(r"(?<=\d):(?=\d)"), " to "),
    (re.compile(r"\b(g|mL)/(g|mL)\b"), r"\1 per \2"),
    (re.compile(r"[\u2500-\u259f]+"), " "),
)

_SIGNS = frozenset("×÷=±+−")
_UNIT = re.compile(r"(?:%|°\w*|g|mL|L|kg|oz|drops?|days?)[.,;:)]*")

# For a terminal whose encoding has no such sign.
_SPELT = str.maketrans({
    "×": "x", "÷": "/", "±": "+/-", "–": "-", "—": "-", "−": "-", "→": "->", "≈": "~", "≤": "<=", "≥": ">=", "…": "...", "·": ".", "•": "-",
    "°": " deg ", "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "“": '"', "”": '"', "‘": "'", "’": "'", "\u00a0": " ",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Look:
    """How to lay out: width in columns (NO_WRAPPING for none), whether escapes may be used, whether it is read aloud."""

    width: int = NO_WRAPPING
    colour: bool = False
    plain: bool = False


def look_of(stream: TextIO, environment: Mapping[str, str], *, plain: bool = False) -> Look:
    """The look that fits where the text goes."""
    try:
        on_terminal = stream.isatty()
    except (AttributeError, ValueError):  # a replaced or closed stream
        on_terminal = False
    if plain or not on_terminal:
        return Look(plain=plain)
    width = min(WIDEST, max(NARROWEST, shutil.get_terminal_size((80, 24)).columns))
    return Look(width=width, colour=not environment.get("NO_COLOR") and environment.get("TERM", "") not in ("dumb", ""))


def clean(text: str) -> str:
    """Text without control characters, bidirectional overrides, invisible marks and lone surrogates; tabs become spaces, lines stay lines."""
    lines = _COMMAND.sub("", text).replace("\r\n", "\n").replace("\r", "\n")
    return _UNWANTED.sub("", lines.replace("\t", "    "))


def aloud(text: str) -> str:
    """Signs spelt out for a screen reader: "60 % ± 2" is "60 percent plus or minus 2"."""
    for pattern, words in _ALOUD:
        text = pattern.sub(words, text)
    return "\n".join(line.strip() for line in text.split("\n"))


def columns(text: str) -> int:
    """Columns a text takes on a terminal: wide characters count two, combining ones none."""
    if text.isascii():
        return len(text)
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def wrap(line: str, width: int) -> list[str]:
    """One line as several of at most `width` columns. The line's own indent is kept, what runs over hangs two columns deeper.

    A line that fits is left exactly as it is, so that a drawing or a table keeps its columns. A figure is not parted from its unit.
    """
    if width == NO_WRAPPING or columns(line) <= width:
        return [line]
    body = line.lstrip(" ")
    indent = min(len(line) - len(body), width // 2)
    marker = re.match(r"(?:[-*•>]|\d{1,2}[.)])\s+", body)
    hang = " " * min(indent + (len(marker.group()) if marker else 2), width // 2)
    lines, current, empty = [], " " * indent, True
    for word in _words(body):
        gap = "" if empty else " "
        if not empty and columns(current) + columns(gap + word) > width:
            lines.append(current)
            current, gap = hang, ""
        while columns(current + gap + word) > width:  # one word longer than a line
            room = _fitting(word, width - columns(current + gap))
            lines.append(current + gap + word[:room])
            current, gap, word = hang, "", word[room:]
        current, empty = current + gap + word, False
    return [*lines, current]


def _words(body: str) -> list[str]:
    """Words to break between; "224 mL", "60 %" and "× 2" stay whole."""
    parts: list[str] = []
    for word in body.split():
        if parts and _holds_on(parts[-1], word) and len(parts[-1]) < NARROWEST // 2:
            parts[-1] += " " + word
        else:
            parts.append(word)
    return parts


def _holds_on(before: str, word: str) -> bool:
    return before in _SIGNS or (before[-1].isdigit() and _UNIT.fullmatch(word) is not None)


def _fitting(word: str, room: int) -> int:
    """How many characters of the word fit into that many columns; one at least."""
    taken = 0
    for i, character in enumerate(word):
        taken += columns(character)
        if taken > room:
            return max(i, 1)
    return max(len(word), 1)


def on_screen(reply: "Reply", look: Look) -> str:
    """The reply laid out, without a newline at its end."""
    text = clean(reply.text).strip("\n")
    if look.plain:
        return aloud(text)
    shown: list[str] = []
    for number, line in enumerate(text.split("\n")):
        style = _style(line, number, reply) if look.colour else ""
        shown += [f"{style}{piece}{_OFF}" if style and piece else piece for piece in wrap(line.rstrip(), look.width)]
    return "\n".join(shown)


def laid(text: str, look: Look) -> str:
    """Text that is no reply (a greeting, a fault), cleaned and laid out the same way."""
    text = clean(text)
    return aloud(text) if look.plain else "\n".join(piece for line in text.split("\n") for piece in wrap(line, look.width))


def _style(line: str, number: int, reply: "Reply") -> str:
    for caution in reply.cautions:
        if caution.text and clean(caution.text).split("\n")[0] in line:
            return _BY_LEVEL[caution.level]
    if number == 0:
        return _BOLD
    return _CYAN if any(q.text and clean(q.text).split("\n")[0] in line for q in reply.questions) else ""


def speakable(text: str, stream: TextIO) -> str:
    """Text that this stream can take: a sign its encoding lacks is spelt with plain ones, and what is left becomes "?"."""
    encoding = getattr(stream, "encoding", None) or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return text.translate(_SPELT).encode(encoding, "replace").decode(encoding)
    except LookupError:
        return text.translate(_SPELT).encode("ascii", "replace").decode("ascii")
    return text


def say(text: str, stream: TextIO | None = None) -> None:
    """Write one piece of cleaned text and a newline, at once."""
    stream = sys.stdout if stream is None else stream
    stream.write(speakable(text, stream) + "\n")
    stream.flush()
