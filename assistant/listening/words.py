"""A sentence as a row of words, each with its span and the part it can play in an amount.

What holds of a word by itself is settled here: number words, units, near misses of known words, what a little word is
beside its neighbours. What several words mean together is the grammar's matter (islands.py).
"""

from __future__ import annotations

from assistant.dataclass import dataclass, field
from assistant.listening.classes import Classes, classes
from assistant.listening.cutting import cut
from assistant.listening.spelling import SHORTEST, Lexicon, correct
from assistant.listening.tokens import COUNTED, NUMERIC, Token
from assistant.quantities.units import Unit

_SPELT = frozenset("DIGIT TEEN TENS HUNDRED THOUSAND".split())
_DATED = frozenset({"N", "CODE"})
MONTHS = frozenset(
    "january february march april may june july august september october november december jan feb mar apr jun jul aug sept sep oct nov dec".split()
)
_VERBS_TOO = frozenset({"may", "march", "mar"})
_BEFORE_A_DAY = frozenset("on by for before from since until till after".split())
_SHORT_OF_HOUR = frozenset({"hour", "minute", "second"})


@dataclass(frozen=True, slots=True)
class Habits:
    """What one person means by what they leave unsaid.

    measures        whose cup, pint and ounce: us, imperial, metric or australian
    decimal_comma   "1,200" is 1.2 and "1.200" is 1200
    lexicon         known words: never corrected, and what a near miss is corrected to
    """

    measures: str = "us"
    decimal_comma: bool = False
    lexicon: Lexicon = field(default_factory=Lexicon)


def read_words(sentence: str, habits: Habits) -> tuple[list[Token], list[str]]:
    """The sentence as tokens in order, and a note on each word that was read as another ("metruum → menstruum")."""
    tokens = list(cut(sentence, habits.decimal_comma, habits.lexicon))
    notes: list[str] = []
    tokens = _classed(tokens, habits, notes)
    _settle(tokens)
    return tokens, notes


# --- what each word is ---------------------------------------------------------------------------------------------------


TIMES_A_DAY = frozenset({"xd", "xday", "xdaily", "xdy"})


def _classed(tokens: list[Token], habits: Habits, notes: list[str]) -> list[Token]:
    """Give each word its class: a phrase of several words, a number word, a unit, or a plain word, its spelling mended."""
    known = classes()
    words, spellings, lexicon = known.words, known.units, habits.lexicon
    made: list[Token] = []
    at, count = 0, len(tokens)
    while at < count:
        token = tokens[at]
        at += 1
        date = _date(tokens, at - 1) if token.type in _DATED or token.word in MONTHS else None
        if date is not None:
            joined, at = date
            made.append(joined)
            continue
        if token.type != "WORD":
            made.append(token)
            continue
        word = token.word
        if word in TIMES_A_DAY and made and made[-1].type == "N":  # "2xd": the letter, then the day
            made += [Token("TIMES", token.text[:1], token.start, "x"), Token("DAILY", token.text[1:], token.start + 1, "daily", 1.0)]
            continue
        if word == "d" and made and made[-1].type == "TIMES":  # "3 x d"
            token.type, token.value, token.word = "DAILY", 1.0, "daily"
            made.append(token)
            continue
        if word in known.phrases:
            phrase = _phrase(tokens, at - 1, known)
            if phrase is not None:
                joined, at = phrase
                made.append(joined)
                continue
        found = words.get(word)
        if found is not None:
            token.type, token.value = found
        else:
            unit = spellings.get(word) or (spellings.get(word[:-2]) if word.endswith("'s") else None)
            if word.endswith("fold") and word[:-4] in words and words[word[:-4]][0] in _SPELT:
                token.type, token.value = "MULTIPLE", words[word[:-4]][1]  # threefold
            if unit is None and word not in lexicon and len(word) >= SHORTEST:
                unit = _mend(token, made, tokens[at] if at < count else None, known, habits, notes)
            if unit is not None:
                token.unit = unit
                token.type = _type_of(unit)
        made.append(token)
    return made


