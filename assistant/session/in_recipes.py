"""Figures in a recipe: beside a name they are that ingredient's, by themselves the whole's."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.ingredients import called
from assistant.listening.statements import Loose, Said, forget
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base, key_for
from assistant.session.beside import clause_of, is_left, is_share, member_beside
from assistant.session.pairs import counted_again, times_as_many
from assistant.session.renumbering import size_said
from assistant.session.work import LIQUID, SOME_LIQUID, SOME_STRENGTH, SOME_WEIGHT, WEIGHED, Work, renamed, said_as

OWN_WORDS = looked_for(r"\b(?:water|moisture|margin|yield|trim|full)\b", re.IGNORECASE)
ALL = looked_for(r"\b(?:all|each|every|both)\b", re.IGNORECASE)
OTHERS = looked_for(r"\b(?:others?|rest|remaining|remainder)\b", re.IGNORECASE)
PERCENT = looked_for(r"%|percent|proof|abv", re.IGNORECASE)
ASKS = looked_for(r"\b(?:how much|how many|which amount|what amount|what volume|how little|most|limit|least|max|maximum|biggest|largest)\b", re.IGNORECASE)
AIMED = looked_for(r"\b(?:keep|keeps|stay|stays|still|reach|get|bring|end|finish|hold|drop|leaves?|below|under|above|over)\b", re.IGNORECASE)
ANOTHER_SIZE = looked_for(r"\b(?:do|make|fill|into|in|for|take|need|use)\s+(?:it |me )?(?:a|an|one|the)\s+$", re.IGNORECASE)
OUT_OF = looked_for(r"\b(?:per|in|of|out of|every)\s*$", re.IGNORECASE)
ONLY = looked_for(r"\bonly\s*$", re.IGNORECASE)
THE = looked_for(r"\bthe\s*$", re.IGNORECASE)
OF_THE_MELT = looked_for(r"\s*(?:of )?(?:the |a |my )?(?:salve|balm|ointment|unguent|butter|melt|in all|altogether|total)\b", re.IGNORECASE)
STRONGEST = 96.0  # percent: no spirit on a shelf is stronger
MOST_BOTTLES = 1000.0
LEAST_VESSEL = 5.0  # mL or g: no bare number below this is a bottle or a batch
DEAREST = 5.0  # a bare figure below this may be a price of a mL


LONGEST_GAP = 5  # characters between "the rest" and its ratio: "the rest at 1:5"


def settle_in_recipe(said: list[Said], loose: list[Loose], work: Work) -> None:
    """Give each figure of the sentence its ingredient or its place in the whole. Changes both lists in place."""
    _all_of_them(said, loose, work)
    counted_again(said, loose, work)
    here = [_told(s, loose, work) for s in said]
    said[:] = [s for s in here if s is not None]
    for figure in list(loose):
        named = _loose(figure, said, work)
        if named is not None:
            loose.remove(figure)
            said.extend(named)
    for i, s in enumerate(said):
        if s.quantity == "volume" and key_for("poured", s.member) in work.facts:
            said[i] = renamed(s, "poured", s.member)  # a fixed amount beside parts stays one


ALL_BEFORE = looked_for(r"\ball (?:of the |the )?$", re.IGNORECASE)


def _all_of_them(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "All three per dose": how many ingredients there are, and no figure of any. Changes both lists."""
    figures: list[Said | Loose] = [*said, *loose]
    for figure in [f for f in figures if f.value == len(work.members) and not f.said_unit and ALL_BEFORE.search(work.reading.heard[: f.start])]:
        forget(figure, said, loose)
        work.refer(figure)


