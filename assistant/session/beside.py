"""Which ingredient a figure stands beside: "33 mL burdock left", "the linden is down to 28", "skullcap is 40"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.listening.ingredients import called
from assistant.listening.statements import Asked, Named, Reading
from assistant.patterns import looked_for

FARTHEST = 34  # characters between a figure and the name it belongs to, within one clause
BREAK = looked_for(r"[,;.?!:](?:\s|$)|\b(?:and|but|plus|if|when|want|wanted|so that)\b", re.IGNORECASE)
INTO = looked_for(r"\b(?:into|in|for|makes|make|fills|fill|filling)\b", re.IGNORECASE)
UP_TO = looked_for(r"\b(?:top|topped|fill|filled|bring|brought|make|made|up)\b[^.;]{0,40}\bto (?:about |a total of |make )?$", re.IGNORECASE)
LEFT = looked_for(
    r"\b(?:left|only|just|short|remaining|remains|down to|r[ua]n(?:s|ning)? (?:out|low|short|down)|used up|finished|at the end of"
    r"|shelf|in hand|to hand|in stock|have|i've|got|there's|there is|all i)\b",
    re.IGNORECASE,
)
QUESTION = looked_for(r"\b(?:how much|how many|what|which)\b", re.IGNORECASE)
WHOLE_OF = looked_for(r"^ ?(?:blend|mix|mixture|formula|bottle|batch) of\b", re.IGNORECASE)
TO = looked_for(r"^ (?:up )?to (?:about |a total of )?$", re.IGNORECASE)
USED = looked_for(r"\b(?:only|just) (?:put|use|used|pour|poured|add|added|go|went|want|need|take|took)\b", re.IGNORECASE)
SHORT = looked_for(r"^\s*(?:is |are |'s |runs |running )?(?:short|low|scarce)\s*[,:;-]\s*", re.IGNORECASE)
WHOLE = looked_for(r"\b(?:of the (?:whole|blend|mix|batch|total|lot|\d)|coming out at|comes out at|make(?:s)? up|share|of it)\b", re.IGNORECASE)


def member_beside(start: int, end: int, reading: Reading, members: Sequence[str]) -> str:
    """The member a figure at heard[start:end] belongs to, "" where it stands by itself."""
    brought = _brought_to(start, reading, members)
    if brought:
        return brought
    if UP_TO.search(reading.heard[:start]):
        return ""  # "top up with elecampane to 100 mL": the whole is meant
    best: tuple[int, str] | None = None
    ends_the_list = _end_of_the_list(reading)
    for mention in [*reading.mentions, *_by_its_form(reading, members)]:
        member = called(mention.name, members)
        if not member:
            continue
        ends = ends_the_list == mention.start and mention.end <= start
        if ends and (len(reading.figures) == 1 or (AMOUNT.match(reading.heard, start) and not reading.heard[mention.end : start].strip(" ,-:"))):
            return ""  # "2:1:1 nettle, oat, rose 250 g": what the parts come to
        if len(members) > 1 and mention.end <= start and TO.match(reading.heard[mention.end : start]):
            return ""  # "… and 1 part calendula to 300 g": what the list comes to
        gap = _gap(start, end, mention, reading.heard)
        if gap is not None and (best is None or gap < best[0]):
            best = (gap, member)
    return "" if best is None else best[1]


BRINGS = looked_for(
    r"\b(?:drop|take|bring|cut|reduce|raise|put|lower|up|make|change|set|get|turn|knock|push)\w* (?:the |my )?$"
    r"|(?:^|[,;.?!] |\b(?:and|but|with|then) )(?:the |my )?$",
    re.IGNORECASE,
)
BROUGHT_TO = looked_for(r"^ (?:tincture )?(?:up|down|back) to (?:about |just |only )?$", re.IGNORECASE)


def _brought_to(start: int, reading: Reading, members: Sequence[str]) -> str:
    """ "Drop the hops to 20 mL", "thyme up to 40 %": what one ingredient is brought to."""
    for mention in reading.mentions:
        member = called(mention.name, members)
        if not member or mention.end > start:
            continue
        between = reading.heard[mention.end : start]
        brought = BROUGHT_TO.match(between)
        if brought is None and not TO.match(between):
            continue
        led = BRINGS.search(reading.heard[: mention.start])
        if led is not None and (brought or led.group().strip(" ,;.?!").lower() not in ("", "and", "but", "with", "then", "the")):
            return member
    return ""
FORMS = frozenset({"tincture", "extract", "spirit"})


def _by_its_form(reading: Reading, members: Sequence[str]) -> list[Named]:
    """Where an ingredient is called only "tincture": every place it is spoken of."""
    return [Named(m, hit.start(), hit.end()) for m in members if m in FORMS for hit in re.finditer(rf"\b{m}\b", reading.heard, re.IGNORECASE)]


AMOUNT = looked_for(r"\d+(?:\.\d+)?\s*(?:ml|mls|l|litres?|g|grams?|kg|oz)\b", re.IGNORECASE)


def _end_of_the_list(reading: Reading) -> int | None:
    """Where the last name stands of a list of parts, behind which stands what they come to; None without such a list."""
    parts = [i for i in reading.ingredients if {q for q, *_ in i.figures} in ({"part"}, {"share"})]
    if len(parts) < 2 or len(parts) != len(reading.ingredients):
        return None
    return max((m.start for m in reading.mentions), default=0)


def _gap(start: int, end: int, mention: Named, heard: str) -> int | None:
    behind = mention.start >= end
    between = heard[end : mention.start] if behind else heard[mention.end : start]
    led = None if behind else SHORT.match(between)
    if led is not None:
        between = " " + between[led.end() :]
    if len(between) > FARTHEST or BREAK.search(between) or re.search(r"\d|\bfrom\b", between):
        return None
    if behind and QUESTION.search(between):
        return None  # "if I make 2 litres how much burdock am I short": the name is the question's
    if behind and WHOLE_OF.search(between):
        return None  # "90 mL blend of ginger": the whole's
    if not behind and INTO.search(between):
        return None  # "skullcap into 60 mL": the bottle
    # A name that follows a figure ("33 mL of burdock") lies nearer than one before it ("burdock is down to 33").
    return len(between) - (4 if behind else 0)


def member_asked(asked: Asked, reading: Reading, members: Sequence[str]) -> str:
    """The ingredient a question is about, where it is named in it or right behind: "what percent is rose", "how much of the hops"."""
    for mention in reading.mentions:
        member = called(mention.name, members)
        if member and asked.start <= mention.start and mention.start - asked.end < 12 and not BREAK.search(reading.heard[asked.end : mention.start]):
            return member
    return ""


def clause_of(start: int, end: int, heard: str) -> str:
    """The words between two stops around a figure."""
    left = max((m.end() for m in re.finditer(r"[;.?!:](?:\s|$)|, ", heard[:start])), default=0)
    right = next((end + m.start() for m in re.finditer(r"[;.?!](?:\s|$)|, ", heard[end:])), len(heard))
    return heard[left:right]


def is_left(start: int, end: int, heard: str) -> bool:
    """Whether the clause tells what there is, not what goes in."""
    clause = USED.sub("", clause_of(start, end, heard))  # "if I only put in 20 mL": that is what goes in
    return LEFT.search(clause) is not None


def is_share(start: int, end: int, heard: str) -> bool:
    return WHOLE.search(clause_of(start, end, heard)) is not None
