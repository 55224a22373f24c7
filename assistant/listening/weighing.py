"""Two weights in one sentence: which is which is told by the words of each clause.

On the scale and the empty bag ("1.35 kg basket and all, basket 420": the heavier is with the bag); as planned and as it turned out
("meant to get 8 oz, ended up with 11"); fresh and dried ("840 g of fresh tulsi, dried it weighs 140"). A bare number beside a weight is in
the unit of its fellow.
"""

from __future__ import annotations

from assistant.listening.gathering import BRINGS, GATHER
from assistant.listening.pieces import Piece
from assistant.listening.statements import Asked, Reading, Reference, Said

BAGS = frozenset("bag basket tub bowl box sack tray container bucket pail punnet crate colander trug paper tare".split())
SCALE = frozenset("gross tare scale scales net".split())
PLANNED = frozenset("needed wanted planned planed plan planning meant intended reckoned expecting expected supposed budgeted gonna recipe".split())
LACKING = frozenset("more short missing lacking still left".split())  # "need 2 kg, have 1.3, how much short am I": a need is a plan too
NEEDS = frozenset("need needs want wants".split())
IN_HAND = frozenset(
    """got came come home dug picked have had brought ended gathered found
    turned gave only hand cut lifted collected thought today ive i've now""".split()
)
DRYING = frozenset("rack racks hung hang crisp drier dehydrator loft dries drying dry dried dries dryed loses".split())
FRESH = frozenset("fresh wet undried raw".split())
ASKS = frozenset("how what what's whats which what'll whatll".split())
OTHER_WORK = frozenset("<cup> cup cups vs versus against compare equivalent wax salve oil honey sugar syrup tea blend dose <parts> <part> <x>".split())
OF_SPIRIT = frozenset("spirit vodka brandy alcohol stock menstruum proof tincture dilute cut <:> <mL>".split())
STOPS = frozenset(", . ; ? ! but and n so : (".split())
LEAST = 5.0