def _date(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """A day and a month in either order, and perhaps a year, as one token; and where the next one begins.

    "May" and "march" by themselves are no months: they need a capital, a day like "3rd", or for "3 march" and "on 3 may" the day before them.
    """
    count = len(tokens)

    def is_day(token: Token) -> bool:
        return (token.type == "N" or token.word == "ordinal") and 1 <= token.value <= 31 and not token.value % 1

    first, end = tokens[at], at + 1
    if end < count and tokens[end].word == "of":
        end += 1
    if end >= count:
        return None
    second = tokens[end]
    day, month = (second, first) if first.word in MONTHS else (first, second)
    if month.word not in MONTHS or not is_day(day) or (month is first and end > at + 1):
        return None
    led = month is second and (month.word != "may" or (at > 0 and tokens[at - 1].word in _BEFORE_A_DAY))
    if month.word in _VERBS_TOO and day.word != "ordinal" and not led and not (month.text[0].isupper() and (month is second or at)):
        return None
    end += 1
    if end + 1 < count and tokens[end].word == "," and tokens[end + 1].type == "N" and 1900 <= tokens[end + 1].value <= 2100:
        end += 1
    if end < count and tokens[end].type == "N" and 1900 <= tokens[end].value <= 2100:
        end += 1
    token = Token("CODE", first.text, first.start, "date")
    token.end = tokens[end - 1].end
    return token, end


def _type_of(unit: Unit) -> str:
    if unit.dimension != "time":
        return "UNIT"
    return "HOURS" if unit.name in _SHORT_OF_HOUR else "DAYS"


def _phrase(tokens: list[Token], at: int, known: Classes) -> tuple[Token, int] | None:
    """The phrase of several words that begins here, as one token, and where the next one begins."""
    for spelt, kind, value, unit in known.phrases[tokens[at].word]:
        here = at
        for word in spelt:
            # "morning, noon and night"; "fl. oz."
            while here > at and here < len(tokens) and (tokens[here].type == "JOINED" or (tokens[here].type == "PUNCT" and tokens[here].word in ",.")):
                here += 1
            if here >= len(tokens) or tokens[here].word != word:
                break
            here += 1
        else:
            first, last = tokens[at], tokens[here - 1]
            token = Token(kind, first.text, first.start, "_".join(spelt), value, 0.0, unit)
            token.end = last.end
            return token, here
    return None


HALF = Lexicon(("half",))


def _mend(token: Token, before: list[Token], after: Token | None, known: Classes, habits: Habits, notes: list[str]) -> Unit | None:
    """Correct the spelling of an unknown word in place; the unit, if it turns out to be one.

    A word becomes a unit or a number only beside a number or a unit: "thirsty" must not turn into thirty.
    """
    word = token.word
    beside = [other for other in before[-2:] if other.type != "JOINED"]
    after_number = bool(beside) and beside[-1].type in NUMERIC
    if after_number or (after is not None and (after.word in known.units or known.words.get(after.word, ("",))[0] in COUNTED)):
        near = correct(word, known.near) if not habits.lexicon.knows(word) else word
        if near != word:
            unit = known.units.get(near)
            kind = _type_of(unit) if unit else known.words[near][0]
            if kind in (COUNTED if after_number else _SPELT):
                notes.append(f"{token.text} → {near}")
                token.word = near
                if unit is None:
                    token.type, token.value = known.words[near]
                return unit
    if after is not None and after.word in ("a", "an") and not habits.lexicon.knows(word) and correct(word, HALF) != word:
        notes.append(f"{token.text} → half")  # "harf a kilo": without it the weight would be twice what was said
        token.word = "half"
        token.type, token.value = known.words["half"]
        return None
    if habits.lexicon:
        near = correct(word, habits.lexicon)
        if near != word and near not in known.units and near not in known.words:
            notes.append(f"{token.text} → {near}")
            token.word = near
    return None


WIDEST = 20.0  # times: both ends of a range lie nearer


def _breaks_off(before: Token, dash: Token, after: Token) -> bool:
    """Whether a dash with room on both sides ends a clause: what stands behind it is no other end of what stands before."""
    apart = before.end < dash.start and dash.end < after.start
    return apart and before.type in NUMERIC and after.type in NUMERIC and 0 < before.value * WIDEST < after.value


def _settle(tokens: list[Token]) -> None:
    """What a word is beside its neighbours, where one look at them is enough; hyphens that only join are dropped."""
    kept: list[Token] = []
    for at, token in enumerate(tokens):
        kind = token.type
        before = kept[-1] if kept else None
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if kind == "JOINED":
            if after is not None:
                if before is not None and after.type in NUMERIC and (before.type in COUNTED or (before.type in NUMERIC and not _reads_on(before, after))):
                    token.type = "DASH"
                    kept.append(token)
                else:
                    after.glued = True
            continue
        if kind == "SIGNED":
            # "10 -20" is a range, "at -5" a minus
            token.type = "DASH" if before is not None and (before.type in NUMERIC or before.type in COUNTED) else "MINUS"
        elif kind == "DASH" and before is not None and after is not None and _breaks_off(before, token, after):
            token.type, token.word = "PUNCT", ","  # "yarrow 1 - 180 ml": no range runs so far
        elif kind == "MINUS":
            # "minus 5 g", but "500 g minus 50" and "minus the bag"
            if after is None or after.type not in NUMERIC | {"A"} or (before is not None and before.type in ("UNIT", "PERCENT", "N")):
                token.type = "WORD"
        elif kind == "LATIN" and before is not None and before.word.endswith("'s"):
            token.type = "WORD"  # "lion's mane" is a fungus; "mane" by itself is "in the morning"
        elif kind == "WORD":
            _settle_letter(token, before, after)
        elif kind == "EACHES" and token.glued and before is not None and before.type == "DIGIT":
            token.start, token.text, token.value = before.start, "", 100 * before.value + token.value
            kept.pop()
        elif kind == "TIMES" and token.word in ("x", "×") and (before is None or before.type not in NUMERIC) and after is not None and after.type in NUMERIC:
            token.type = "TIMES_BEFORE"
        kept.append(token)
    tokens[:] = kept
    for at, token in enumerate(tokens):
        if token.type == "AND":
            token.type = _and(tokens, at)


A_PIECE = frozenset("each apiece a per every for empty".split())  # "85 p each"


def _ends_a_price(after: Token | None) -> bool:
    """Whether what stands behind a lone p lets it be pence: the end of the clause, or "each"."""
    return after is None or not after.word.isalnum() or after.word in A_PIECE


def _settle_letter(token: Token, before: Token | None, after: Token | None) -> None:
    """C and F are degrees behind a degree sign or a number; US is a country in capitals."""
    word = token.text
    if before is not None and (before.type == "DEGREE" or (before.type in NUMERIC and word in ("C", "F", "f"))):
        if word in ("C", "c"):
            token.type = "CELSIUS"
        elif word in ("F", "f"):
            token.type = "FAHRENHEIT"
    elif word in ("US", "U.S.", "USA"):
        token.type = "SYSTEM"
    elif word == "p" and before is not None and before.type == "N" and (before.end == token.start or _ends_a_price(after)):
        token.type, token.value = "MONEY", 0.01


def _reads_on(before: Token, after: Token) -> bool:
    """Whether two number words joined by a hyphen are one number: twenty-four, two-fifty, three-quarters, five-hundred."""
    one, two = before.type, after.type
    if two in ("HUNDRED", "THOUSAND", "DOZEN", "HALF", "DENOM"):
        return True
    return (one, two) in {("TENS", "DIGIT"), ("DIGIT", "TENS"), ("DIGIT", "TEEN"), ("HUNDRED", "DIGIT"), ("HUNDRED", "TENS"), ("HUNDRED", "TEEN")}


MOST_AND_HALF = 12  # "ten and half", but hardly "sixty and half"


def _is_small(token: Token) -> bool:
    """Whether a number is one to which a half may be joined without its article."""
    return token.type == "DIGIT" or (token.type == "N" and isinstance(token.value, (int, float)) and token.value <= MOST_AND_HALF)


def _and(tokens: list[Token], at: int) -> str:
    """Which "and": of "one and a half", of "a hundred and twelve", or between two things."""
    if at == 0 or at + 1 >= len(tokens):
        return "AND"
    kind = [token.type for token in tokens[at + 1 : at + 5]] + ["", "", "", ""]
    before = tokens[at - 1].type
    if before in ("HUNDRED", "THOUSAND") and kind[0] in ("DIGIT", "TEEN", "TENS", "N"):
        if kind[1] == "DENOM":
            return "AND_FRACTION"
        return "AND_HUNDRED"
    numeric = before in NUMERIC
    if not (numeric or before in ("UNIT", "DAYS", "PART")):
        return "AND"
    size = 2 if kind[0] in ("A", "DIGIT", "N") and kind[1] in ("HALF", "DENOM") else 1 if kind[0] in ("HALF", "FRACTION", "DENOM") else 0
    if not size:
        return "AND"
    follows = kind[size]
    if numeric and follows not in ("UNIT", "PART", "DAYS") and any(t.type in ("HALF", "DENOM", "FRACTION") for t in tokens[max(0, at - 4) : at - 1]):
        return "AND"  # "half 95 and half brandy", "two thirds of 96 and a third water"
    if numeric and size == 1 and kind[0] == "HALF" and follows not in ("UNIT", "PART", "DAYS") and not _is_small(tokens[at - 1]):
        return "AND"  # "1:2 at 60 and half on the rack"
    if numeric:
        # "two and a half pints" but "60 and half a litre"
        return "AND" if size == 1 and follows == "A" else "AND_FRACTION"
    # behind a unit: "a kilo and a half", but "100 g and half a kilo", "100 g and a half litre", "100 g and a quarter of a kilo"
    if follows in ("UNIT", "DAYS", "PART", "A", "SYSTEM") or (follows == "OF" and kind[size + 1] in ("A", "UNIT")) or (size == 1 and kind[0] != "FRACTION"):
        return "AND"
    return "AND_FRACTION"
