"""What an island means: one function for each named alternative of grammar/bench.lark.

Each is handed the parts of the island and what stands around it, and gives the fields of an Item, or None where the
words do not mean that here ("cut it from 95 to 40" is no ratio); the reader then tries a shorter stretch.

    around      where the island stands; what all shapes share
    plain       bare numbers         amounts   weights, volumes, days     strengths   percent, proof, °Bx
    ratios      1:R, parts           rates     so much a gram             often       times a day
    others      temperature, money, slack, labels
"""

from typing import Any

from assistant.listening.counts import Count
from assistant.listening.shapes import amounts, often, others, plain, rates, ratios, strengths
from assistant.listening.shapes.around import Around, Meaning, Shape, is_two_ends, mentions

__all__ = ["SHAPES", "Around", "meaning_of", "mentions"]

# Forms that weigh two numbers themselves: a ratio may well fall, and "24-07" is a mark.
_WEIGH_BOTH = frozenset({"bare_range", "ratio_to", "ratio_to_more", "label"})


def meaning_of(form: str, children: list[Any], around: Around) -> Meaning | None:
    """What an island of this form means where it stands; None where it is none ("20 to 10 g" is no range)."""
    if around.before() in ("few", "several", "many") and around.tokens[around.at].type in ("HUNDRED", "THOUSAND", "DOZEN"):
        return None  # "a few hundred" is no number
    if form not in _WEIGH_BOTH and any(type(child) is Count and not is_two_ends(child, around) for child in children):
        return None
    return SHAPES[form](children, around)


SHAPES: dict[str, Shape] = {
    "bare": plain.bare,
    "bare_range": plain.bare_range,
    "times": plain.times,
    "times_after": plain.times_after,
    "multiple": plain.multiple,
    "sizes": plain.sizes,
    "amount": amounts.amount,
    "one_amount": amounts.one_amount,
    "lone_measure": amounts.lone_measure,
    "amount_and_share": amounts.amount_and_share,
    "one_amount_and_share": amounts.one_amount_and_share,
    "no_amount_and_share": amounts.no_amount_and_share,
    "share_of_amount": amounts.share_of_amount,
    "system_share": amounts.system_share,
    "amounts_between": amounts.amounts_between,
    "clock": amounts.clock,
    "ago": amounts.clock,
    "one_ago": amounts.one_clock,
    "clock_ago": amounts.clock,
    "one_clock_ago": amounts.one_clock,
    "percent": strengths.percent,
    "share_percent": strengths.share_percent,
    "abv": strengths.abv,
    "percents_between": strengths.percents_between,
    "brix": strengths.brix,
    "proof": strengths.proof,
    "proof_of_system": strengths.proof,
    "proof_by_system": strengths.proof,
    "proof_before": strengths.proof_before,
    "degrees_proof": strengths.proof,
    "degrees_proof_of_system": strengths.proof,
    "degrees_proof_by_system": strengths.proof,
    "ratio": ratios.ratio,
    "ratio_to": ratios.ratio_to,
    "ratio_to_more": ratios.ratio_to_more,
    "ratio_is": ratios.ratio_parts,
    "ratio_in": ratios.ratio_in,
    "ratio_parts": ratios.ratio_parts,
    "ratio_one_part": ratios.ratio_one_part,
    "parts": ratios.parts,
    "one_part": ratios.one_part,
    "share_part": ratios.parts,
    "parts_and_share": ratios.parts_and_share,
    "one_part_and_share": ratios.one_part_and_share,
    "rate": rates.rate,
    "share_rate": rates.share_rate,
    "bare_rate": rates.bare_rate,
    "price_of_amount": rates.price_of_amount,
    "money_rate": rates.money_rate,
    "asked_rate": rates.asked_rate,
    "rate_of_two": rates.rate_of_two,
    "rate_of_one": rates.rate_of_two,
    "one_rate_of": rates.rate_of_two,
    "times_a_day": often.times_a_day,
    "once_a_day": often.times_a_day,
    "times_daily": often.times_daily,
    "once_daily": often.times_daily,
    "so_many_a_day": often.times_a_day,
    "so_many_daily": often.times_daily,
    "times_each_day": often.times_each_day,
    "times_day": often.times_day,
    "times_each_day_short": often.times_each_day_short,
    "times_each_daily": often.times_each_daily,
    "daily": often.daily,
    "every_day": often.every_day,
    "every_hours": often.every_hours,
    "every_hour": often.every_hour,
    "hourly": often.hourly,
    "every_days": often.every_hours,
    "every_other": often.every_other,
    "degrees": others.degrees,
    "celsius": others.celsius,
    "fahrenheit": others.fahrenheit,
    "money": others.money,
    "slack": others.slack,
    "slack_amount": others.slack_amount,
    "slack_percent": others.slack_percent,
    "label": others.label,
    "batch": others.batch,
}
