"""US and UK proof against percent by volume."""

from tests.published.bench import found
from tests.published.reading import published, questions


def percent_of_proof(us, uk):
    return found("strength", "spirit", {"proof_us": us}), found("strength", "spirit", {"proof_uk": uk})


def us_proof(strength):
    return found("proof_us", "spirit", {"strength": strength})


ANSWERS = {
    "US proof": us_proof,
    "proof gallons": lambda gallons, strength: gallons * us_proof(strength) / 100,
    "percent of proof": percent_of_proof,
}


@published("proof")
def test_proof(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_proof_has_an_answer():
    assert questions("proof") == set(ANSWERS)
