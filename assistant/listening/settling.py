"""What is left over once the phrases have spoken: bare numbers that stand beside a unit of their kind, and what a bare question means.

"Two hundred fresh lemon balm" are grams, "400 of 95" millilitres, "fresh nettle, 80 water" a water content; "how many?" beside jars asks for
jars, "what's left?" beside a loss in filtering asks what is left to bottle.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.pieces import Piece
from assistant.listening.statements import Asked, Reading, Reference, Said
from assistant.patterns import looked_for


def pour_bare_numbers(pieces: list[Piece]) -> list[Piece]:
    """A bare number "of water" beside a volume is a volume too: "200 ml of 95 with 100 of water"."""
    result = list(pieces)
    for i, piece in enumerate(pieces[:-2]):
        if piece.code != "<#>":
            continue
        behind = [p.code for p in pieces[i + 1 : i + 4]]
        behind = behind[1:] if behind[:1] == ["of"] else behind
        state = behind[:1] and behind[0] in ("fresh", "dried", "dry")
        led = pieces[i - 1].code if i else ""
        if (
            state
            and behind[1:2]
            and piece.item is not None
            and (piece.item.value or 0) >= 5
            and led not in ("at", "in", "<:>", "of", "from", "<mL>")
        ):
            result[i] = replace(piece, code="<g>", item=replace(piece.item, kind="amount", unit="g"))  # "two hundred fresh lemon balm"
    named = any(p.code in ("@", "fresh") for p in pieces)
    for i, piece in enumerate(result):
        if piece.item is None or piece.code not in ("<#>", "<n>"):
            continue
        number = piece.item.value or 0.0
        ahead = [p.code for p in result[i + 1 : i + 3]]
        led = result[i - 1].code if i else ""
        if piece.code == "<#>" and ahead == ["of", "<#>"] and number > 100 and (result[i + 2].item.value or 0) <= 100:  # type: ignore[union-attr]
            result[i] = replace(piece, code="<mL>", item=replace(piece.item, kind="amount", unit="mL"))  # "400 of 95"
        elif (
            piece.code == "<#>"
            and ahead[:1] == ["water"]
            and named
            and 20 <= number <= 95
            and led in (",", "at", "about", "is", "are", "@", "of", "its", "it's", "")
        ):
            result[i] = replace(piece, code="<%>", item=replace(piece.item, kind="percent", unit="percent"))  # "fresh nettle, 80 water"
        elif piece.code == "<n>" and led in ("my", "the") and piece.text.endswith("'s") and number <= 100:
            result[i] = replace(piece, code="<#>")  # "my 95's nearly gone"
    pieces = result
    if not any(p.code == "<mL>" for p in result):
        return result
    result = list(pieces)
    for i, piece in enumerate(pieces[:-2]):
        if piece.code == "<#>" and pieces[i + 1].code == "of" and pieces[i + 2].code in ("water", "h2o", "decoction") and piece.item is not None:
            result[i] = replace(piece, code="<mL>", item=replace(piece.item, kind="amount", unit="mL"))
    return result


def only_pours(tokens: list[str]) -> bool:
    """Whether nothing but spirit and water is spoken of: no plant, no part, nothing sweet, sour or fat."""
    bag = set(tokens)
    others = {"@", "<g>", "<part>", "<:>", "oil", "wax", "honey", "sugar", "vinegar", "glycerine", "glycerin", "syrup", "tincture", "tinctures", "parts"}
    return tokens.count("<mL>") >= 2 and bool(bag & {"water", "vodka", "brandy", "rum", "gin"}) and not bag & others


LEADS_TO_SPIRIT = frozenset("in at of using with from off out pouring poured pour straight neat".split())
LOST_IN_RACKING = frozenset({"rack_loss", "rack_lost"})
BEHIND_SPIRIT = frozenset("straight neat poured goes going spirit stock proof undiluted".split())


PRESSINGS = frozenset("pressing pressings pressed press maceration macerations run runs squeeze squeezing batch extraction".split())


def pool_pressings(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """ "First pressing gave 350, second 250, both go together": all that came out of the same herb is one liquid."""
    if not {"first", "second"} <= set(tokens) or not PRESSINGS & set(tokens):
        return
    first = next((i for i in range(tokens.index("first"), len(tokens)) if tokens[i] in ("<mL>", "<#>") and i not in taken), None)
    second = next((i for i in range(tokens.index("second"), len(tokens)) if tokens[i] in ("<mL>", "<#>") and i not in taken), None)
    if first is None or second is None or first == second:
        return
    one, two = pieces[first], pieces[second]
    if one.item is None or two.item is None or one.item.value is None or two.item.value is None:
        return
    taken.update((first, second))
    taken.update(i for i, t in enumerate(tokens) if t == "<times>")
    reading.said.append(Said("all_out", one.item.value + two.item.value, one.start, one.end))
    reading.references.append(Reference("reference", two.start, two.end, two.item.value))
    reading.references += [Reference("reference", p.start, p.end) for p in pieces if p.code == "<times>"]
    reading.tags.add("double")


MELTS = frozenset("oil wax beeswax shea lanolin butter cocoa coconut".split())
LIGHTEST, HEAVIEST = 0.5, 2.0  # g/mL: between them lies every oil, wax and honey


def read_densities(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """ "The oil weighs 0.915 and the wax 0.96 g per mL": what each part of a melt weighs."""
    if not {"weighs", "weigh", "density"} & set(tokens) or "salve" not in reading.frames:
        return
    for i, token in enumerate(tokens):
        item = pieces[i].item
        if token not in ("<#>", "<g/mL>", "<per>") or i in taken or item is None or item.value is None or not LIGHTEST < item.value < HEAVIEST:
            continue
        if token == "<#>" and item.value % 1 == 0:
            continue  # "wax 1 oil 4, what do I weigh out?": a whole number is a part
        name = next((tokens[k] for k in range(i - 1, max(-1, i - 5), -1) if tokens[k] in MELTS), "")
        if name:
            taken.add(i)
            reading.said.append(Said("density_of", item.value, pieces[i].start, pieces[i].end, name))


def place_bare_strengths(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """A bare number left over in a sentence about a plant, behind "in", "at" or "of": the strength poured, or the stock's if that is said."""
    said = {s.quantity: s for s in reading.said}
    about_a_plant = said.keys() & {"herb", "ratio", "water_content", "pressed"} or any(a.quantity == "finished_strength" for a in reading.asked)
    if not about_a_plant or reading.ingredients or reading.liquids:
        return
    for i, token in enumerate(tokens):
        item = pieces[i].item
        if token != "<#>" or i in taken or item is None or item.value is None or not 15 <= item.value <= 100:
            continue
        ahead = tokens[i + 1 : i + 4]
        led = tokens[i - 1] if i else ""
        behind_ratio = led == "<:>" and (not ahead or ahead[0] in (",", ".", ";", "?", "from", "<%>"))  # "at 1:2 60, got 740"
        if led not in LEADS_TO_SPIRIT and not behind_ratio and not (ahead and (ahead[0] in BEHIND_SPIRIT or ahead[:3] == ["on", "the", "shelf"])):
            continue
        strength, stock = said.get("strength"), said.get("stock_strength")
        name = (
            "" if strength and stock else "stock_strength" if strength or led in ("from", "off", "out") or "shelf" in ahead or "stock" in ahead else "strength"
        )
        if not name or (stock and item.value > stock.value) or (strength and item.value < strength.value):
            continue
        taken.add(i)
        reading.said.append(
            Said(name, item.value, pieces[i].start, pieces[i].end, words=frozenset(t for t in tokens[max(0, i - 4) : i + 4] if t.isalpha() and len(t) > 3))
        )
        said[name] = reading.said[-1]


