"""Plants that stand in a place, counted: how many there are, how many are taken or left, what one gives, and which share may go.

"20 plants, 6 g of root each, I need 90 g"; "I dug 12 of the 15"; "at most one in twenty". Counts only whole numbers, and only in a sentence
that is plainly about plants in the ground, or goes on about such a stand.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.pieces import Piece
from assistant.listening.statements import Asked, Reading, Said
from assistant.patterns import looked_for

STANDS = frozenset("stand patch colony population clump slope hillside".split())
PLANTS = frozenset("plants plant crowns crown clumps stems bushes bush trees tree rosettes specimens individuals stools vines shrubs".split())
ONE_OF_THEM = PLANTS | frozenset("root roots rhizome bulb bulbs".split())
LIFTS = frozenset(
    """lift lifts lifting lifted dig digs digging dug take takes taking took taken cut cuts cutting pull pulling pulled harvest harvesting harvested
    uproot uprooted gather gathering gathered pick picking picked remove removed want need strip stripped""".split()
)
LIFTED = frozenset("dug lifted taken cut pulled gone went harvested uprooted needed gathered picked".split())
LEAVES = frozenset("leave leaves leaving left remain remaining remains".split())
COUNTED = frozenset("counted count see saw found there are were has have holds had numbers".split())
BETWEEN = frozenset("of the my about around roughly some only just up out in i it a another maybe nearly those these them all".split())
CUTS = frozenset(", . ; ? ! : but and".split())
LIMITS = ("at most", "no more than", "not more than", "up to", "never more than", "max", "maximum", "limit", "only take", "only want to take", "only ever", "may", "allowed", "rule", "law")  # fmt: skip  # noqa: E501  (one sentence, or one expression)
EACH = frozenset("each apiece".split())
FOR_ONE = frozenset("a an per from each every the one".split())
OUT_OF = frozenset({"in", "every", "each", "the", *ONE_OF_THEM})
NO_COUNT = frozenset("% percent g ml mls bottles jars days times drops ratio parts cups water".split())
# Verbs that mean plants by themselves; "cut", "take" and "lift" are said of spirit too.
DIGS = frozenset("dig digs digging dug uproot uprooted lifted lifting took taken taking harvested pulled pulling gathered picked".split())
OTHER_WORK = frozenset("<mL> <%> <:> proof spirit stock vodka water % percent".split())
GIVES = frozenset("gives give yields yield weighs weigh is makes make bears".split())
NTHS = dict(zip("second third fourth fifth sixth seventh eighth ninth tenth twelfth fifteenth twentieth".split(), (*range(2, 11), 12, 15, 20), strict=True))
STANDING = ("in the", "in that", "in this", "there", "here", "growing", "standing")
GAVE = frozenset("gave yielded made".split())
ASKING = frozenset("how what what's whats which ? should need".split())
KINDS = ("<g>", "<oz>")

# What is asked, by the words of the asking clause; the first that fits counts.
ASKS = (
    ("stand_plants", looked_for(r"\bhow (?:many|big|large)\b[^?;.]*\b(?:must|should|has to|have to|need to|needs to|would|does)\b[^?;.,]*\b(?:stand|patch|colony|grow|there)\b|\bhow (?:big|large) a (?:stand|patch|colony)\b")),  # noqa: E501  (one sentence, or one expression)
    ("plants_left", looked_for(r"\bhow many\b[^?;.]*\b(?:left|remain|remains|stay|staying|standing|spared)\b|\bwhat(?:'s|s| is| would be)? (?:left|left standing)\b")),  # noqa: E501  (one sentence, or one expression)
    ("plants_allowed", looked_for(r"\b(?:what|what's|whats|which)\b[^?;.]*\b(?:fair|sustainable|safe|sensible|decent|honest|right) (?:share|number|amount|part)\b|\bhow many\b[^?;.]*\b(?:may|can|could|allowed)\b")),  # noqa: E501  (one sentence, or one expression)
    ("plants_allowed", looked_for(r"\bhow many\b[^?;.]*\b(?:at most|at the most|max|maximum|tops)\b|\b(?:what|what's|whats)(?: is| would be)? the (?:most|maximum|max)\b(?! (?:root|leaf|weight|i can get))")),  # noqa: E501  (one sentence, or one expression)
    ("stand_share", looked_for(r"\b(?:what|what's|whats|which|how much|how big|how large)\b(?: a| is| the| of)*(?: \w+)? (?:share|percentage|percent|proportion|fraction|part|%)\b|\bshare of (?:the|it|them|that)\b|\bshare \?|\bwhat share\b|\bwhat %")),  # noqa: E501  (one sentence, or one expression)
    ("per_plant", looked_for(r"\bhow (?:much|heavy)\b[^?;.]*\b(?:(?:a|per|each|one|every) (?:plant|root|crown|clump|bulb|tree)|each|apiece)\b")),
    ("plants_over", looked_for(r"\bhow many\b[^?;.]*\b(?:too many|over|above)\b")),
    ("plants_allowed", looked_for(r"\bhow many\b[^?;.]*\b(?:may|can|could|allowed)\b")),
    ("allowed_weight", looked_for(r"\bhow much\b[^?;.]*\b(?:may|can|could|allowed)\b[^?;.]*\b(?:take|have|get|gather|dig|cut|harvest|pick|lift)\b")),
    ("plants_taken", looked_for(r"\bhow many\b(?: of)?(?: the| those| these)?(?: @)?(?: (?:plants|roots|crowns|clumps|bulbs|trees|stems|bushes))?\b[^?;.]*")),
)  # fmt: skip


def read_stand(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """Give the counts, weights and shares of a sentence about a stand their places, and hear what it asks. Does nothing where it is about none."""
    if not _about_a_stand(pieces, tokens, "stand" in context):
        return
    reading.frames.add("stand")
    _weights(pieces, tokens, taken, reading)
    _every_nth(pieces, tokens, taken, reading)
    _shares(pieces, tokens, taken, reading)
    _counts(pieces, tokens, taken, reading, "stand" in context)
    _asked(pieces, tokens, reading, context)


def sort_asked(tokens: list[str], reading: Reading) -> None:
    """What a stand was asked for by other words: "what percentage is that" is no strength of a spirit, "how many" no bottles."""
    told = {s.quantity for s in reading.said}
    if "stand_plants" in told and told & {"strength"} and not told & {"ratio", "menstruum", "stock", "herb", "stand_share"}:
        reading.said = [replace(s, quantity="stand_share") if s.quantity == "strength" else s for s in reading.said]  # "how many at 10 %"
        reading.frames.add("stand")
    if "stand" not in reading.frames:
        return
    if not set(tokens) & ASKING:
        reading.asked = [a for a in reading.asked if a.quantity != "to_gather"]  # "a third of them cut"
    if {a.quantity for a in reading.asked} & {"plants_left", "stand_plants"}:
        reading.asked = [a for a in reading.asked if a.quantity != "plants_taken"]
    if reading.settled:
        mine = [a for a in reading.asked if a.quantity in OF_A_STAND]
        if mine:
            reading.asked = [a for a in reading.asked if a.quantity in OF_A_STAND or a.quantity in ("menstruum", "stock", "water", "to_gather")]


FAIR = looked_for(r"\b(?:fair|sustainable|safe|sensible|decent|honest|right) share\b")  # how many may go, not which share goes
OF_A_STAND = frozenset({name for name, _ in ASKS} | {"share_allowed"})


def _about_a_stand(pieces: list[Piece], tokens: list[str], going_on: bool) -> bool:
    counts = [i for i, t in enumerate(tokens) if _is_count(pieces, tokens, i)]
    words = set(tokens)
    if "stand me" in (line := " ".join(tokens)) or "stands me" in line:
        words -= {"stand", "stands"}  # "what does one stand me in"
    gives = any(t in KINDS and _for_one(tokens, i) for i, t in enumerate(tokens))
    if going_on:
        if any(t == "<:>" and re.search(r"\bin\b", pieces[i].text) for i, t in enumerate(tokens)) or "<share>" in tokens:
            return True  # "at most one in twenty"
        if any(tokens[i + 1 : i + 3] == ["in", "<#>"] and t in ("one", "<#>") for i, t in enumerate(tokens)):
            return True  # "only one in twenty on this one"
        if {"share", "percentage", "proportion", "fraction"} & words and words & ASKING:
            return True  # "what share is that"
        if "<%>" in tokens and any(f" {w} " in f" {' '.join(tokens)} " for w in LIMITS):
            return True  # "the rule here is ten percent"
        if MOST.search(line) and not words & {"<mL>", "<g>", "<%>", "water", "spirit", "ratio", "jar", "bottle", "bottles"}:
            return True  # "how many at most"
        return bool((counts and words & (LIFTS | PLANTS | STANDS | LEAVES | {"them"})) or gives or words & STANDS or "plants" in words)
    if not counts:
        return gives and bool(words & PLANTS or re.search(r"\bhow many (?:\w+ )?(?:roots|bulbs|rhizomes)\b", " ".join(tokens)))
    shared = "<share>" in tokens or any(t == "<:>" and re.search(r"\bin\b", pieces[i].text) for i, t in enumerate(tokens))
    if words & STANDS and (words & (PLANTS | LIFTS | COUNTED | {"@", "share"}) or len(counts) > 1 or shared):
        return True
    planted = any(set(tokens[i + 1 : i + 3]) & PLANTS and not set(tokens[i + 1 : i + 2]) & CUTS for i in counts)
    named = any(tokens[i + 1 : i + 2] == ["@"] for i in counts)
    nths = any(t == "every" and set(tokens[i + 1 : i + 2]) & NTHS.keys() and set(tokens[i + 2 : i + 3]) & PLANTS for i, t in enumerate(tokens))
    if nths:
        return True
    dug = any(_lifted(tokens, i) for i in counts) and bool(words & DIGS) and not words & OTHER_WORK
    pair = any(_of_another(tokens, i) for i in counts) and not words & OTHER_WORK
    if dug and any(_left(tokens, i) for i in counts):
        return True
    return planted or ((named or pair) and (gives or dug or (pair and bool(words & (LIFTS | {"@"}))))) or (dug and (pair or len(counts) > 1))


MOST = looked_for(
    r"^(?:(?:so|and|then|ok|now) )*how many(?: plants| of them| @)*(?: can i| may i| could i| should i| to)?"
    r"(?: take| pick| dig| cut| harvest| lift| gather| pull)?"
    r"(?: then| from it| from there| at most| at the most| max| maximum| tops)*(?: \?)?$|\bthe (?:most|max|maximum)\b.*\b(?:can|may|could|should)\b"
)


def _is_count(pieces: list[Piece], tokens: list[str], at: int) -> bool:
    item = pieces[at].item
    return (
        tokens[at] == "<#>"
        and item is not None
        and item.value is not None
        and item.value >= 1
        and item.value == int(item.value)
        and not set(tokens[at + 1 : at + 2]) & NO_COUNT
    )


def _for_one(tokens: list[str], at: int) -> bool:
    """Whether a weight is what one plant gives: "6 g of root each", "15 g a plant", "each root gives 6 g"."""
    behind = tokens[at + 1 : at + 6]
    for n, word in enumerate(behind):
        if word in EACH and set(behind[n + 1 : n + 2]) & GIVES:
            break  # "90 g if each gives 6 g": what one gives comes after
        if word in EACH:
            return not (n and behind[n - 1] in CUTS)
        if word in FOR_ONE and set(behind[n + 1 : n + 2]) & ONE_OF_THEM:
            return True
        if word in CUTS or word.startswith("<"):
            break
    before = tokens[max(0, at - 6) : at]
    for n in range(len(before) - 1, -1, -1):
        if before[n] in CUTS or before[n].startswith("<"):
            return False
        if before[n] in ("each", "every", "per", "one") and set(before[n + 1 : n + 2]) & (
            ONE_OF_THEM | {"gives", "yields", "weighs", "is", "makes", "of", "@"}
        ):
            return True
        if before[n] in ("a", "the") and set(before[n + 1 : n + 2]) & ONE_OF_THEM and set(before[n + 2 :]) & {"gives", "yields", "weighs", "makes"}:
            return True
    return False


def _say(pieces: list[Piece], taken: set[int], reading: Reading, quantity: str, at: int, value: float, scale: float = 1.0) -> None:
    item = pieces[at].item
    if at in taken or item is None or any(s.quantity == quantity for s in reading.said):
        return
    taken.add(at)
    low, high = (None, None) if item.low is None or item.high is None or item.value is None else (item.low * scale, item.high * scale)
    reading.said.append(Said(quantity, value, pieces[at].start, pieces[at].end, said_unit=item.said_unit, low=low, high=high, slack=item.slack * scale))


def _weights(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    weights = [i for i, t in enumerate(tokens) if t in KINDS and i not in taken]
    for i in weights:
        item = pieces[i].item
        if _for_one(tokens, i) and item is not None and item.value is not None:
            _say(pieces, taken, reading, "per_plant", i, item.value)
            break


def _every_nth(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """ "every tenth plant", "every second one": that share may go."""
    for i, piece in enumerate(pieces):
        spelt = piece.text.lower().split()
        nth = NTHS.get(spelt[-1] if spelt[:1] == ["every"] else piece.text.lower() if tokens[max(0, i - 1) : i] == ["every"] else "")
        if nth is None or i in taken or any(s.quantity == "share_allowed" for s in reading.said):
            continue
        taken.add(i)
        reading.said.append(Said("share_allowed", 100 / nth, piece.start, piece.end))
        if tokens[i + 1 : i + 2] == ["<#>"] and pieces[i + 1].text.lower() == "one":
            taken.add(i + 1)
            reading.said.append(Said("share_allowed", 100 / nth, pieces[i + 1].start, pieces[i + 1].end))


def _shares(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    line = " ".join(tokens)
    for i, token in enumerate(tokens):
        item = pieces[i].item
        if tokens[i : i + 3] == ["one", "in", "<#>"] and i + 2 not in taken:  # "only one in twenty on this one"
            other = pieces[i + 2].item
            if other is not None and other.value and other.value > 1:
                _say(pieces, taken, reading, "share_allowed", i + 2, 100 / other.value)
            continue
        if i in taken or item is None or not item.value:
            continue
        before, behind = tokens[max(0, i - 7) : i], tokens[i + 1 : i + 5]
        if token == "<#>" and tokens[i + 1 : i + 3] == ["in", "<#>"] and set(before) & LEAVES:
            other = pieces[i + 2].item
            if other is not None and other.value and other.value > item.value:
                _say(pieces, taken, reading, "share_allowed", i, 100 * (1 - item.value / other.value))
                taken.add(i + 2)
                reading.said.append(Said("share_allowed", 100 * (1 - item.value / other.value), pieces[i + 2].start, pieces[i + 2].end))
            continue
        span = (
            next(
                (
                    n
                    for n in range(2, 5)
                    if tokens[i + n : i + n + 1] == ["<#>"] and {"in"} & set(tokens[i + 1 : i + n]) and not set(tokens[i + 1 : i + n]) - OUT_OF
                ),
                0,
            )
            if token == "<#>"
            else 0
        )
        if span:  # "one plant in twenty"
            other = pieces[i + span].item
            if other is not None and other.value and other.value > item.value:
                _say(pieces, taken, reading, "share_allowed", i, 100 * item.value / other.value)
                taken.add(i + span)
                reading.said.append(Said("share_allowed", 100 * item.value / other.value, pieces[i + span].start, pieces[i + span].end))
            continue
        if token == "<:>" and not re.search(r"\bin\b", pieces[i].text):
            continue
        if token not in ("<%>", "<:>", "<share>"):
            continue
        limited = any(f" {w} " in f" {' '.join(before)} " for w in LIMITS) or bool(re.search(r"\bhow (?:much|many)\b[^?]*\b(?:may|can|could|allowed)\b", line))
        of_it = bool(set(behind) & (STANDS | PLANTS | {"them", "those", "it"})) and behind[:1] in (["of"], ["the"], ["them"])
        asked = behind[:3] == ["is", "how", "many"] or bool(set(before[-3:]) & (LIFTS - {"want", "need"}))
        alone = (i == 0 or tokens[i - 1] in CUTS) and (i + 1 == len(tokens) or tokens[i + 1] in CUTS) and bool(set(tokens) & PLANTS)
        if (token == "<%>" and not (limited or of_it or asked or alone)) or (token == "<%>" and set(behind[:1]) & {"water", "spirit", "alcohol", "vodka"}):
            continue
        value = {"<%>": item.value, "<:>": 100 / item.value, "<share>": 100 * item.value}[token]
        keeps = bool(set(before[-3:]) & LEAVES)
        quantity = "share_allowed" if limited or keeps or token == "<:>" else "stand_share"
        _say(pieces, taken, reading, quantity, i, 100 - value if keeps else value, value / item.value)


def _counts(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, _going_on: bool) -> None:
    counts = [i for i in range(len(tokens)) if i not in taken and _is_count(pieces, tokens, i)]
    places: dict[int, str] = {}
    for i in counts:
        other = _of_another(tokens, i)
        if other and other in counts:
            places.setdefault(i, "plants_taken")
            places[other] = "stand_plants"
    for i in counts:
        if i in places:
            continue
        if _left(tokens, i):
            places[i] = "plants_left"
        elif _from_there(tokens, i) and _share_said(reading):
            places[i] = "stand_plants"  # "the most I can pick from 80 plants if I leave two thirds"
        elif _lifted(tokens, i):
            places[i] = "plants_taken"
        elif (
            " ".join(tokens[i + 1 : i + 3]).startswith(STANDING)
            or (tokens[max(0, i - 1) : i] in (["from"], ["of"]) and _share_said(reading))
            or set(tokens[i + 1 : i + 3]) & (PLANTS | {"@"})
            or set(tokens[max(0, i - 4) : i]) & (STANDS | COUNTED)
        ):
            places[i] = "stand_plants"
    for quantity in ("stand_plants", "plants_taken", "plants_left"):
        mine = [i for i, q in places.items() if q == quantity]
        if len(mine) == 1:
            item = pieces[mine[0]].item
            assert item is not None
            assert item.value is not None
            _say(pieces, taken, reading, quantity, mine[0], item.value)


def _from_there(tokens: list[str], at: int) -> bool:
    return at > 0 and tokens[at - 1] == "from" and bool(set(tokens[at + 1 : at + 3]) & PLANTS and set(tokens) & {"most", "max", "maximum", "if"})


def _share_said(reading: Reading) -> bool:
    return any(s.quantity in ("share_allowed", "stand_share") for s in reading.said)


def _lifted(tokens: list[str], at: int) -> bool:
    """Whether a verb of taking leads to a count, or follows it: "I dug up 20", "aim to lift 18 of them", "12 plants taken", "from 60 plants I got"."""
    look = at - 1
    while look >= 0 and at - look <= 6 and (tokens[look] in BETWEEN or tokens[look] in LIFTS or tokens[look] == "from"):
        if tokens[look] in LIFTS:
            return True
        if tokens[look] == "from" and set(tokens[at + 1 : at + 6]) & {"got", "gave", "came", "brought", "have", "had"}:
            return True
        look -= 1
    if set(tokens[at + 1 : at + 6]) & GAVE and not set(tokens[at + 1 : at + 3]) & CUTS:
        return True
    for word in tokens[at + 1 : at + 4]:
        if word in LIFTED:
            return True
        if word in CUTS or word.startswith("<"):
            return False
    return False


def _left(tokens: list[str], at: int) -> bool:
    before: list[str] = []
    for word in reversed(tokens[max(0, at - 3) : at]):
        if word in CUTS or word.startswith("<"):
            break
        before.append(word)
    return bool(set(before) & LEAVES) or tokens[at + 1 : at + 2] in (["left"], ["remaining"], ["standing"])


def _of_another(tokens: list[str], at: int) -> int:
    """The place of the count that this one is out of ("12 of the 15", "4 out of 80", "ten from a stand of sixty"); 0 where there is none."""
    look = at + 1
    while look < len(tokens) and look - at <= 7:
        word = tokens[look]
        if word == "<#>":
            return look if set(tokens[at + 1 : look]) & {"of", "from"} else 0
        if word not in BETWEEN and word not in STANDS and word not in ONE_OF_THEM and word not in ("from", "that", "@"):
            return 0
        look += 1
    return 0


def _asked(pieces: list[Piece], tokens: list[str], reading: Reading, context: frozenset[str]) -> None:
    line = " ".join(tokens)
    given = {s.quantity for s in reading.said}
    for quantity, words in ASKS:
        hit = words.search(line)
        if (
            hit is None
            or (quantity == "stand_share" and FAIR.search(hit.group()))
            or quantity in given
            or (quantity == "plants_taken" and {"plants_allowed", "plants_over"} & {a.quantity for a in reading.asked})
        ):
            continue
        first = line[: hit.start()].count(" ")
        last = min(first + hit.group().count(" "), len(pieces) - 1)
        if set(tokens[first:last]) & {"bottles", "jars", "days", "drops", "ml", "tins", "doses"}:
            continue
        name = quantity
        limit = "share_allowed" in given or ("stand" in context and MOST.search(line)) or ("stand_plants" in given and not given & {"herb", "per_plant"})
        if name == "plants_allowed" and not limit:
            name = "plants_taken"  # "how many plants can I make that from"
        if name in {a.quantity for a in reading.asked}:
            continue
        if name == "plants_taken" and {a.quantity for a in reading.asked} & {"stand_plants", "plants_left"}:
            continue
        reading.asked.append(Asked(name, pieces[first].start, pieces[last].end))
        reading.settled = True
