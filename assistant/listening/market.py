"""A day at the market told in any order: how many were taken, sold and brought home, at what price, what each cost, what the stall was.

"took 24 bottles at 12, sold 17, cost 4.20 each, stall 35". Which figure is which is told by the words beside it, up to the next comma or figure.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference, Said
from assistant.listening.token_row import clause_of

STALL = frozenset("stall pitch table rent booth".split())
MARKET = STALL | frozenset("market fair fete fayre".split())
COST = frozenset("cost costs costing".split())
MADE_FOR = (["to", "make"], ["make"], ["cost"], ["to", "fill"])
SOLD = frozenset("sold sell selling shifted".split())
WENT = frozenset("sold went gone shifted".split())
HOME = frozenset("home back unsold leftover".split())
PRICE = frozenset("at for priced price".split())
EACH = (["each"], ["apiece"], ["a", "bottle"], ["a", "go"], ["a", "piece"], ["a", "pop"], ["per", "bottle"])
TOOK = frozenset("took take taken had brought carried".split())
FIGURES = frozenset({"<#>", "<n>", "<money>"})
OTHER = frozenset("<g> <oz> <:> <%> <share> <x> <aday> <day> <drop> <per>".split())


def read_market(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> bool:
    """Give every figure of such a sentence its place; True where each had one. Elsewhere nothing is changed."""
    bag = set(tokens)
    if not bag & (SOLD | WENT | HOME) or bag & OTHER or bag & {"lines", "spirit"}:
        return False
    only_sold = not bag & (MARKET | COST)  # "we sold 30 bottles at 8 each": how many, at what price, and no more
    sizes = [i for i, t in enumerate(tokens) if t == "<mL>"]
    if len(sizes) > 1 or (only_sold and not bag & SOLD):
        return False
    places = [i for i, t in enumerate(tokens) if t in FIGURES and i not in taken]
    if len(places) < (2 if only_sold else 3):
        return False
    found: dict[str, int] = {}
    for i in places:
        name = _what(tokens, i, found)
        if not name or name in found:
            return False
        found[name] = i
    if not found.keys() & {"sold", "left_of_market"} or "selling_price" not in found:
        return False
    if not (only_sold and "sold" in found) and not found.keys() & {"bottle_cost", "stall_fee"}:
        return False
    if sizes:
        found["bottle_size"] = sizes[0]
    for name, i in found.items():
        item = pieces[i].item
        if item is None or item.value is None:
            return False
        reading.said.append(Said(name, item.value, pieces[i].start, pieces[i].end))
        reading.references.append(Reference("reference", pieces[i].start, pieces[i].end))
        taken.add(i)
    reading.frames.add("market")
    return True


def _what(tokens: Sequence[str], at: int, found: dict[str, int]) -> str:
    """Which figure of the day this is, "" where nothing tells."""
    before = clause_of(tokens[max(0, at - 6) : at][::-1])
    behind = clause_of(tokens[at + 1 : at + 6])
    near, next_ = set(before), set(behind)
    to_market = behind[:1] in (["to"], ["on"], ["at"]) or behind[1:2] in (["to"], ["on"])
    if near & STALL or (next_ & STALL and not to_market):
        return "stall_fee"
    if near & COST or any(behind[n : n + len(words)] == words for words in MADE_FOR for n in (0, 1, 2)):
        return "bottle_cost"
    if near & HOME or next_ & HOME or "left" in behind[:1]:
        return "left_of_market"
    if (before[:1] and before[0] in PRICE) or any(behind[: len(words)] == words for words in EACH):
        return "bottle_cost" if "selling_price" in found else "selling_price"
    if near & SOLD or next_ & WENT:
        return "sold"
    if near & TOOK or (next_ & MARKET and to_market) or before[:1] in (["of"], ["the"]) or "bottles" in behind[:1]:
        return "taken_to_market"
    return ""


__all__ = ["read_market"]