REST_DRIED = looked_for(r"\b(?:rest|remainder|left ?overs?|surplus)\b[^?.]{0,30}\b(?:dry|dries|dried)\b", re.IGNORECASE)
POUR_AT = looked_for(r"\bwhat (?:strength )?(?:do|should|must|would|did) (?:i|we|she|he|they) pour (?:it |on )?at\b", re.IGNORECASE)


POURED_AT = looked_for(r"\b(?:dried|dry)\s+(?:\w+\s+)?(?:at|in)\s*$", re.IGNORECASE)
DRIEST, WETTEST = 25.0, 96.0  # percent: above the first no dried herb keeps, above the second no spirit is


def poured_at(reading: Reading) -> None:
    """ "1:5 dried at 60 %": beside a ratio, and wetter than any dried herb keeps, that is the strength poured. Changes the reading."""
    told = {s.quantity for s in reading.said}
    if "dried_water" not in told or not told & {"ratio", "menstruum", "dry_ratio"} or told & {"strength", "finished_strength"}:
        return
    for i, s in enumerate(reading.said):
        if s.quantity == "dried_water" and DRIEST <= s.value <= WETTEST and POURED_AT.search(reading.heard[: s.start]):
            reading.said[i] = replace(s, quantity="strength")
            reading.tags.add("dried")


