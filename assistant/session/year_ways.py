"""Spirit that does not reach for all: the ways out side by side, each reckoned through to where its batches finish."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.dataclass import dataclass, field
from assistant.quantities.vocabulary import key_for
from assistant.reply import Assumption, Step, Value
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out
from assistant.session.naming import same_plant
from assistant.session.wording import number, shown
from assistant.session.year_tables import cell
from assistant.year.shares import Planned, Share, in_order, least_left
from assistant.year.table import NOTHING, Cell, Table

if TYPE_CHECKING:
    from assistant.session.conversation import Session

MADE_BY = ("ratio", "dry_ratio", "strength", "water_content", "dried_water")
WEAKER, IN_ORDER, LEAST_LEFT = "all weaker", "in that order", "least left over"
SOAKED_FRESH, SOAKED_DRIED = 1.0, 0.7  # mL a gram of herb takes up in a jar
NOTHING_LEFT = 0.5  # g


@dataclass(frozen=True, slots=True)
class Jar:
    """One of the batches that share the spirit, as it was planned."""

    name: str
    spirit: float
    plan: Worked | None  # None where it was not said how it is made


@dataclass
class Ways:
    """What is told of them: lines, the table, and every figure of both."""

    lines: list[str] = field(default_factory=list)
    values: list[Value] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    table: Table | None = None
    assumed: list[Assumption] = field(default_factory=list)
    mixed: list[tuple[str, Worked]] = field(default_factory=list)  # each batch as it would be, all weaker


def jars_of(session: Session, worked: Worked) -> list[Jar]:
    """Each member with how it is made: by the plan of that plant on the bench, else by what was said for all of them."""
    jars = []
    for member in worked.batch.members:
        spirit = worked.value(key_for("spirit_for", member)) or 0.0
        jars.append(Jar(member, spirit, _planned(session, worked.batch, member, spirit)))
    return jars


def _planned(session: Session, batch: Batch, member: str, spirit: float) -> Worked | None:
    own = next(
        (b for b in reversed(session.batches) if "sharing" not in b.frames and {"ratio", "dry_ratio"} & b.facts.keys() and same_plant(b.name, member)), None
    )
    made = own or batch
    facts = {k: f for k, f in made.facts.items() if k in MADE_BY}
    if not {"ratio", "dry_ratio"} & facts.keys() or "strength" not in facts or "stock_strength" not in batch.facts:
        return None
    facts |= {"stock": Fact(spirit), "stock_strength": batch.facts["stock_strength"]}
    tags = made.tags & {"fresh", "dried"}
    planned = work_out(Batch(name=member, plants=(member,), tags=tags).having(facts=facts), wanted=("herb", "finished_strength", "in_jar", "dried"))
    return planned if planned.value("herb") and not planned.solution.conflicts and planned.value("finished_strength") else None


def weakened(jar: Jar, spirit: float, made: float = 1.0) -> Worked | None:
    """The batch with less spirit and water in its place: as much is poured, weaker.

    made   share of the plant that goes in
    """
    assert jar.plan is not None
    herb, poured = jar.plan.value("herb"), jar.plan.value("menstruum")
    if not herb or not poured or not made:
        return None
    facts = {k: f for k, f in jar.plan.batch.facts.items() if k in ("water_content", "stock_strength", "dried_water")}
    facts |= {"herb": Fact(herb * made), "menstruum": Fact(poured * made), "stock": Fact(spirit)}
    worked = work_out(jar.plan.batch.having(facts=facts), wanted=("finished_strength", "strength"))
    return worked if worked.value("finished_strength") is not None else None


def least_spirit(jar: Jar, floor: float | None) -> float:
    """Spirit below which the whole batch would finish weaker than the floor; all of it where no floor was said or it finishes below it anyway."""
    assert jar.plan is not None
    finish, herb, poured = jar.plan.value("finished_strength"), jar.plan.value("herb"), jar.plan.value("menstruum")
    if floor is None or finish is None or finish <= floor or herb is None or poured is None:
        return jar.spirit
    facts = {k: f for k, f in jar.plan.batch.facts.items() if k in ("water_content", "stock_strength", "dried_water")}
    facts |= {"herb": Fact(herb), "menstruum": Fact(poured), "finished_strength": Fact(floor)}
    return min(jar.spirit, work_out(jar.plan.batch.having(facts=facts), wanted=("stock",)).value("stock") or jar.spirit)


def ways(session: Session, worked: Worked) -> Ways:
    """The ways out of a shortfall: weaker, in order, least left over, buy; all of it where there is enough."""
    told = Ways()
    there, wanted, short = worked.value("spirit_there"), worked.value("spirit_wanted"), worked.value("spirit_lacking")
    if there is None or wanted is None or short is None or short <= 0:
        if short is not None:
            told.lines.append(f"It reaches: {shown('rest', -short)} is left.")
            told.values.append(Value(quantity="rest", value=-short, unit="mL", text=shown("rest", -short)))
        return told
    jars = jars_of(session, worked)
    shares = shares_of(session, worked)
    order, best = shares[IN_ORDER], shares.get(LEAST_LEFT, [])
    known = bool(best)
    told.table = _side_by_side(worked, jars, order, best, told)
    for way, row in ((IN_ORDER, order), (LEAST_LEFT, best)):
        total = sum(s.spirit for s in row)
        told.values += [_of(way, s) for s in row]
        told.values += [Value(quantity="spirit_given", batch=way, value=total, unit="mL", text=shown("spirit_given", total))] if row else []
    told.lines += [f"1. All a little weaker: {shown('share_met', worked.value('share_met') or 0)} of its spirit for each, water in place of the rest."]
    told.lines += [f"2. In that order: {_in_turn(order)}", *_dried(jars, order, IN_ORDER, told)]
    if known:
        told.lines += [f"3. Least plant left over{_within(worked)}: {_in_turn(best)}", *_dried(jars, best, LEAST_LEFT, told)]
    told.lines.append(f"{4 if known else 3}. Buy {shown('spirit_lacking', short)} more, and all is made as planned.")
    return told


def shares_of(session: Session, worked: Worked) -> dict[str, list[Share]]:
    """What each way gives each batch; the least left over only where it is known how all of them are made."""
    there = worked.value("spirit_there") or 0.0
    jars = jars_of(session, worked)
    plans = [_as_planned(worked, jar) for jar in jars]
    found = {
        WEAKER: [Share(jar.name, 1.0, worked.value(key_for("spirit_given", jar.name)) or 0.0) for jar in jars],
        IN_ORDER: in_order(plans, there),
    }
    if all(jar.plan is not None for jar in jars):
        found[LEAST_LEFT] = _best(worked, plans, there)
    return found


def finishes(session: Session, worked: Worked) -> list[tuple[str, Jar, float, float]]:
    """Way, batch, spirit and share made: everything that finishes somewhere."""
    jars = jars_of(session, worked)
    shares = shares_of(session, worked)
    return [
        (way, jar, share.spirit, share.made) for way, row in shares.items() for jar, share in zip(jars, row, strict=True) if jar.plan is not None and share.made
    ]


def _of(way: str, share: Share) -> Value:
    """Which share of a batch is made in a way."""
    return Value(quantity="share_made", about=share.name, batch=way, value=100 * share.made, unit="percent", text=f"{share.made * 100:.0f} %")


def _as_planned(worked: Worked, jar: Jar) -> Planned:
    herb = (jar.plan.value("herb") if jar.plan is not None else None) or jar.spirit
    said = worked.value(key_for("jar_herb", jar.name))
    poured = (jar.plan.value("menstruum") if jar.plan is not None else None) or jar.spirit
    room = SOAKED_DRIED if jar.plan is not None and "dried" in jar.plan.batch.tags else SOAKED_FRESH
    floor = worked.value("least_finish")
    least = least_spirit(jar, floor) if jar.plan is not None else jar.spirit
    return Planned(jar.name, jar.spirit, least, herb, herb if said is None or jar.plan is None else min(said, herb), poured + herb * room)


def _best(worked: Worked, plans: Sequence[Planned], there: float) -> list[Share]:
    jars, size = worked.value("jars"), worked.value("jar_size")
    scarce = "jars" in worked.batch.facts and jars is not None and size is not None
    return least_left(plans, there, int(jars or 0) if scarce else None, size or 0.0)


def _within(worked: Worked) -> str:
    limits = []
    if worked.value("least_finish") is not None:
        limits.append(f"none under {shown('least_finish', worked.value('least_finish') or 0)}")
    if {"jars", "jar_size"} <= worked.batch.facts.keys():
        limits.append(f"in {number(worked.value('jars') or 0, '1')} jars of {shown('jar_size', worked.value('jar_size') or 0)}")
    return f" ({', '.join(limits)})" if limits else " (none weaker than planned)"


def _in_turn(shares: Sequence[Share]) -> str:
    whole = [s.name for s in shares if s.made > 0.9995]
    part = [f"{s.made * 100:.0f} % of {s.name}" for s in shares if 0 < s.made <= 0.9995]
    none = [s.name for s in shares if s.made == 0]
    told = [*([f"{_listed(whole)} in full"] if whole else []), *part, *([f"no {_listed(none)}"] if none else [])]
    return ", ".join(told) + "."


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _dried(jars: Sequence[Jar], shares: Sequence[Share], way: str, told: Ways) -> list[str]:
    """What is left over, and what it dries to."""
    lines = []
    for jar, share in zip(jars, shares, strict=True):
        herb = jar.plan.value("herb") if jar.plan is not None else None
        if herb is None or jar.plan is None:
            continue
        left = herb * (1 - share.made)
        told.values.append(Value(quantity="herb", about=jar.name, batch=way, value=herb * share.made, unit="g", text=shown("herb", herb * share.made)))
        if left < NOTHING_LEFT:
            continue
        told.values.append(Value(quantity="herb_left", about=jar.name, batch=way, value=left, unit="g", text=shown("herb_left", left)))
        dried = jar.plan.value("dried")
        if dried is not None and "fresh" in jar.plan.tags:
            dry = dried * (1 - share.made)
            told.values.append(Value(quantity="left_dried", about=jar.name, batch=way, value=dry, unit="g", text=shown("left_dried", dry)))
            says = "What cannot be made is dried: dry matter stays, a tenth of water is kept."
            working = f"{shown('herb', left)} of {shown('herb', herb)}, which dries to {shown('dried', dried)} = {shown('dried', dry)}"
            told.steps.append(Step(quantity="left_dried", about=jar.name, batch=way, value=dry, unit="g", relation="drying", says=says, working=working))
            lines.append(f"   Dry {shown('herb', left)} of {jar.name}: {shown('dried', dry)} dried.")
        else:
            lines.append(f"   {shown('herb', left)} of {jar.name} waits.")
    return lines


def _side_by_side(worked: Worked, jars: Sequence[Jar], order: Sequence[Share], best: Sequence[Share], told: Ways) -> Table:
    """Wanted, then each way: the spirit a batch gets and where it finishes."""
    rows = []
    for n, jar in enumerate(jars):
        given = worked.value(key_for("spirit_given", jar.name)) or 0.0
        row = [Cell(jar.name), cell("spirit_for", jar.spirit)]
        for way, spirit, made in (
            (WEAKER, given, 1.0),
            (IN_ORDER, order[n].spirit, order[n].made),
            *([(LEAST_LEFT, best[n].spirit, best[n].made)] if best else []),
        ):
            row += _one_way(jar, way, spirit, made, told)
        rows.append(tuple(row))
    heads = ["", "wants", "weaker", "at %", "order", "at %", *(["least", "at %"] if best else [])]
    units = ["", "mL", "mL", "percent", "mL", "percent", *(["mL", "percent"] if best else [])]
    sums: list[Cell] = [Cell("in all"), cell("spirit_wanted", worked.value("spirit_wanted")), cell("spirit_wanted", worked.value("spirit_there")), Cell("")]
    sums += [cell("spirit_wanted", sum(s.spirit for s in order)), Cell("")]
    sums += [cell("spirit_wanted", sum(s.spirit for s in best)), Cell("")] if best else []
    return Table("Spirit that does not reach", tuple(heads), tuple(rows), tuple(sums), tuple(units), "(mL of the stock; at: where it finishes)")


def _one_way(jar: Jar, way: str, spirit: float, made: float, told: Ways) -> tuple[Cell, Cell]:
    told.values.append(Value(quantity="spirit_given", about=jar.name, batch=way, value=spirit, unit="mL", text=shown("spirit_given", spirit)))
    if jar.plan is None or not made:
        return cell("spirit_given", spirit), NOTHING
    mixed = weakened(jar, spirit, made)
    if mixed is None:
        return cell("spirit_given", spirit), NOTHING
    finish = mixed.value("finished_strength") or 0.0
    told.assumed += [a for a in answering.assumptions_for(mixed, ["finished_strength"]) if a not in told.assumed]
    if way == WEAKER:
        told.mixed.append((jar.name, mixed))
    told.values.append(Value(quantity="finished_strength", about=jar.name, batch=way, value=finish, unit="percent", text=shown("finished_strength", finish)))
    for step in mixed.solution.derivation("finished_strength"):
        if step.key == "finished_strength":
            told.steps.append(Step(quantity="finished_strength", about=jar.name, batch=way, value=finish, unit="percent", relation=step.relation,
                                   says=step.says, working=step.working))  # fmt: skip
    return cell("spirit_given", spirit), Cell(number(finish, "percent"), finish)
