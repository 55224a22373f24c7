"""What an ingredient may be called in a recipe: a plant, one of the stuffs of the stillroom, or a word nobody knows standing where one belongs."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from assistant.dataclass import dataclass
from assistant.listening.pieces import Piece
from assistant.patterns import looked_for

# Things that go into a recipe and are no plants.
STUFF = frozenset(
    """oil wax beeswax shea lanolin cocoa butter sugar honey decoction infusion glycerine glycerin vinegar water brandy vodka rum clay starch
    candelilla carnauba jojoba coconut olive sunflower almond castor resin propolis salt borax aloe emulsifier preservative vitamin cream
    lard tallow jelly molasses maple agave juice wine gin whisky whiskey spirit alcohol ethanol tea zinc arrowroot bentonite charcoal
    petrolatum vaseline soap lecithin""".split()
)
# Words that belong to the name before them, or lead up to one.
DESCRIBES = frozenset(
    """root roots leaf leaves flower flowers peel bark berry berries seed seeds petals herb tops oil wax butter essential infused powder powdered rind
    juice bud buds fruit e""".split()
)
FORMS = frozenset("tincture tinctures extract extracts fluid liquid glycerite syrup".split())
MADE_OF_IT = frozenset("decoction infusion tea honey vinegar juice".split())
FLUID = FORMS | frozenset(
    "decoction infusion tea vinegar juice water brandy vodka rum gin whisky whiskey spirit alcohol ethanol wine glycerine glycerin".split()
)
# What is poured on a plant: beside the weight of one plant it is its menstruum, not an ingredient.
POURED = frozenset("vinegar oil glycerine glycerin spirit vodka brandy rum gin alcohol ethanol water whisky whiskey wine honey".split())
LEADS = frozenset("infused essential cocoa shea olive sunflower almond castor coconut jojoba aloe vitamin zinc".split())
# A word of these stands for no ingredient even where nothing else is known of it.
NEVER = frozenset(
    """dissolved stirred poured tipped mixed added each every mls grams drops parts percent total bottle bottles recipe batch formula blend mix
    house shelf stock hand order equal half third quarter rest remainder left runs costs price cost bottle label one two three four five six
    seven eight nine ten all lot whole strength strong weak dose doses salve balm ointment melt tin tins jar jars pot pots cup cups spoon
    spoons daily day days volume volumes amount amounts weight weights measure measures quantity quantities portion portions""".split()
)


LETTERS = "ABCDEFGH"
LOTS = frozenset("lots batches jars bottles tinctures".split())
PICKS = frozenset("without minus drop skip leave only just plus with and except not".split())
LETTER = looked_for(r"^(?:[a-z]|one|two|three|1|2|3)$")


@dataclass(frozen=True, slots=True)
class Name:
    """An ingredient's name in the row of pieces: from `first` up to `last`; `known` where it is a plant or a listed stuff."""

    text: str
    first: int
    last: int
    known: bool
    poured: bool = False  # said as a tincture or another liquid: its ounces are fluid


def names_in(pieces: Sequence[Piece], trade: frozenset[str], common: frozenset[str]) -> dict[int, Name]:
    """Every name, by its first place. `trade` are the words of the phrases, `common` those of every day."""
    found: dict[int, Name] = {}
    i = 0
    while i < len(pieces):
        name = _lot(pieces, i) or _plant(pieces, i) or _stuff(pieces, i) or _stranger(pieces, i, trade, common)
        if name is None:
            i += 1
            continue
        found[name.first] = name
        i = name.last
    return found


def _lot(pieces: Sequence[Piece], i: int) -> Name | None:
    """ "lot A", "lot 24-07", "batch two", "three lots: A …, B …": a lot by its label."""
    letter = pieces[i].text
    if len(letter) == 1 and letter in LETTERS and (any(p.code in LOTS for p in pieces) or (i and pieces[i - 1].code in PICKS)):
        return Name(f"lot {letter.lower()}", i, i + 1, True)
    if pieces[i].code == "<label>":
        return Name(pieces[i].text.lower(), i, i + 1, True)
    if pieces[i].code in ("lot", "lots", "batch") and i + 1 < len(pieces) and LETTER.match(pieces[i + 1].code):
        return Name(f"{pieces[i].code} {pieces[i + 1].text.lower()}", i, i + 2, True)
    return None


def _plant(pieces: Sequence[Piece], i: int) -> Name | None:
    if pieces[i].code != "@":
        return None
    words = [pieces[i].name]
    last = i + 1
    if last < len(pieces) and pieces[last].code in ("infused", "essential") and last + 1 < len(pieces) and pieces[last + 1].code == "oil":
        if pieces[last].code == "infused":
            words.append("oil")
        last += 2
    while last < len(pieces) and (pieces[last].code in DESCRIBES or pieces[last].code in FORMS or pieces[last].code in MADE_OF_IT):
        if pieces[last].code in ("oil", "wax", "butter") or pieces[last].code in MADE_OF_IT:
            words.append(pieces[last].code)
        last += 1
    return Name(" ".join(words), i, last, True, pieces[last - 1].code in FLUID)


def _stuff(pieces: Sequence[Piece], i: int) -> Name | None:
    code = pieces[i].code
    leads = code in LEADS or code in DESCRIBES
    if code not in STUFF and not (leads and i + 1 < len(pieces) and pieces[i + 1].code in STUFF | DESCRIBES):
        return None
    last = i + 1
    words = [code]
    while last < len(pieces) and pieces[last].code in STUFF | DESCRIBES | FORMS:
        if pieces[last].code not in FORMS:
            words.append(pieces[last].code)
        last += 1
    if not any(w in STUFF for w in words):
        return None
    return Name(" ".join(words), i, last, True, pieces[last - 1].code in FLUID)


def _stranger(pieces: Sequence[Piece], i: int, trade: frozenset[str], common: frozenset[str]) -> Name | None:
    def strange(code: str) -> bool:
        return code.isalpha() and len(code) > 2 and code not in common and code not in trade and code not in NEVER

    if not strange(pieces[i].code):
        return None
    last, words = i + 1, [pieces[i].code]
    while last < len(pieces) and len(words) < 3 and (pieces[last].code in DESCRIBES or strange(pieces[last].code)):
        words.append(pieces[last].code)
        last += 1
    while last < len(pieces) and pieces[last].code in FORMS:
        last += 1
    return Name(" ".join(words), i, last, False)


@lru_cache(maxsize=4096)
def same_thing(one: str, other: str) -> bool:
    """Whether two names of a recipe mean one ingredient: "wax" and "beeswax", "oil" and "infused oil", "rose" and "rose petal".

    >>> same_thing("beeswax", "wax"), same_thing("infused oil", "oil"), same_thing("olive oil", "castor oil")
    (True, True, False)
    """
    if one.endswith(")") or other.endswith(")"):
        return one == other  # "elder (second)" is told apart from the first
    a, b = _plain(one), _plain(other)
    return a <= b or b <= a


@lru_cache(maxsize=1024)
def _plain(name: str) -> frozenset[str]:
    words = name.replace("beeswax", "wax").replace("glycerin ", "glycerine ").split()
    kept = [w.rstrip("s") if len(w) > 3 else w for w in words if w not in ("infused", "essential", "tincture", "the", "pure", "raw")]
    return frozenset(kept or words)


def called(name: str, members: Sequence[str]) -> str:
    """The member of a recipe that a name means, "" where none or several may be meant."""
    if name in members:
        return name
    hits = [m for m in members if same_thing(name, m)]
    return hits[0] if len(hits) == 1 else ""
