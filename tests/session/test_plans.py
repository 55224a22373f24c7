"""Plans are looked up where they stand: the same places as a walk over all of them, whatever was added, went on or was taken back."""

from hypothesis import given
from hypothesis import strategies as st

from assistant.cautions.folder import read_folder, using
from assistant.session.batch import Batch
from assistant.session.naming import same_plant
from assistant.session.plans import Plans

NAMES = (
    "nettle", "nettles", "Nettle", "nettle leaf", "elder berries", "elderberry", "elder", "yellow dock root", "yellow dock", "dock", "willow",
    "willow bark", "bark", "snakeroot", "black cohosh", "owlwort", "owlwort root", "root", "",
)  # fmt: skip
PLANS = st.builds(
    Batch, name=st.sampled_from(NAMES), plants=st.lists(st.sampled_from(NAMES), max_size=2).map(tuple), alias=st.sampled_from(("", "", "", "red", "Red", "A"))
)
MOVES = st.one_of(
    st.tuples(st.just("add"), PLANS), st.tuples(st.just("put"), PLANS, st.integers(0, 9)), st.tuples(st.just("mark")), st.tuples(st.just("back"))
)


def walked(name: str, plans: Plans) -> list[int]:
    return [place for place, plan in enumerate(plans) if any(same_plant(name, own) for own in (plan.name, *plan.plants))]


def checked(plans: Plans, row: list[Batch]) -> None:
    assert list(plans) == row
    assert all(one is other for one, other in zip(plans.all(), row, strict=True))
    for name in NAMES:
        assert plans.of_plant(name) == walked(name, plans), name
    aliased = {alias: {place for place, plan in enumerate(row) if plan.alias == alias} for alias in {plan.alias for plan in row if plan.alias}}
    assert dict(plans.aliases) == aliased


@given(st.lists(MOVES, max_size=12), st.booleans())
def test_the_places_are_those_of_a_walk(moves, sought_from_the_first):
    plans, row, marks = Plans(), [], [()]
    if sought_from_the_first:
        checked(plans, row)
    for move, *about in moves:
        if move == "add":
            plans.add(about[0])
            row.append(about[0])
        elif move == "put" and row:
            plans.put(about[0], about[1] % len(row))
            row[about[1] % len(row)] = about[0]
        elif move == "mark":
            marks.append(plans.all())
        elif move == "back":
            row = list(marks[-1])
            plans.become(marks.pop() if len(marks) > 1 else marks[0])
        if sought_from_the_first:
            checked(plans, row)
    checked(plans, row)


def test_a_folder_of_ones_own_may_mean_another_plant(tmp_path):
    (tmp_path / "plants.toml").write_text(
        """
[[plant]]
latin = "Herba vesperi"
names = ["owlwort", "duskbell"]
family = "Asteraceae"
[[plant.part]]
kind = "leaf"
name = "leaf"
water = [70, 80, "common practice", "common practice"]
""",
        encoding="utf-8",
    )
    plans = Plans()
    plans.add(Batch(name="owl worts"))
    assert plans.of_plant("owlwort") == []
    pack = read_folder(tmp_path)
    assert not pack.faults
    with using(pack):
        assert plans.of_plant("owlwort") == walked("owlwort", plans) == [0]
    assert plans.of_plant("owlwort") == []
