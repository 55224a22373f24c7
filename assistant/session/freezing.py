"""A worked batch made ready to be kept: frozen with its figures, what was taken for granted, the derivation and the versions of the tables."""

from __future__ import annotations

import hashlib
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from assistant import __version__
from assistant.book import Book, batches, gatherings, stock
from assistant.book.batches import Component
from assistant.book.gatherings import Gathering
from assistant.book.keeping_times import keeping_time
from assistant.dataclass import dataclass
from assistant.listening.statements import Reading
from assistant.places import rules_file
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.relations import RELATIONS
from assistant.session import answering
from assistant.session.assuming import PRESS_METHODS
from assistant.session.batch import Batch
from assistant.session.caring import all_cautions
from assistant.session.figuring import Worked, part_of, plant_of, work_out

if TYPE_CHECKING:
    from assistant.session.conversation import Session

KINDS = ("salve", "syrup", "vinegar", "glycerite", "tea", "formula", "oil", "mix", "decoction")
PRESSED = frozenset({"tincture", "oil", "vinegar", "glycerite"})
YIELDS = {"salve": ("batch",), "tea": ("batch",), "formula": ("blend",), "mix": ("blend", "made"), "syrup": ("syrup", "syrup_weight"), "dried herb": ("dried",)}
# What is poured, by the kind of work, as the shelf calls it.
POURED = {"oil": "oil", "vinegar": "vinegar", "glycerite": "glycerine"}


@dataclass(frozen=True, slots=True)
class Frozen:
    """What goes into the book."""

    batch: batches.Batch
    components: tuple[Component, ...]


def preparation_of(batch: Batch) -> str:
    if "oxymel" in batch.tags or {"syrup", "vinegar"} <= batch.frames:
        return "oxymel"
    kind = next((k for k in KINDS if k in batch.frames), "")
    if kind:
        return kind
    if batch.facts.keys() & {"menstruum", "ratio", "strength", "stock", "finished_strength"} and (batch.name or "herb" in batch.facts):
        return "tincture"
    return "dried herb" if "dried" in batch.facts or "dried" in batch.tags else "dilution"


def method_of(batch: Batch) -> str:
    """How it is pressed, in the words of the table; empty where it was not said."""
    return next((words for tag, (_, words, _) in PRESS_METHODS.items() if tag in batch.tags), "")


def frozen(session: Session, batch: Batch, book: Book, *, lot: str, name: str, code: str, started: date, gathered: Gathering | None = None) -> Frozen:
    """Everything of a batch that is kept; dates beside `started` are laid on by the caller.

    gathered   the gathering it was made from, where it was said; else the book is looked through for one
    """
    kind = preparation_of(batch)
    wanted = batch.wanted if kind not in PRESSED or "pressed" in batch.wanted else (*batch.wanted, "pressed")
    worked = work_out(batch, wanted)
    if worked.solution.conflicts:
        worked = work_out(batch)
    components = components_of(worked, book, kind, gathered)
    plant = plant_of(batch)
    part = part_of(batch) or (plant.called_part if plant is not None else "")
    finished = worked.value("finished_strength") or worked.value("blend_strength") or worked.value("strength")
    keeps = keeping_time(kind, part, finished, worked.value("brix"))
    expected = next((k for k in (*YIELDS.get(kind, ()), "racked", "pressed", "in_jar", "menstruum", "blend", "batch") if (worked.value(k) or 0.0) > 0), "")
    record = record_of(session, worked, components, expected)
    record["expected_from"] = expected
    if keeps is not None:
        record["keeping"] = keeps.words
    kept = batches.Batch(
        lot=lot, name=name or (batch.name if kind in batch.name else f"{batch.name} {kind}".strip()), code=code,
        preparation=kind, started=started.isoformat(),
        plant=batch.plants[0] if batch.plants else batch.name if not batch.members else "", latin=plant.latin if plant is not None else "", part=part,
        state="fresh" if "fresh" in batch.tags else "dried" if "dried" in batch.tags else "", method=method_of(batch),
        best_before=None if keeps is None else keeps.best_before(started).isoformat(),
        expected=worked.value(expected) if expected else None, unit=VOCABULARY[expected].unit if expected else "mL", record=record,
    )  # fmt: skip
    return Frozen(kept, components)


def best_before(batch: batches.Batch, made: date) -> str | None:
    """A kept batch's best-before, reckoned from another day than the one it was started."""
    finished = batch.figure("finished_strength") or batch.figure("blend_strength") or batch.figure("strength")
    keeps = keeping_time(batch.preparation, batch.part, finished, batch.figure("brix"))
    return None if keeps is None else keeps.best_before(made).isoformat()


def record_of(session: Session, worked: Worked, components: tuple[Component, ...], expected: str) -> dict[str, Any]:
    figures = worked.solution.figures
    keys = [k for k in figures if base(k) in VOCABULARY]
    wanted = (*answering.told(worked), *(k for k in ("finished_strength", expected) if k in figures))
    told = [k for k in dict.fromkeys(wanted) if figures[k].origin == "found"]
    assumed = answering.assumptions_for(worked, told)
    return {
        "figures": [
            {"quantity": base(k), "about": about(k), "value": f.value, "unit": VOCABULARY[base(k)].unit, "origin": f.origin, "plus_minus": f.plus_minus}
            for k in keys
            if (f := figures[k]) is not None
        ],
        "assumptions": [a.model_dump(mode="json") for a in assumed],
        "steps": [s.model_dump(mode="json") for s in answering.steps_for(worked, told)],
        "cautions": [{"id": c.id, "level": c.level, "text": c.text, "source": c.source} for c in all_cautions(session, worked, Reading(""))],
        "components": [{"what": c.what, "amount": c.amount, "unit": c.unit} for c in components],
        "tables": table_versions(),
    }  # fmt: skip