def _told(s: Said, loose: list[Loose], work: Work) -> Said | None:
    if s.member:
        return s
    heard, frames = work.reading.heard, work.frames
    member = member_beside(s.start, s.end, work.reading, work.members)
    if not member and s.quantity in ("spirit_price", "herb_price"):
        member = _priced(s, work)
    if s.quantity in SOME_LIQUID or (s.quantity == "dose" and member and s.weak):
        return _liquid(s, member, work)
    if s.quantity in SOME_WEIGHT or (s.quantity == "per_cup" and member and is_left(s.start, s.end, heard)):
        if member and ((s.quantity == "batch" and not s.weak and _has_its_share(member, work)) or (frames & WEIGHED and _ahead_of_parts(s, work))):
            return s
        if member:
            return renamed(s, "have_weight" if is_left(s.start, s.end, heard) and work.determined else "weight", member)
        return renamed(s, "batch") if frames & WEIGHED else s
    if s.quantity == "eo_share" and not s.weak and "essential" in frames:
        return s  # "1 % lavender oil in it": no share of the oil that is there
    if s.quantity in SOME_STRENGTH and not (s.quantity in ("water_content", "fill", "margin") and OWN_WORDS.search(clause_of(s.start, s.end, heard))):
        return _strength(s, member, loose, work)
    if frames & {"cost", "bought"} and member and s.quantity in ("held_per_gram", "herb_room", "herb_price", "spirit_price"):
        return renamed(s, "price_of", member)
    if s.quantity == "ratio" and frames & LIQUID and (member or ALL.search(clause_of(s.start, s.end, heard)) or OTHERS.search(_between_joins(s, heard))):
        owners = [member] if member else _the_others(work) if OTHERS.search(_between_joins(s, heard)) else list(work.members)
        loose.extend(Loose("as said", s.value, "ratio_of", s.start, s.end, m) for m in owners[1:])  # "all 1:2 extracts"
        asked = work.reading.asked
        asked[:] = [a for a in asked if not s.start - LONGEST_GAP <= a.end <= s.start]  # "the rest 1:5" asks for no rest
        return renamed(s, "ratio_of", owners[0])
    if s.quantity == "ratio" and "salve" in frames and len(work.members) == 2:
        wax, oil = _wax_first(work.members)
        loose.append(Loose("as said", s.value, "part", s.start, s.end, oil))
        return renamed(s, "part", wax, 1.0)
    return s


def _strength(s: Said, member: str, loose: list[Loose], work: Work) -> Said | None:
    heard = work.reading.heard
    if work.frames & LIQUID and any(AIMED.search(heard[a.end() : s.start]) for a in ASKS.finditer(heard[: s.start])):
        member = ""  # "how much decoction at most to keep it at 28": what the whole is to have
    if member and is_left(s.start, s.end, heard) and not s.said_unit and not PERCENT.search(heard[s.start : s.end + 12]):
        loose.append(Loose("#", s.value, "", s.start, s.end, heard[s.start : s.end], s.words))  # "ginkgo down to 60": what there is of it
        return None
    if member:
        by_share = work.has("share") and not work.has("strength_of")
        return renamed(s, "share" if by_share or is_share(s.start, s.end, heard) else "strength_of", member)
    if not work.frames & LIQUID:
        return s
    if ALL.search(clause_of(s.start, s.end, heard)) and not re.search(r"all (?:together|in)|in all", heard, re.IGNORECASE):
        loose.extend(Loose("as said", s.value, "strength_of", s.start, s.end, m) for m in work.members[1:])  # "all at 45 %"
        return renamed(s, "strength_of", work.members[0])
    if not s.said_unit and not PERCENT.search(heard[s.start : s.end + 12]) and not work.has("strength_of"):
        loose.append(Loose("#", s.value, "", s.start, s.end, heard[s.start : s.end], s.words))  # "cost of the 100?": no strength is in play
        return None
    return renamed(s, "blend_strength")


OF_EQUALS = looked_for(r"^\s*(?:bottle|blend|mix|batch|formula)?\s*(?:of|with|from|made of|made from)\s+(?:equal|even|equally)\b", re.IGNORECASE)


OF_ALL = looked_for(r"\s*(?:of|from|:|,|=|-|in all|total|altogether)?\s*(?:of|:|,)?\s*(?:the |a )?", re.IGNORECASE)


def _ahead_of_parts(s: Said, work: Work) -> bool:
    """ "500 mL of valerian 1 part, hops 1 part": ahead of lines that each have their parts stands the whole."""
    lines = work.reading.ingredients
    if is_left(s.start, s.end, work.reading.heard):
        return False  # "only 60 g thyme left, the tea is 1 thyme 2 linden"
    if len(lines) < 2 or not all("part" in {q for q, *_ in line.figures} for line in lines):
        return False
    places = [line.start for line in lines] + [m.start for m in work.reading.mentions if called(m.name, [line.name for line in lines])]
    return min(places) >= s.end and OF_ALL.fullmatch(work.reading.heard[s.end : min(places)]) is not None


def _liquid(s: Said, member: str, work: Work) -> Said | None:
    heard = work.reading.heard
    if s.weak and any(base(k) == "volume" and f.value == s.value for k, f in work.facts.items()) and THE.search(heard[: s.start]):
        work.refer(s)  # "how much could the 320 mL take"
        return None
    if s.quantity == "eo_base" and not s.weak:
        return s
    if s.quantity in SOME_LIQUID and work.frames & LIQUID and (OF_EQUALS.match(heard[s.end :]) or _ahead_of_parts(s, work)):
        return renamed(s, "blend")
    if member and s.quantity == "blend" and not s.weak and _has_its_share(member, work):
        return s  # "150 mL of nettle 35 %, dandelion 30, …": what it all comes to
    if member:
        return renamed(s, "have" if is_left(s.start, s.end, heard) and "salve" not in work.frames and not _only_that(s, work) else "volume", member)
    if s.quantity in ("water", "decoction", "liquid", "eo_base") and not s.weak:
        return s
    if "salve" in work.frames and s.weak and OF_THE_MELT.match(heard[s.end :]):
        return renamed(s, "batch_volume")
    if "bottle_size" in work.facts and "formula" in work.frames and not work.facts.keys() & {"blend", "bottles"} and ANOTHER_SIZE.search(heard[: s.start]):
        return renamed(s, "bottle_size")  # "too short, do a 200 mL": the one bottle that is filled
    return renamed(s, "blend") if work.frames & (LIQUID | {"written"}) else s


