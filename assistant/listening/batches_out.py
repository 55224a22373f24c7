"""So many batches out of what stands on the shelf: "1.4 L calendula oil, each batch of cream takes 120 mL, how many batches", "what's left over".

By volume or by weight; then "I want 16, how much short", "and at 100 mL each".
"""

from __future__ import annotations

from assistant.listening.statements import Asked, Loose, Reading, Said, forget
from assistant.patterns import looked_for

FRAME, WEIGHED = "batches", "batches_weighed"
THING = r"(?:batch(?:es)?|lots?|rounds?|recipes?|runs?|clients?|customers?|people|persons?|students?|goes)"
ONE = r"(?:each|every|a|an|one|per|the)"
TAKES = r"(?:takes?|taking|uses?|using|needs?|wants?|gets?|requires?|is|are|of|at|about|around|only|some|=|:)"
EACH_BEFORE = looked_for(
    rf"\b(?:{ONE}\s+{THING}|{THING}\s+(?:each|all)|per\s+{THING}|{THING}|each)\b(?:\s+of)?(?:\s+(?!(?:have|has|got|from|out)\b)[a-z']+){{0,4}}?"
    rf"\s+{TAKES}(?:\s+{TAKES})*\s*$", 2
)
EACH_BEHIND = looked_for(
    rf"^\s*(?:of it\s+)?(?:(?:for|to|in|into|goes into|a|an|per|/)\s*)+(?:{ONE}\s+)?{THING}\b|^\s*(?:each|apiece|a time|a go|every time)\b", 2
)
HOW_MANY = looked_for(
    rf"\bhow many\s+(?:(?:more|full|whole)\s+)?(?:{THING}\b|(?:can|could|does|do|is|will|would)\b(?![^?;.]*\b(?:bottles?|jars?|tins?|days|drops|ml)\b))", 2
)
BATCHES = looked_for(r"\bhow many\s+(?:batch|batches|lots|rounds)\b", 2)
LEFT = looked_for(r"\b(?:left|over|leftover|leftovers|remains?|remainder|spare|rest|surplus)\b", 2)
SHORT = looked_for(r"\b(?:short|lack|lacking|missing|shortfall|how much more|more (?:do|would|will) i need|enough)\b", 2)
ANOTHER = looked_for(
    r"^\W*(?:(?:and|n|so|or|but|what|about|if|at|for|with|i|we|want|wanted|need|make|makes|do|say|only|just|its|it|it's|each|one|takes|took|were|was|is|used"
    r"|use|actually|there|there's|i've|ive|have|got|found|more|like|to|a|the|that|make|in|them|then|instead|now|of|on|shelf)\W+)*"
    r"[\d.,]+ ?(?:ml|mls|l|litres?|liters?|g|grams?|kg|kilos?)?\W*"
    r"(?:(?:each|a|per|batch|batches|of|it|them|then|instead|though|on|the|shelf|left|there|actually|only|to)\W*)*$", 2
)
THERE = looked_for(r"\b(?:have|i've|ive|got|there's|there is|shelf|found|holds?|in stock|left|down to|actually)\b[^.;?]*$", 2)
THERE_BEHIND = looked_for(r"^\W*(?:ml|of it|of that|left)?\W*(?:there|on the shelf|in stock|left|in hand)\b", 2)
VOLUMES = frozenset("menstruum pressed spirit_in_hand stock syrup blend bottle_size dose in_jar eo_base liquid rest supply".split())
WEIGHTS = frozenset("herb batch picked dried gross menstruum_weight weight herb_per_dose to_gather".split())
OTHER = frozenset({"year", "kits", "orders", "sharing", "dose", "tea", "formula", "bottles", "press_day"})


def read_batches_out(reading: Reading, context: frozenset[str]) -> None:
    """Give the figures of such a sentence their places; elsewhere nothing is changed."""
    going_on = FRAME in context
    if reading.ingredients or reading.liquids or (reading.frames & OTHER and not going_on):
        return
    heard, figures = reading.heard, reading.figures
    amounts = [f for f in figures if _kind(f)]
    if any(not _kind(f) and not _is_count(f) for f in figures) or (len(figures) > 2 and not going_on):
        return
    each = [f for f in figures if _is_each(f, heard)]
    if len(figures) == 2 and HOW_MANY.search(heard):
        alike = len({_kind(f) for f in amounts}) == 1 and (len(amounts) == 2 or not going_on)  # "1.4 L, a batch takes 120": in the same unit
        if len(each) == 1 and alike:
            _placed(reading, figures, each, weighed=False, going_on=False)
        return
    if not going_on and len(figures) == len(each) == 1 and amounts and BATCHES.search(heard):
        _placed(reading, figures, each, weighed=False, going_on=False)  # out of what is in hand
        return
    asks = any(words.search(heard) for words in (HOW_MANY, LEFT, SHORT))
    act = reading.act("scale_n") or reading.act("for_jars")
    if going_on and not figures and act is not None and len(act.figures) == 1 and act.figures[0] == int(act.figures[0]):
        reading.loose.append(Loose("#", act.figures[0], "1", act.start, act.end, heard[act.start : act.end]))  # "10 batches, enough?"
        figures = reading.figures
    if going_on and len(figures) <= 1 and not reading.named and (figures or asks) and (asks or ANOTHER.match(heard) or each):
        _placed(reading, figures, each, weighed=WEIGHED in context, going_on=True)


def _is_count(figure: Said | Loose) -> bool:
    bare = figure.kind in ("#", "n") if isinstance(figure, Loose) else not figure.said_unit
    return bare and figure.value == int(figure.value)


def _kind(figure: Said | Loose) -> str:
    if isinstance(figure, Loose):
        return figure.kind if figure.kind in ("mL", "g") else ""
    return "mL" if figure.quantity in VOLUMES else "g" if figure.quantity in WEIGHTS else ""


def _is_each(figure: Said | Loose, heard: str) -> bool:
    return EACH_BEHIND.match(heard[figure.end :]) is not None or EACH_BEFORE.search(heard[: figure.start]) is not None


def _placed(reading: Reading, figures: list[Said | Loose], each: list[Said | Loose], weighed: bool, going_on: bool) -> None:
    heard = reading.heard
    ending = "_weight" if weighed or any(_kind(f) == "g" for f in figures) else ""
    asked = []
    for figure in figures:
        told = THERE.search(heard[: figure.start]) or THERE_BEHIND.match(heard[figure.end :])
        if figure in each:
            name = "each_batch" + ending
        elif not going_on or told is not None:
            name = "shelf_has" + ending
        else:
            name = ("each_batch" + ending) if _kind(figure) else "batches_meant"
        _take(reading, figure, name)
        if name == "batches_meant":
            asked.append("batches_lack" + ending)
    left = LEFT.search(heard)
    if left and not asked and not (figures and going_on):
        asked.append("batches_over" + ending)
    if HOW_MANY.search(heard) or not asked:
        asked.insert(0, "batches_out")
    if SHORT.search(heard) and "batches_lack" + ending not in asked:
        asked.append("batches_lack" + ending)
    reading.asked[:] = [Asked(name, 0, len(heard)) for name in asked]
    reading.let_go("scale_n", "scale", "for_jars", "whatif", "gap", "claim", "doubt", "in_unit", "check")
    reading.frames.clear()
    reading.frames |= {FRAME, WEIGHED} if ending else {FRAME}


def _take(reading: Reading, figure: Said | Loose, name: str) -> None:
    words = figure.words
    forget(figure, reading.said, reading.loose)
    reading.said.append(Said(name, figure.value, figure.start, figure.end, "", figure.said_unit, figure.low, figure.high, words=words))