# ── what went in ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def components_of(worked: Worked, book: Book, kind: str, gathered: Gathering | None) -> tuple[Component, ...]:
    """Every thing that goes into the jar, with its weight or measure, and where the book knows it from."""
    batch = worked.batch
    if batch.members:
        return tuple(_member(worked, book, member) for member in batch.members)
    parts: list[Component] = []
    herb = worked.value("herb")
    if herb is not None:
        parts.append(_plant(worked, book, herb, gathered))
    if kind in POURED:
        parts.append(_from_shelf(book, POURED[kind], worked.value("menstruum")))
    elif "stock" in worked.solution.figures and "stock_strength" in worked.solution.figures:
        parts.append(_spirit(book, worked.value("stock"), worked.value("stock_strength")))
        water = worked.value("water")
        if water is not None and water > 0.5:
            parts.append(Component("water", water, "mL"))
    elif worked.value("menstruum") is not None and kind in ("tincture", "dilution"):
        parts.append(_spirit(book, worked.value("menstruum"), worked.value("strength")))
    for key, what in (("sugar", "sugar"), ("honey", "honey"), ("decoction", "decoction")):
        amount = worked.value(key)
        if key in batch.facts or (amount and kind == "syrup"):
            parts.append(_from_shelf(book, what, amount, VOCABULARY[key].unit))
    return tuple(parts)


def _plant(worked: Worked, book: Book, herb: float, gathered: Gathering | None) -> Component:
    batch = worked.batch
    plant = batch.plants[0] if batch.plants else batch.name or "plant"
    what = " ".join(x for x in (plant, part_of(batch), "fresh" if "fresh" in batch.tags else "dried" if "dried" in batch.tags else "") if x)
    gathered = gathered or gathering_for(book, plant, herb)
    if gathered is not None:
        return Component(what, herb, "g", source=gathered.title, gathering=gathered.id)
    item = stock.find(book, plant, 0.0, "g")
    if item is not None:
        return Component(what, herb, "g", lot=next(iter(stock.lots_of(book, item)), ""), source="the shelf", item=item.id)
    return Component(what, herb, "g")


def gathering_for(book: Book, plant: str, herb: float) -> Gathering | None:
    """The latest gathering of a plant with so much of it left; None where none has."""
    for one in reversed(gatherings.of_plant(book, plant)):
        if one.weight is None or one.weight - gatherings.used_of(book, one.id) >= 0.98 * herb:
            return one
    return None


def _spirit(book: Book, amount: float | None, strength: float | None) -> Component:
    what = f"spirit of {strength:.3g} %" if strength is not None else "spirit"
    item = stock.spirit(book, strength) if strength is not None else None
    if item is None:
        return Component(what, amount, "mL")
    return Component(what, amount, "mL", lot=next(iter(stock.lots_of(book, item)), ""), source="the shelf", item=item.id)


def _from_shelf(book: Book, what: str, amount: float | None, unit: str = "mL") -> Component:
    rows = [level for level in stock.levels(book) if level.item.unit == unit and (level.item.kind == what or what in level.item.name.split())]
    if not rows:
        return Component(what, amount, unit)
    item = rows[0].item
    return Component(item.name, amount, unit, lot=next(iter(stock.lots_of(book, item)), ""), source="the shelf", item=item.id)


def _member(worked: Worked, book: Book, member: str) -> Component:
    """An ingredient of a recipe: from the shelf, else from the latest lot of that name."""
    weight, volume = worked.value(f"weight[{member}]"), worked.value(f"volume[{member}]")
    amount, unit = (weight, "g") if weight is not None else (volume, "mL")
    strength = worked.value(f"strength_of[{member}]")
    item = (stock.spirit(book, strength) if strength is not None and "%" in member else None) or stock.find(book, member, strength or 0.0, unit)
    if item is not None:
        return Component(member, amount, unit, lot=next(iter(stock.lots_of(book, item)), ""), source="the shelf", item=item.id)
    kept = batches.latest(book, member)
    if kept is not None:
        return Component(member, amount, unit, lot=kept.lot, source=f"kept as {kept.title}")
    return Component(member, amount, unit)


# ── with what it was reckoned ────────────────────────────────────────────────────────────────────────────────────────────


@lru_cache(maxsize=1)
def _tables() -> tuple[tuple[str, str], ...]:
    from assistant.matter import ethanol

    def short(data: bytes) -> str:
        return hashlib.blake2b(data, digest_size=6).hexdigest()

    relations = "\n".join(sorted(f"{r.name}: {r.equation}" for r in RELATIONS)).encode()
    densities = repr([ethanol.density_of(p) for p in range(0, 101, 5)]).encode()
    return (
        ("gallipot", __version__), ("relations", short(relations)), ("ethanol and water, OIML R 22", short(densities)),
        ("plants", short(rules_file("plants.toml").read_bytes())),
    )  # fmt: skip


def table_versions() -> dict[str, str]:
    """What the figures rest on, with a fingerprint of each: a later table never changes an old lot, and the lot says which one it had."""
    return dict(_tables())