RATHER_HONEY = looked_for(
    r"\bhoney (?:rather|instead|and not|not)\b[^.;?]{0,20}\bsugar\b|\bhoney than sugar\b"
    r"|\b(?:instead of|rather than|in place of|no) (?:the )?sugar\b",
    re.IGNORECASE,
)
SELDOM = 0.1  # times a day: what comes once a fortnight or once a month is no dose beside one of every day
ONE_TO = looked_for(r"^\s*(?:1|one)\s*(?::|/|to)", re.IGNORECASE)
DRY_MATTER_OF = looked_for(r"^\W*(?:(?:what['’]?s?|is|the|and|so|how|much)\W+)*dry matter\W+(?:is |are )?(?:there )?(?:of|in)\W+(?:a\W+)?$", re.IGNORECASE)
OTHER_VOLUMES = frozenset({"herb", "menstruum", "stock", "pressed", "bottles", "spirit_in_hand", "blend", "dose"})
SPIRIT_NAMED = looked_for(r"\b(?:gin|vodka|brandy|rum|whisk(?:e)?y|spirit|everclear)\b", re.IGNORECASE)
HOW_MANY_OF = looked_for(r"\bhow (?:many|much) (?:g |grams of |of )?(?!bottles?\b|ml\b|spirit\b|water\b)[a-z]+\W*$", re.IGNORECASE)
ALCOHOL_IN_IT = looked_for(r"\bwhat['’]?s the (?:alcohol|ethanol)\b|\bhow much (?:alcohol|ethanol) (?:is|was|are)\b", re.IGNORECASE)
IN_THE_JAR = looked_for(r"^\s*(?:%|percent)?\s*(?:once )?in (?:the|my) (?:jar|end)\b", re.IGNORECASE)
BOTTLES_BEHIND = looked_for(r"^\s*(?:of )?(?:\w+ )?bottles?\b", re.IGNORECASE)


def _of_a_jar(reading: Reading, said: set[str]) -> None:
    """Figures that other words of the sentence make something else of. Changes the reading."""
    asks_plant = "bottle_size" in said and (any(a.quantity == "herb" for a in reading.asked) or HOW_MANY_OF.search(reading.heard) is not None)
    for i, s in enumerate(reading.said):
        text, before, behind = reading.heard[s.start : s.end], reading.heard[: s.start], reading.heard[s.end :]
        if s.quantity == "drying_ratio" and said & {"strength", "water_content", "stock_strength"} and "dried" not in said and ONE_TO.match(text):
            reading.said[i] = replace(s, quantity="ratio")  # "80 % water. dry them, or fresh 1:2 at 95": its water tells how it dries
        elif s.quantity == "dry_matter" and "water_content" in said and "herb" not in said and not reading.asked and DRY_MATTER_OF.match(before):
            reading.said[i] = replace(s, quantity="herb")  # "dry matter of 400 g at 82 % water"
            reading.asked.append(Asked("dry_matter", 0, s.start))
            reading.tags.add("fresh")
        elif s.quantity == "strength" and "finished_strength" not in said and "herb" in said and IN_THE_JAR.match(behind):
            reading.said[i] = replace(s, quantity="finished_strength", weak=False)  # "want 600 mL at 45 in the jar"
        elif s.quantity == "bottle_size" and "ratio" in said and not said & OTHER_VOLUMES and asks_plant and SPIRIT_NAMED.search(reading.heard):
            reading.said[i] = replace(s, quantity="spirit_in_hand", weak=False)  # "700 mL bottle of gin at 37.5, 1:4 on sloes, how many sloes"
        elif s.quantity == "menstruum" and BOTTLES_BEHIND.match(behind) and any(a.quantity == "stock_bottles" for a in reading.asked):
            reading.said[i] = replace(s, quantity="stock_bottle", weak=False)  # "in 70 cl brandy bottles, how many bottles of brandy"


HAVE_TO = looked_for(r"^(?:what|how much)\W+(?:do|will|would|should|did)\W+(?:i|we)\W+have\W+to\b", re.IGNORECASE)


