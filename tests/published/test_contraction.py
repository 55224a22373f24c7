"""What mixing shrinks: pharmacopoeia, gauging manual, an old cyclopaedia."""

from assistant.matter.ethanol import density, strength_of
from tests.published.bench import mixed
from tests.published.by_hand import FIFTEEN, SIXTY_F, volume_of, water_in, weight_of
from tests.published.reading import published, questions


def at_the_bench(volume, strength, water):
    return mixed([volume, water], [strength, 0], shrinks=True)


def counted_at_sixty(volume, strength, water):
    """The same with a strength that the source counts at 15.56 °C."""
    return at_the_bench(volume, strength_of(weight_of(strength, 15.56) / 100), water)


def volumes_at_sixty(alcohol, water):
    grams = alcohol * density(1, SIXTY_F), water * density(0, SIXTY_F)
    return sum(grams) / density(grams[0] / sum(grams), SIXTY_F)


def greatest_shrinkage():
    """Percent of the summed volumes, and the strength it makes: alcohol and water mixed in steps of a thousandth."""
    mixes = ((1000 - volume, strength) for volume, strength in (at_the_bench(alcohol, 100, 1000 - alcohol) for alcohol in range(1, 1000)))
    shrunk, strength = max(mixes)
    return shrunk / 10, strength


ANSWERS = {
    "volume after mixing": lambda volume, strength, water: counted_at_sixty(volume, strength, water)[0],
    "strength after mixing": lambda volume, strength, water: at_the_bench(volume, strength, water)[1],
    "volume after mixing at the bench": lambda volume, strength, water: at_the_bench(volume, strength, water)[0],
    "volume and strength at the bench": at_the_bench,
    "greatest shrinkage": greatest_shrinkage,
    "volumes after mixing at 60 °F": volumes_at_sixty,
    "water in 100 parts": water_in,
}


@published("contraction")
def test_contraction(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_contraction_has_an_answer():
    assert questions("contraction") == set(ANSWERS)


def test_by_hand_and_by_the_bench_agree_where_both_count_at_20_degrees():
    # A guard on the sums done by hand: the same mix, by mass balance and by the solver.
    assert abs(volume_of(weight_of(95, FIFTEEN), FIFTEEN) - 95) < 1e-9
    spirit = at_the_bench(95, 100, water_in(95, 20))
    assert abs(spirit[0] - 100) < 1e-6
    assert abs(spirit[1] - 95) < 1e-6
