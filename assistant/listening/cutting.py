"""Cutting a sentence into words, signs and numbers in digits.

Digits are read here in all their spellings: 1,200 and 2,5 and .8 and ½ and 1 1/2 and 30s; so are dates and marks on a lot.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from assistant.listening.spelling import Lexicon
from assistant.listening.tokens import LARGEST, Token
from assistant.patterns import looked_for

_DASHES = "-‐‑‒–—−"
_FRACTION_SIGNS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
_SIGNS = {"∶": ":", "：": ":", "，": ",", "；": ";", "？": "?", "！": "!", "（": "(", "）": ")", "…": ".", "⁄": "/", "∕": "/", "[": "(", "]": ")"}
_SIGN_WORDS = {"+": "plus", "*": "×", "~": "about", "≈": "about", "@": "at", "<": "under", ">": "over", "&": "and", "=": "="}
_NUMBER_SIGNS = frozenset("%°º˚℃℉±$£€#×％٪")

# Numbers and words stand behind a look at their first sign, so that a letter is not tried as each kind of number first.
_TOKEN = looked_for(
    rf"""
      (?=[\d.{_FRACTION_SIGNS}]) (?:
        (?P<continental> [1-9]\d{{0,2}}(?:\.\d{{3}})+,\d+(?![\d,]) )
      | (?P<code>     \d+(?:(?:\.\d+){{2,}}|(?:/\d+){{2,}}|(?:-\d+){{2,}})(?!\d) )
      | (?P<ordinal>  \d+(?:st|nd|rd|th)(?![^\W_]) )
      | (?P<each>     \d+['’]?s(?![^\W_]) )
      | (?P<science>  \d+(?:\.\d+)?[eE][+-]?\d+(?![^\W_]) )
      | (?P<mixed>    \d+(?:[ \t]+(?:and[ \t]+)?|-)\d{{1,3}}[/⁄]\d{{1,3}}(?![\d/.]) | \d+[ \t]?[{_FRACTION_SIGNS}] )
      | (?P<fraction> (?<!:)(?<!:\s)\d+[/⁄]\d+(?!\.?\d) | [{_FRACTION_SIGNS}] )
      | (?P<grouped>  [1-9]\d{{0,2}}(?:,\d{{3}})+(?:\.\d+)?(?![\d,]) | [1-9]\d{{0,2}}(?:[\u202f\u00a0]\d{{3}})+(?!\d) )
      | (?P<comma>    (?<![\d,])\d+,\d+(?![\d,]) )
      | (?P<number>   \d+(?:\.\d+)? | (?<![\w.])\.\d+ )
      )
    | (?=[^\W\d_]) (?:
        (?P<dotted>   (?<![\w.])(?:[A-Za-z]\.){{2,}}(?:[A-Za-z](?![^\W_]))? )
      | (?P<numbered> [Nn][OoRr]\.(?=\s?\d) )
      | (?P<withs>    \b[Ww]/[Oo]?(?![^\W_]) | \b[VvWw]/[VvWw]\b )
      | (?P<code2>    (?<![^\W_])[^\W\d_]++\d[^\W_]*(?:[-/.]\d[^\W_]*)* )
      | (?P<word>     [^\W\d_]+(?:['’ʼ][^\W\d_]+)* )
      )
    | (?P<pm>       \+\s?/?\s?-(?=\s?[\d.]) )
    | (?P<dash>     [{_DASHES}]+ )
    | (?P<dots>     \.{{2,}} )
    | (?P<sign>     \S )
    """,
    re.VERBOSE,
)


def cut(sentence: str, decimal_comma: bool, lexicon: Lexicon) -> Iterator[Token]:
    """The tokens of a sentence in order, numbers read, words not yet classed (type WORD).

    decimal_comma   "1,200" is 1.2 and "1.200" is 1200
    lexicon         known words: "sage80" is a word and a number, "A12" a mark on a lot
    """
    at = 0
    length = len(sentence)
    while at < length:
        match = _TOKEN.search(sentence, at)
        if match is None:
            return
        group, text, start = match.lastgroup or "sign", match.group(), match.start()
        at = match.end()
        for token in _tokens_of(group, text, start, sentence, decimal_comma, lexicon):
            at = token.end
            yield token


def _tokens_of(group: str, text: str, start: int, sentence: str, decimal_comma: bool, lexicon: Lexicon) -> Iterator[Token]:
    """The tokens one match stands for; the cutting goes on after the last of them."""
    if group in ("number", "science", "grouped", "comma", "continental"):
        yield from _digits(group, text, start, sentence, decimal_comma)
    elif group == "word":
        yield Token("WORD", text, start, text.lower().replace("’", "'").replace("ʼ", "'"))
    elif group in ("mixed", "fraction"):
        yield _fraction(text, start)
    elif group == "each":
        yield Token("EACHES", text, start, text.lower(), _value(text.rstrip("s'’")))
    elif group == "dotted":
        yield Token("WORD", text, start, text.lower().replace(".", ""))
    elif group == "code2":
        yield _lettered(text, start, lexicon)
    elif group in ("code", "ordinal"):
        yield Token("CODE", text, start, "ordinal", _value(text[:-2])) if group == "ordinal" else Token("CODE", text, start, text)
    elif group == "dash":
        yield from _dash(text, start, sentence)
    elif group == "numbered":
        yield Token("NUMBER", text, start, "no")
    elif group == "withs":
        yield Token("WORD", text, start, {"w/": "with", "w/o": "without"}.get(text.lower(), text.lower()))
    elif group == "pm":
        yield Token("PM", text, start, "±")
    elif group == "dots":
        yield Token("PUNCT", text, start, ".")
    else:
        slipped = text == ";" and sentence[start - 1 : start].isdigit() and sentence[start + 1 : start + 2].isdigit()  # "1;2": the key beside
        token = _sign(":" if slipped else text, start)
        if token is not None:
            yield token


def _sign(text: str, start: int) -> Token | None:
    text_is = _SIGNS.get(text, text)
    if text_is in ",;.?!()":
        return Token("PUNCT", text, start, text_is)
    if text_is == ":":
        return Token("COLON", text, start, ":")
    if text_is == "/":
        return Token("SLASH", text, start, "/")
    if text in _NUMBER_SIGNS:
        return Token("WORD", text, start, text)
    if text in _SIGN_WORDS:
        return Token("WORD", text, start, _SIGN_WORDS[text])
    return None  # quotes, brackets and pictures say nothing


def _value(digits: str) -> float:
    return min(float(digits), LARGEST)


def _digits(group: str, text: str, start: int, sentence: str, decimal_comma: bool) -> Iterator[Token]:
    plain = text
    if group == "grouped":
        if decimal_comma and text.count(",") == 1 and "." not in text:
            plain = text.replace(",", ".")
        else:
            plain = re.sub("[,\u202f\u00a0]", "", text)
    elif group == "continental":
        plain = text.replace(".", "").replace(",", ".")
    elif group == "comma":
        whole, _, rest = text.partition(",")
        if not decimal_comma and _is_list(whole, rest, sentence, start + len(text)):
            yield Token("N", whole, start, whole, _value(whole), 0.5)
            yield Token("PUNCT", ",", start + len(whole), ",")
            yield Token("N", rest, start + len(whole) + 1, rest, _value(rest), 0.5)
            return
        plain = f"{whole}.{rest}"
    elif decimal_comma and re.fullmatch(r"[1-9]\d{0,2}\.\d{3}", text):
        plain = text.replace(".", "")
    token = Token("N", text, start, text, _value(plain))
    decimals = len(plain.partition(".")[2])
    token.slack = 0.5 * 10.0**-decimals if group != "science" and decimals < 300 else 0.0
    yield token


_MORE_OF_A_LIST = looked_for(r"\s?(?:,|and\b|or\b|&)\s?\d", re.IGNORECASE)


def _is_list(whole: str, rest: str, sentence: str, end: int) -> bool:
    """Whether a comma between digits stands between two numbers: "jars of 5,10 and 20 ml", but "2,5 l" and "0,75"."""
    if whole == "0":
        return False
    if len(rest) > 2:
        return True
    return _MORE_OF_A_LIST.match(sentence, end) is not None


def _fraction(text: str, start: int) -> Token:
    whole = re.match(r"\d+(?=[ \t\-½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒])", text)
    rest = text[whole.end() :].lstrip(" \t-") if whole else text
    if rest.startswith("and"):
        rest = rest[3:].lstrip()
    if len(rest) == 1:
        part = unicodedata.numeric(rest)
    else:
        over, under = (float(piece) for piece in re.split("[/⁄]", rest))
        if not under or over == float("inf") or under == float("inf"):
            return Token("CODE", text, start, text)
        part = over / under
    token = Token("N" if whole else "FRACTION", text, start, text, (_value(whole.group()) if whole else 0.0) + part)
    token.shares = not whole
    return token


# Little words people run into the number behind them: "to5", "at60".
_BEFORE_DIGITS = frozenset("at with by from to of in and or per about approx between".split())


def _lettered(text: str, start: int, lexicon: Lexicon) -> Token:
    """Letters with digits behind: "to5" is two words, "h2o" water, anything else a mark on a lot."""
    word = text.lower()
    if word == "h2o":
        return Token("WORD", text, start, "water")
    lead = re.match(r"[^\W\d_]+", text).group()  # type: ignore[union-attr]
    small = lead.lower()
    if word in ("q8h", "q6h", "q4h", "q12h"):
        return Token("LATIN", text, start, word, 24 / float(word[1:-1]))
    if small in _BEFORE_DIGITS or (small in lexicon and len(small) > 1) or (small in ("x", "usd", "eur", "gbp") and text[len(lead) :].isdigit()):
        return Token("WORD", lead, start, small)
    return Token("CODE", text, start, word)


def _dash(text: str, start: int, sentence: str) -> Iterator[Token]:
    end = start + len(text)
    before, after = sentence[start - 1 : start], sentence[end : end + 1]
    open_before, open_after = not before or before.isspace() or before in "([", not after or after.isspace()
    if not open_before and not open_after and len(text) == 1 and before not in ":=/":
        if before.isalnum() or before in "%°½¼¾":
            # between digits it is a range or a mark, between words it joins them
            yield Token("DASH", text, start, "-") if after.isdigit() and (before.isdigit() or before in "%°") else Token("JOINED", text, start, "-")
        return
    token = Token("DASH", text, start, "-")
    if (open_before or before in ":=/") and (after.isdigit() or after in "." + _FRACTION_SIGNS) and after:
        token.type = "SIGNED"
    yield token