def _has_its_share(member: str, work: Work) -> bool:
    """Whether the sentence tells a percent of this ingredient in its list."""
    return any(called(g.name, [member]) and any(q == "share" for q, *_ in g.figures) for g in work.reading.ingredients)


def _priced(s: Said, work: Work) -> str:
    """ "Spirit's gone up to 22 a litre": the ingredient named last before the price, in its sentence."""
    heard = work.reading.heard
    before = [m for m in work.reading.mentions if m.end <= s.start and not re.search(r"[.;?!]\s", heard[m.end : s.start])]
    named = [(m.start, called(m.name, work.members)) for m in before]
    return max(named)[1] if named else ""


def _only_that(s: Said, work: Work) -> bool:
    """ "100 mL brandy only": in a mix that is all that goes in."""
    return "mix" in work.frames and ONLY.search(clause_of(s.start, s.end, work.reading.heard)) is not None


def _between_joins(s: Said, heard: str) -> str:
    """The words right before a figure, from the last "and" or mark on."""
    return re.split(r"[,;.]|\band\b", heard[: s.start])[-1]


def _the_others(work: Work) -> list[str]:
    """ "Eleuthero being 1:3 and the other two 1:5": the ingredients this sentence does not name."""
    lines = work.reading.ingredients
    mentions = [m for m in work.reading.mentions if not any(line.start <= m.start < line.end for line in lines)]  # behind the list that names them all
    named = {called(m.name, work.members) for m in mentions}
    return [m for m in work.members if m not in named] or list(work.members)


def _wax_first(members: Sequence[str]) -> list[str]:
    """ "1 to 5" in a salve is wax to oil, in whatever order they were named."""
    return sorted(members, key=lambda m: "wax" not in m)


def _loose(figure: Loose, said: list[Said], work: Work) -> list[Said] | None:
    """A figure that no phrase claimed; None where it finds no place here either."""
    heard, frames = work.reading.heard, work.frames
    if figure.kind == "as said":
        return [said_as(figure, figure.unit, figure.text)]
    many = times_as_many(figure, said, work)
    if many:
        return many
    if figure.kind in ("#", "mL", "g") and _is_the_sum(figure, work) and OUT_OF.search(heard[: figure.start]):
        work.refer(figure)  # "50 linden, 30 hawthorn, 20 rose per 100"
        return []
    bare = figure.kind in ("#", "n")
    member = member_beside(figure.start, figure.end, work.reading, work.members)
    if member and bare and ASKS.search(heard[: figure.start]):
        member = ""  # "which amount of decoction would have been right for 35": it is what is aimed at
    open_ = [w for w in work.wants if about(w) and (not member or about(w) == member)]
    if bare and open_:
        return [said_as(figure, base(open_[0]), about(open_[0]))]
    if figure.kind == ":" and "salve" in frames and len(work.members) == 2:
        wax, oil = _wax_first(work.members)
        return [said_as(figure, "part", wax, 1.0), said_as(figure, "part", oil)]
    if member:
        quantity = _of_member(figure, member, work)
        return [said_as(figure, quantity, member)] if quantity else None
    if bare:
        return _bare(figure, work)
    whole = {"mL": "blend", "%": "blend_strength"} if frames & LIQUID else {"g": "batch", "oz": "batch"} if frames & WEIGHED else {}
    return [said_as(figure, whole[figure.kind])] if figure.kind in whole else None


def _is_the_sum(figure: Loose, work: Work) -> bool:
    sums = [sum(f.value for k, f in work.facts.items() if base(k) == q) for q in ("part", "volume", "weight")]
    return any(total and abs(total - figure.value) < 1e-6 for total in sums)