def imply(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """What a bare "how many?" or "what's left?" means, and what is bottled, by what else the sentence says."""
    said = {s.quantity for s in reading.said}
    bag = set(tokens)
    if "bottle_size" in said and not said & {"pressed", "strength", "ratio", "herb", "stock_strength", "blend"} and not reading.liquids:
        reading.said = [replace(s, quantity="pressed", weak=False) if s.quantity == "menstruum" else s for s in reading.said]
    if said & LOST_IN_RACKING and "menstruum" in said and not said & {"pressed", "herb", "ratio"}:
        reading.said = [replace(s, quantity="pressed", weak=False) if s.quantity == "menstruum" else s for s in reading.said]  # "lost 8 % filtering 1.4 L"
    if "jar_size" in said and "pressed" in said and not said & {"herb", "ratio", "bottle_size", "menstruum"} and {"many", "jars"} <= bag:
        reading.said = [replace(s, quantity="menstruum", weak=False) if s.quantity == "pressed" else s for s in reading.said]  # "1750 ml finished"
    if "jar_size" in said and "bottle_size" not in said and not reading.asked and ("many" in bag or not said & {"herb", "ratio"}) and "menstruum" in said:
        reading.asked.append(Asked("jars", 0, 0))
    if (
        reading.tags & {"fresh"}
        and "strength" in said
        and any(a.quantity == "water" for a in reading.asked)
        and not said & {"menstruum", "ratio", "stock_strength", "water_content", "finished_strength"}
    ):
        reading.said = [replace(s, quantity="water_content") if s.quantity == "strength" else s for s in reading.said]
        reading.asked = [replace(a, quantity="plant_water") if a.quantity == "water" else a for a in reading.asked]
    for i, token in enumerate(tokens):
        if (
            token in ("g/ml", "<g/mL>")
            and i not in taken
            and not any(c.isdigit() for c in pieces[i].text)
            and not any(a.quantity == "herb_per_ml" for a in reading.asked)
        ):
            taken.add(i)
            reading.asked.append(Asked("herb_per_ml", pieces[i].start, pieces[i].end))
    if (
        bag & {"fit", "fits"}
        and bag & {"jar", "jars", "crock", "kilner", "em", "them", "vessel", "litre"}
        and "herb" in said
        and not any(a.quantity == "contents" for a in reading.asked)
    ):
        reading.asked.append(Asked("contents", 0, 0))
    if said & {"held_back", "pressed"} and "held_per_gram" not in said:
        for i, token in enumerate(tokens):
            item = pieces[i].item
            if token == "<g>" and i not in taken and item is not None and item.value == 1 and bag & {"how", "what", "whats", "what's"}:
                taken.add(i)
                reading.references.append(Reference("reference", pieces[i].start, pieces[i].end, 1.0))
                reading.asked.insert(0, Asked("held_per_gram", pieces[i].start, pieces[i].end))
    if not any(a.quantity == "stock_bottles" for a in reading.asked):  # "it's in 60 mL bottles": what it is filled into, unless it is opened
        reading.said = [replace(s, quantity="bottle_size") if s.quantity == "stock_bottle" else s for s in reading.said]
    asked_now = {a.quantity for a in reading.asked}
    if REST_DRIED.search(reading.heard) and asked_now & {"dried", "herb_left", "left_dried"}:
        reading.asked = [Asked("left_dried", 0, 0), *(a for a in reading.asked if a.quantity not in ("dried", "left_dried"))]
    if POUR_AT.search(reading.heard):
        reading.asked = [a for a in reading.asked if a.quantity != "menstruum"]  # "what do I pour at to finish at 60": how strong, not how much
    asked = {a.quantity for a in reading.asked}
    _of_a_jar(reading, said)
    if asked >= {"honey", "sugar"} and RATHER_HONEY.search(reading.heard):
        reading.asked = [a for a in reading.asked if a.quantity != "sugar"]
        asked = asked - {"sugar"}
    if "decoction" in reading.frames and {"herb", "ratio"} <= said and "boiled_to" in asked and not said & {"boiled_from", "boiled_to", "menstruum"}:
        reading.asked = [replace(a, quantity="menstruum") if a.quantity == "boiled_to" else a for a in reading.asked]  # "1:20, how much water goes in the pot"
    often = [s for s in reading.said if s.quantity == "times_a_day"]
    if len(often) > 1 and min(s.value for s in often) < SELDOM < max(s.value for s in often):  # "4 mL twice a day … the post goes once a month"
        for s in [s for s in often if s.value < SELDOM]:
            reading.only_points(s, "time")
    reading.asked = [a for a in reading.asked if a.quantity != "pressed" or not HAVE_TO.match(reading.heard[a.start :])]
    if "plant_water" in asked and {"finished_strength", "ratio"} <= said and not said & {"herb", "water_content"}:  # no weight told: how wet it was
        reading.asked = [Asked("water_content", a.start, a.end) for a in reading.asked if a.quantity == "plant_water"]
        reading.tags.add("fresh")
        asked = {"water_content"}
    if asked & {"stock", "menstruum"} and {"menstruum", "strength"} <= said and "stock_strength" not in said and ALCOHOL_IN_IT.search(reading.heard):
        reading.asked = [replace(a, quantity="alcohol") if a.quantity in ("stock", "menstruum") else a for a in reading.asked]
        asked = asked - {"stock", "menstruum"} | {"alcohol"}
    if "keeping_spirit" in asked:
        reading.let_go("book_keep")  # "how much brandy to keep it": on the shelf, not in the book

    def instead(*quantities: str, of: frozenset[str]) -> None:
        reading.asked = [*(Asked(q, 0, 0) for q in quantities if q not in asked), *(a for a in reading.asked if a.quantity not in of)]

    if "cost" in bag and not asked and bag & {"what", "what's", "how", "whats"} and "cost" in reading.frames:
        instead("bottle_cost", of=frozenset())
    if any(a.quantity == "bottle_cost" for a in reading.asked):  # "what's one bottle cost me": the one of the question fills none
        for one in [s for s in reading.said if s.quantity == "bottles" and s.value == 1 and reading.heard[s.start : s.end].lower() in ("one", "1", "a")]:
            reading.only_points(one)
    if "rest" in asked and any(q == "rest" for i in reading.ingredients for q, *_ in i.figures):
        instead(of=frozenset({"rest", "spare", "herb_left"}))  # the rest of the bottle was given away, not asked for
    if bag & {"alcohol", "ethanol", "purealcohol"} and asked & {"alcohol_per_day", "alcohol_ml_per_day"}:
        instead(of=frozenset({"herb_per_ml", "strength"}))
    if bag & {"alcohol", "ethanol", "purealcohol"} and "alcohol_per_dose" in asked:
        instead(of=frozenset({"herb_per_ml", "herb_per_dose", "strength"}))
    if bag & {"alcohol", "ethanol", "purealcohol"} and "daily" in asked and "supply" not in asked:
        by_volume = bag & {"ml", "mls", "mL", "millilitres"}
        instead("alcohol_ml_per_day" if by_volume else "alcohol_per_day", of=frozenset({"daily", "alcohol", "strength", "alcohol_per_dose", "herb_per_ml"}))
    if {"herb", "dried"} <= said and bag & {"lose", "lost", "loss", "loses", "shed"}:
        instead("drying_loss", of=frozenset({"strength", "held_back", "water_lost", "yield_share", "ratio"}))
    if "dried" in said and "herb" not in said and bag & {"pick", "gather", "harvest", "cut"} and "?" in tokens and not asked & {"to_gather", "herb"}:
        instead("to_gather", of=frozenset())
    if {"gross", "tare"} <= said and not said & {"ratio", "menstruum"} and asked & {"menstruum", "pressed", "held_back", "ratio"}:
        instead("picked", of=frozenset({"menstruum", "pressed", "held_back", "ratio"}))
    if "bottle_size" in said and asked & {"held_back", "herb_left", "spare"}:
        instead("bottles", "rest", of=frozenset({"held_back", "herb_left", "spare"}))
    if "wilted" in said and not said & {"ratio", "menstruum"} and "?" in tokens and not asked:
        instead("wilted_water", of=frozenset())
    if "finished_strength" in said and not said & {"strength", "menstruum"} and "menstruum" in asked and "ratio" in said and "much" not in bag:
        instead("strength", of=frozenset({"menstruum"}))
    if "jar_size" in said and "herb" in said and "into" in bag and bag & {"can", "will", "does", "would", "do"} and not asked:
        instead("contents", of=frozenset())
    if said & LOST_IN_RACKING and "bottle_size" not in said and bag & {"left", "after", "bottle", "remains", "much"}:
        reading.asked = [a for a in reading.asked if a.quantity not in ("held_back", "rest", "pressed", "herb_left")]
        reading.asked.append(Asked("racked", 0, 0))


def from_a_spirit(pieces: list[Piece], tokens: list[str], reading: Reading) -> None:
    """ "And from the 40 % vodka?": the one strength of a sentence, behind "from", is that of the spirit one starts with."""
    strengths = [s for s in reading.said if s.quantity == "strength"]
    if len(strengths) != 1 or {s.quantity for s in reading.said} & {"stock_strength", "herb", "ratio", "menstruum", "finished_strength"} or "to" in tokens:
        return
    at = next((i for i, p in enumerate(pieces) if p.start == strengths[0].start), 0)
    led = [t for t in tokens[max(0, at - 3) : at] if t not in ("the", "a", "my", "our", "that", "this", "some")]
    if led[-1:] == ["from"]:
        reading.said[:] = [replace(s, quantity="stock_strength", weak=False) if s is strengths[0] else s for s in reading.said]
