"""Fresh plant in spirit, against model cases worked out by others."""

from tests.published.bench import found, found_all
from tests.published.reading import published, questions


def jar(herb, water, poured):
    return {"herb": herb, "water_content": water, "menstruum": poured}


def pour_for_a_finish(herb, water, poured, finish, stock):
    known = jar(herb, water, poured) | {"finished_strength": finish, "stock_strength": stock}
    return found_all(("strength", "stock", "water", "in_jar"), "spirit fresh", known)


ANSWERS = {
    "finish": lambda herb, water, poured, strength: found("finished_strength", "spirit fresh", jar(herb, water, poured) | {"strength": strength}),
    "pour for a finish": pour_for_a_finish,
    "pressed": lambda herb, water, poured, strength, held: found(
        "pressed", "spirit fresh", jar(herb, water, poured) | {"strength": strength, "held_per_gram": held}
    ),
}


@published("fresh_plant")
def test_fresh_plant(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_fresh_plant_has_an_answer():
    assert questions("fresh_plant") == set(ANSWERS)