def _of_member(figure: Loose, member: str, work: Work) -> str:
    left = is_left(figure.start, figure.end, work.reading.heard)
    match figure.kind:
        case "mL":
            return "have" if left and "salve" not in work.frames else "volume"
        case "g" | "oz":
            return "have_weight" if left and work.determined else "weight"
        case "%":
            return "share" if is_share(figure.start, figure.end, work.reading.heard) or key_for("share", member) in work.facts else "strength_of"
        case ":":
            return "ratio_of"
        case "part":
            return "part"
        case "per" | "money":
            return "price_of"
        case "#" | "n":
            own = _like_its_own(figure.value, member, work)
            if own == "part" and left and _is_another_part(figure, work):
                return "part"  # "sage down to 1": among parts as small, and nothing said of what there is
            if own == "part" and left and work.determined and work.frames & {"formula", "tea"}:  # "only 90 nettle left": so much, no other part
                return "have_weight" if "tea" in work.frames else "have"
            return (
                {"volume": "have", "weight": "have_weight", "once_volume": "have", "once_weight": "have_weight"}.get(own, own)
                if left and work.frames & {"formula", "tea"}
                else own
            )
    return ""


OF_WHAT_THERE_IS = looked_for(r"\b(?:left|short|have|has|got|i['’]?ve|shelf|stock|hand|runs?|running|ran|remain\w*|there|used|finished)\b", re.IGNORECASE)


def _is_another_part(figure: Loose, work: Work) -> bool:
    parts = [f.value for k, f in work.facts.items() if base(k) == "part"]
    said = OF_WHAT_THERE_IS.search(clause_of(figure.start, figure.end, work.reading.heard))
    return figure.value <= 2 * max(parts, default=0.0) and figure.kind == "#" and said is None and not work.has("have", "have_weight")


def _like_its_own(value: float, member: str, work: Work) -> str:
    """A bare number beside a name is most like the nearest of that ingredient's figures."""
    own = [(k, f.value) for k, f in work.facts.items() if about(k) == member and base(k) != "density_of"]
    if not own:
        return "part" if work.has("part") else ""
    if key_for("price_of", member) in work.facts and value < DEAREST:
        return "price_of"
    return base(min(own, key=lambda kv: abs(kv[1] - value) if kv[1] else float("inf"))[0])


WITH = looked_for(r"\bwith(?:\s+(?:only|just|about|say))*\s*$", re.IGNORECASE)


def _bare(figure: Loose, work: Work) -> list[Said] | None:
    """ "and for a 250?", "had I wanted 25": the whole's volume, or its strength."""
    facts, frames = work.facts, work.frames
    volumes = [f.value for k, f in facts.items() if base(k) == "volume"]
    if (volumes and abs(sum(volumes) - figure.value) < 1e-6) or ("blend" in facts and facts["blend"].value == figure.value):
        return [said_as(figure, "blend")]
    if "mix" in frames and len(volumes) == len(work.members) > 1 and WITH.search(work.reading.heard[: figure.start]) and figure.value > STRONGEST:
        return [said_as(figure, "volume", work.members[-1])]  # "mix 300 of 96 with 200 of 40", then "and with 300"
    if ("blend_strength" in facts and "bottle_size" not in facts) or ("mix" in frames and figure.value <= STRONGEST):
        return [said_as(figure, "blend_strength")]
    if frames & LIQUID and _counts_bottles(figure, work):
        return [said_as(figure, "bottles")]
    if frames & LIQUID and figure.value >= LEAST_VESSEL and not work.has("price_of"):
        return [said_as(figure, "bottle_size" if "bottle_size" in facts and not work.has("have") else "blend")]
    if frames & WEIGHED and figure.value >= LEAST_VESSEL and not facts.keys() & {"per_cup", "spoon"}:
        only = [k for k, f in facts.items() if base(k) in ("weight", "volume") and f.origin == "said"]
        if len(only) == 1 and "batch" not in facts and CORRECTS.match(work.reading.heard[: figure.start]):  # "16 oz oil, wax 1 to 5", "no, 12"
            number = figure.value if figure.number is None else figure.number
            size = size_said(facts[only[0]].said_unit, work.reading.measures)
            return [replace(said_as(figure, base(only[0]), about(only[0]), number * size), said_unit=facts[only[0]].said_unit)]
        return [said_as(figure, "batch")]
    return None


def _counts_bottles(figure: Loose, work: Work) -> bool:
    """ "Just 15?" of what the shelf fills, or of so many bottles: as many of them, where the number is no like of their size."""
    size, told = work.facts.get("bottle_size"), work.facts.get("bottles")
    if size is None or figure.value != round(figure.value) or not 0 < figure.value < MOST_BOTTLES:
        return False
    if told is None:
        return work.has("have") and figure.value < size.value
    return abs(math.log(figure.value / told.value)) < abs(math.log(figure.value / size.value)) if told.value > 1 else False


CORRECTS = looked_for(
    r"^\W*(?:(?:no|nope|sorry|actually|oops|wait|only|just|there['’]?s|it['’]?s|i['’]?ve|i|mean|make (?:it|that)|got|have|had|was|is)\b\W*)+$", re.IGNORECASE
)
