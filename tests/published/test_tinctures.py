"""What a tincture of so many parts holds, and other preparations of one line."""

from tests.published.bench import found
from tests.published.reading import published, questions


def parts_of_a_batch(batch, parts):
    members = tuple(f"part {i}" for i in range(len(parts)))
    known = {"batch": batch} | {f"part[{m}]": p for m, p in zip(members, parts, strict=True)}
    return [found(f"weight[{m}]", "recipe by_parts", known, members) for m in members]


def water_a_vinegar_bears(volume, had, wanted):
    """The plant's water, a gram a millilitre, does what added water does."""
    known = {"menstruum": volume, "acidity": had, "finished_acidity": wanted}
    return found("plant_water", "vinegar watery fresh", known)


ANSWERS = {
    "plant for a finished volume": lambda ratio, volume: found("herb", "", {"ratio": ratio, "menstruum": volume}),
    "herb in a mL": lambda grams, volume: found("herb_per_ml", "", {"herb": grams, "menstruum": volume}),
    "pressed for each gram": lambda ratio, held: found("pressed", "spirit dried", {"herb": 1, "ratio": ratio, "held_per_gram": held}),
    "alcohol in a preparation": lambda spirit, strength, made: found("strength", "spirit", {"stock": spirit, "stock_strength": strength, "menstruum": made}),
    "parts of a batch": parts_of_a_batch,
    "water a vinegar bears": water_a_vinegar_bears,
}


@published("tinctures")
def test_tinctures(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_tinctures_has_an_answer():
    assert questions("tinctures") == set(ANSWERS)
