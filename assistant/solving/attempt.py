"""One attempt: enter what is given, and find everything that follows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from assistant.solving import blocks
from assistant.solving.checking import check
from assistant.solving.ledger import Brackets, Ledger
from assistant.solving.network import Network
from assistant.solving.solution import Known

Given = tuple[int, float, float]  # slot, value, slack


def attempt(network: Network, brackets: Brackets, given: Iterable[Given]) -> Ledger:
    """The ledger after these values and all that follows from them."""
    ledger = Ledger(network, brackets)
    for slot, value, slack in given:
        ledger.give(slot, value, slack)
    return advance(ledger)


def attempt_all(network: Network, brackets: Brackets, known: Mapping[str, Known]) -> tuple[Ledger, tuple[str, ...]]:
    """The ledger after all that is known, and the assumed keys that were tried and contradict it.

    What was said and measured comes first; then each assumed value in the order given, where its key is still unknown. Where what was
    said contradicts itself nothing is assumed.
    """
    firm = [(slot, v.value, v.tolerance) for key, v in known.items() if v.origin != "assumed" and (slot := network.slot_of.get(key)) is not None]
    ledger = attempt(network, brackets, firm)
    dropped: list[str] = []
    for key, value in known.items():
        slot = network.slot_of.get(key)
        if ledger.clashes or value.origin != "assumed" or slot is None or ledger.known[slot]:
            continue
        trial = ledger.copy()
        trial.give(slot, value.value, value.tolerance)
        trial = advance(trial)
        if trial.clashes:
            dropped.append(key)
        else:
            ledger = trial
    return ledger, tuple(dropped)


def advance(ledger: Ledger) -> Ledger:
    """The ledger with all that follows: equation by equation, then groups that hang together, then back through whole numbers.

    Going back through floor or ceil is only the likeliest guess at what was meant, so it is taken back where it leads to a clash.
    """
    while True:
        ledger.settle()
        check(ledger)
        if ledger.clashes:
            return ledger
        if blocks.solve_next(ledger):
            continue
        trial = ledger.copy()
        if not trial.take_least():
            return ledger
        trial = advance(trial)
        if not trial.clashes:
            return trial
        ledger.forgo_least()