def read_weights(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """Give two weights of a sentence their places; does nothing where the words do not tell them apart."""
    bag = set(tokens)
    if reading.ingredients or reading.liquids or (bag & OTHER_WORK and not _lacks(tokens)) or len({p.name for p in pieces if p.code == "@"}) > 1:
        return
    places = [i for i, t in enumerate(tokens) if t in ("<g>", "<oz>") and i not in taken]
    asked_of = {_number(pieces[i + 2]) for i in range(len(tokens) - 2) if tokens[i : i + 3] in (["how", "much", "<#>"], ["how", "much", "<%>"])}
    bare = [i for i, t in enumerate(tokens) if t == "<#>" and i not in taken and _number(pieces[i]) >= LEAST and not _belongs_elsewhere(tokens, i)]
    bare = [i for i in bare if _number(pieces[i]) not in asked_of]  # "only got 95 here. how much 95?"
    places = [p for p in places if not _in_each_bag(tokens, p)]
    if _plan_word(tokens):
        _planned(pieces, tokens, taken, reading, places, bare)
    elif bag & BAGS and not _filled_bags(tokens) and "carried" not in reading.frames:
        _bagged(pieces, tokens, taken, reading, places + bare)
    if (bag & DRYING or ("down" in bag and ("<:>" in bag or bag & (FRESH | {"water"})))) and not bag & PLANNED - {"needed", "wanted"}:
        _dried(pieces, tokens, taken, reading, [p for p in places if p not in taken], [b for b in bare if b not in taken])


def _belongs_elsewhere(tokens: list[str], at: int) -> bool:
    """A bare number that the words beside it make a strength, a share or a count."""
    before, behind = tokens[max(0, at - 1) : at], tokens[at + 1 : at + 2]
    other = {"%", "percent", "water", "plants", "bottles", "jars", "spirit", "proof", "times", "vodka", "moisture", "stems", "ml"}
    if before == ["in"] and set(tokens[max(0, at - 2) : at - 1]) & {"brought", "bring", "bringing", "came", "carried", "fetched"}:
        before = []  # "only brought in 370"
    led = {"<:>", "at", "in", "<mL>", "spirit", "vodka", "alcohol", "stock"}
    return bool(set(behind) & other or set(before) & led or (before == ["from"] and "<:>" in tokens))


def _number(piece: Piece) -> float:
    return piece.item.value or 0.0 if piece.item is not None else 0.0


def _value(pieces: list[Piece], at: int, fellow: int | None) -> float:
    item = pieces[at].item
    assert item is not None
    assert item.value is not None
    if fellow is None or item.kind != "number":
        return item.value
    other = pieces[fellow].item
    if other is not None and other.said and other.value and other.said_unit not in ("kg", "kilo", "kilos", "kilogram", "kilograms", "g"):
        return item.value * other.value / other.said  # "8 oz … ended up with 11"
    return item.value


def _say(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, quantity: str, at: int, value: float) -> None:
    item = pieces[at].item
    taken.add(at)
    words = frozenset(t.rstrip("s") for t in tokens[max(0, at - 4) : at + 4] if t.isalpha() and len(t) > 3)
    scale = value / item.value if item is not None and item.value else 1.0
    low, high = (None, None) if item is None or item.low is None or item.high is None else (item.low * scale, item.high * scale)
    reading.said.append(Said(quantity, value, pieces[at].start, pieces[at].end, said_unit=item.said_unit if item else "", low=low, high=high, words=words))


# ── the bag ──────────────────────────────────────────────────────────────────────────────────────────────────────────────


def _bagged(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, places: list[int]) -> None:
    weights = sorted(p for p in places if not set(tokens[p + 1 : p + 3]) & {"clean", "trimmed"})
    if len(weights) != 2:
        return
    first = next((p for p in weights if tokens[p] != "<#>"), None)
    values = {p: _value(pieces, p, first) for p in weights}
    light, heavy = sorted(weights, key=lambda p: values[p])
    named = [p for p in weights if _is_the_bag(tokens, p)]
    if values[light] == values[heavy] or not any(_names_the_bag(tokens, p) for p in weights):
        return
    if named == [heavy]:
        light, heavy = heavy, light  # said outright: the bag weighs more than the whole, and the figures are refused
    _say(pieces, tokens, taken, reading, "gross", heavy, values[heavy])
    _say(pieces, tokens, taken, reading, "tare", light, values[light])


def _filled_bags(tokens: list[str]) -> bool:
    """ "12 g per bag, how many bags": bags that are filled, and no empty one on the scale."""
    counted = any(tokens[i : i + 3] in (["how", "many", "bags"], ["how", "many", "packets"]) for i in range(len(tokens)))
    return counted or any(t == "<g>" and _in_each_bag(tokens, i) for i, t in enumerate(tokens))


def _in_each_bag(tokens: list[str], at: int) -> bool:
    """Whether a weight is what one bag is filled with: "12 g per bag", "15 g bags"."""
    behind = [t for t in tokens[at + 1 : at + 5] if t not in ("per", "a", "each", "to", "in", "the", "for")]
    led = tokens[at + 1 : at + 2] in (["per"], ["a"], ["each"], ["to"], ["in"], ["for"])
    if behind[:1] in (["bags"], ["packets"], ["pouches"]):
        return True
    return led and behind[:1] in (["bag"], ["packet"], ["pouch"]) and tokens[at + 1 : at + 3] != ["in", "the"]


def _is_the_bag(tokens: list[str], at: int) -> bool:
    """Whether the words before a figure make it the empty bag's: "bag alone 38 g", "tare 130", "the bowl is 11 oz"."""
    look = at - 1
    words: list[str] = []
    while look >= 0 and len(words) < 5 and not tokens[look].startswith("<") and tokens[look] not in (",", ".", ";", "?", "n", "and", "but", ":"):
        words.append(tokens[look])
        look -= 1
    return bool(set(words) & BAGS) and not set(words) & {"full", "all", "gross", "loaded", "with", "in"}


def _names_the_bag(tokens: list[str], at: int) -> bool:
    return bool(set(tokens[max(0, at - 5) : at + 6]) & (BAGS | SCALE))


# ── the plan ─────────────────────────────────────────────────────────────────────────────────────────────────────────────


def _plan_word(tokens: list[str]) -> bool:
    line = " ".join(tokens) + " "
    return bool(set(tokens) & PLANNED or _lacks(tokens)) or any(
        w in line for w in ("instead of <", "rather than <", "was for <", "going to ", "was going ", "were going ", "not <g> ", "had mixed ", "short harvest")
    )


def _lacks(tokens: list[str]) -> bool:
    """Whether so much is needed, weighed, and what lacks to it is asked."""
    if not {"<g>", "<oz>"} & set(tokens):
        return False
    asks = next((i for i, t in enumerate(tokens) if t in ASKS), None)
    return asks is not None and bool(set(tokens[:asks]) & NEEDS) and bool(set(tokens[asks:]) & LACKING)


def _planned(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, places: list[int], bare: list[int]) -> None:
    weights = sorted(places + [b for b in bare if _in_hand(tokens, b) or _as_planned(tokens, b)])
    if len(weights) != 2:
        return
    plans = [w for w in weights if _as_planned(tokens, w)]
    if len(plans) != 1:
        return
    plan = plans[0]
    mine = weights[0] if plan == weights[1] else weights[1]
    first = next((p for p in weights if tokens[p] != "<#>"), None)
    _say(pieces, tokens, taken, reading, "planned_herb", plan, _value(pieces, plan, first))
    _say(pieces, tokens, taken, reading, "herb", mine, _value(pieces, mine, first))
    for i, t in enumerate(tokens):
        mixed = set(tokens[max(0, i - 3) : i]) & {"mixed", "made", "poured"} and tokens[i + 1 : i + 2] == ["for"]
        if t == "<mL>" and i not in taken and (mixed or "<:>" not in tokens) and (mixed or (0 < i - plan <= 4 and tokens[i - 1] in ("in", "with", "a", "of"))):
            item = pieces[i].item
            if item is not None and item.value is not None:
                _say(pieces, tokens, taken, reading, "planned_menstruum", i, item.value)
                return


def _as_planned(tokens: list[str], at: int) -> bool:
    look = at - 1
    while look >= 0 and at - look <= 8:
        word = tokens[look]
        if (word.startswith("<") and word != "<mL>") or word in (".", ";", "but"):
            return False
        if word in PLANNED or word == "mixed" or (word in NEEDS and _lacks(tokens)):
            return True
        if (word == "of" and tokens[look - 1] == "instead") or (word == "than" and tokens[look - 1] == "rather") or (word == "not" and look == at - 1):
            return True
        if word == "going" and tokens[max(0, look - 1) : look] in (["was"], ["were"]):
            return True
        if word in ("only", "got", "dug", "home", "came", "ended", "have"):
            return False
        look -= 1
    return _plan_behind(tokens, at)


def _plan_behind(tokens: list[str], at: int) -> bool:
    """ "1 kg of lemon balm was the plan": the word stands behind its figure, in the same clause."""
    for look in range(at + 1, min(len(tokens), at + 7)):
        if tokens[look] in (",", ".", ";", "but") or tokens[look].startswith("<"):
            return False
        if tokens[look] in ("plan", "planned", "planed"):
            return True
    return False


def _in_hand(tokens: list[str], at: int) -> bool:
    look = at - 1
    while look >= 0 and at - look <= 6 and not tokens[look].startswith("<"):
        if tokens[look] in IN_HAND:
            return True
        look -= 1
    held = tokens[at + 1 : at + 2] == ["in"] and bool(set(tokens[at + 2 : at + 4]) & BAGS)
    return bool(held or set(tokens[at + 1 : at + 3]) & {"turned", "came"} or tokens[at + 1 : at + 3] == ["is", "all"])


# ── fresh and dried ──────────────────────────────────────────────────────────────────────────────────────────────────────


def _dried(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, places: list[int], bare: list[int]) -> None:
    bag = set(tokens)
    drying = (
        _down_to(pieces, tokens, taken, reading)
        or (bag & FRESH and bag & (DRYING | {"down"}))
        or bag & {"dries", "drying", "hung", "crisp", "drier", "dehydrator"}
        or _dry_verb(tokens)
        or _so_much_to_so_much(tokens, places)
        or (bag & {"dried", "dry"} and "<%>" in bag and "water" in bag and "<mL>" not in bag and bag & (GATHER | {"picked", "bring", "carry", "dug", "dried"}))
    )
    if not drying or "<mL>" in bag:
        return
    ratios = [i for i, t in enumerate(tokens) if t == "<:>" and i not in taken]
    for i in ratios:
        first, last = i, i + 1
        while first > max(0, i - 5) and tokens[first - 1] not in (".", ";", "?"):
            first -= 1
        while last < min(len(tokens), i + 6) and tokens[last] not in (".", ";", "?"):
            last += 1
        near = set(tokens[first:last])
        item = pieces[i].item
        sides = item.alt if item is not None and isinstance(item.alt, tuple) else ()
        if (
            near & (DRYING | {"down"})
            and (near & {"dries", "drying", "loses"} or (near & FRESH and near & {"dry"}) or (len(sides) == 2 and sides[0] > sides[1]))
            and item is not None
            and min(sides or (0,)) > 0
        ):
            _say(pieces, tokens, taken, reading, "drying_ratio", i, max(sides) / min(sides))
        else:
            return  # a ratio of plant to menstruum: no sentence about drying alone
    for b in list(bare):  # "1.1 kg … at 60 % water goes down to 12": the water that is left, not grams
        number = pieces[b].item.value or 0.0  # type: ignore[union-attr]
        if number <= 30 and "water" in bag and tokens[b - 1 : b] == ["to"] and any((pieces[p].item.value or 0) > 5 * number for p in places):  # type: ignore[union-attr]
            _say(pieces, tokens, taken, reading, "dried_water", b, number)
            bare.remove(b)
    weights = sorted(places + [b for b in bare if _weighed(tokens, b)])
    if len(weights) > 2:
        return
    unit = next((p for p in weights if tokens[p] != "<#>"), None)
    states = {w: _state(tokens, w) for w in weights}
    if len(weights) == 2 and (len(set(states.values())) == 1 or _from_to(tokens, weights) or _so_much_to_so_much(tokens, weights)):
        heavy = max(weights, key=lambda w: _value(pieces, w, unit))
        states = {w: "herb" if w == heavy else "dried" for w in weights}
    wilted = bag & {"wilt", "wilted", "wilting"}
    if wilted:
        return
    asked = _asked_drying(tokens, set(states.values()))
    if not asked and not (len(weights) == 2 or ratios):
        return
    for w, state in states.items():
        _say(pieces, tokens, taken, reading, state, w, _value(pieces, w, unit))
    if weights:
        reading.in_state("fresh")
    for quantity, at in asked:
        if quantity not in {a.quantity for a in reading.asked}:
            reading.asked.append(Asked(quantity, pieces[at].start, pieces[at].end))
            reading.settled = True
        if quantity == "drying_ratio" and tokens[at + 1 : at + 4] == ["many", "to", "<#>"]:
            taken.add(at + 3)  # "how many to one"
            reading.references.append(Reference("reference", pieces[at + 3].start, pieces[at + 3].end))


def _so_much_to_so_much(tokens: list[str], weights: list[int]) -> bool:
    """ "Dried 1.2 kg of nettle to 300 g": the verb stands before both."""
    if len(weights) != 2:
        return False
    first, last = weights
    led = {"dried", "dry", "drying"} & set(tokens[max(0, first - 3) : first])
    ends = {"to", "into", "gave", "got", "yielded", "leaves", "left", "became"} & set(tokens[max(first, last - 3) : last])
    return bool(led and ends) and last - first <= 7


def _from_to(tokens: list[str], weights: list[int]) -> bool:
    """ "Dried down from 2.5 kg to 400 g": the heavier is the fresh one, whatever word stands nearer."""
    first, last = weights
    return tokens[first - 1 : first] == ["from"] and tokens[last - 1 : last] in (["to"], ["down"]) and last - first <= 6


def _down_to(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> bool:
    """ "850 g at 78 % water, want it down to 10 %": the lower of two percents is the water that is left, where no spirit is spoken of."""
    if "water" not in tokens or set(tokens) & OF_SPIRIT:
        return False
    percents = [i for i, t in enumerate(tokens) if t == "<%>" and i not in taken]
    left = [i for i in percents if tokens[max(0, i - 2) : i] == ["down", "to"]]
    if len(percents) != 2 or len(left) != 1:
        return False
    low, high = pieces[left[0]].item, pieces[next(i for i in percents if i != left[0])].item
    if low is None or high is None or low.value is None or high.value is None or low.value >= high.value:
        return False
    _say(pieces, tokens, taken, reading, "dried_water", left[0], low.value)
    return True


def _dry_verb(tokens: list[str]) -> bool:
    line = " " + " ".join(tokens) + " "
    told_to = tokens.index("dry") if "dry" in tokens[:3] else -1
    if told_to >= 0 and set(tokens[told_to + 1 : told_to + 3]) & {"<g>", "<oz>"} and "down" in tokens:
        return True  # "dry 3 kg nettles, down to what"
    return any(
        f" {v} " in line
        for v in (
            "dry to",
            "dry down",
            "dried down",
            "dried to",
            "dried from",
            "down from",
            "dry it",
            "weigh dry",
            "dry weight",
            "dried weight",
            "i dry",
            "will dry",
            "dry out",
            "it dry",
            "dries to",
            "dry off",
            "dry me",
            "dried grams",
            "came down to",
            "went down to",
        )
    )


def _weighed(tokens: list[str], at: int) -> bool:
    return bool(
        set(tokens[max(0, at - 4) : at]) & {"weighs", "weighed", "down", "to", "is", "was", "gives", "gave", "left"}
        or set(tokens[at + 1 : at + 3]) & (FRESH | {"dried", "dry", "crisp"})
        or tokens[at + 1 : at + 3] == ["came", "out"]
    ) and not (set(tokens[max(0, at - 2) : at]) & {"to"} and set(tokens[max(0, at - 5) : at]) & {"harder"})


def _state(tokens: list[str], at: int) -> str:
    """Fresh or dried: the nearest word of either kind, behind it first, then before it."""
    for look in range(at + 1, min(len(tokens), at + 5)):
        if tokens[look] in STOPS or tokens[look] in ASKS or tokens[look].startswith("<"):
            break
        if tokens[look] in FRESH:
            return "herb"
        if tokens[look] in ("dried", "dry") and tokens[look + 1 : look + 2] not in (["down"], ["to"], ["out"]):
            return "dried"
    for look in range(at - 1, max(-1, at - 7), -1):
        word = tokens[look]
        if word.startswith("<") or word in (".", ";"):
            break
        if word in ("dried", "dry", "dries", "dryed"):
            verb = word == "dry" and (
                tokens[max(0, look - 1) : look] in (["i"], ["we"], ["to"]) or tokens[look + 1 : look + 2] in (["me"], ["it"], ["out"], ["off"]) or look == 0
            )
            return "herb" if verb else "dried"
        if word in FRESH:
            return "herb"
    return "herb"


def _asked_drying(tokens: list[str], given: set[str]) -> list[tuple[str, int]]:
    """What a sentence about drying asks: the weight that is not given, the drying ratio, the water."""
    bag = set(tokens)
    asks = [i for i, t in enumerate(tokens) if t in ASKS or t == "?"]
    if asks and (bag & GATHER or any(set(b) <= bag for b in BRINGS)):
        return [("to_gather", asks[0])]
    if given == {"herb", "dried"}:
        ratio = next((i for i, t in enumerate(tokens) if t == "ratio" or tokens[i : i + 3] in (["how", "many", "to"], ["so", "many", "to"])), -1)
        if ratio >= 0 and "<:>" not in bag:
            return [("drying_ratio", ratio)]
        if "water" in bag and asks:
            at = tokens.index("water")
            what = set(tokens[max(0, at - 3) : at]) & (ASKS - {"how"}) and "much" not in bag  # "what's the water?"
            return [("water_content" if what or bag & {"content", "wet", "percent"} else "water_lost", at)]
        return []
    lost = {"lost", "lose", "loses", "off", "evaporates", "evaporate", "goes"}
    if "water" in bag and asks and any(tokens[i : i + 3] == ["how", "much", "water"] for i in range(len(tokens))) and bag & lost:
        return [("water_lost", tokens.index("water"))]
    if bag & {"matter", "solids"} or bag & {"pour", "menstruum", "ratio"}:
        return []
    if given == {"dried"} and (asks or bag & {"need", "weight"}):
        return [("herb", asks[0] if asks else len(tokens) - 1)]
    if given == {"herb"} and (asks or bag & {"weighs", "weight", "gives"}):
        return [("dried", asks[0] if asks else len(tokens) - 1)]
    return []
