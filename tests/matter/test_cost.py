"""What the density of a spirit costs, as a ratio to plain arithmetic, so that it holds on any machine."""

import time
import timeit

from assistant.matter import ethanol, formula


def forget():
    ethanol.mass_fraction_of.cache_clear()
    ethanol.density_of.cache_clear()


def fastest(call, number):
    return min(timeit.repeat(call, timer=time.process_time, number=number, repeat=5)) / number


def test_a_density_never_asked_before_costs_at_most_twenty_times_the_bare_polynomial():
    strengths = [i * 0.0073 % 100 for i in range(10000)]

    def cold():
        forget()
        for strength in strengths[:200]:
            ethanol.density_of(strength)

    def plain():
        for strength in strengths[:200]:
            formula.value(formula.A, strength / 100)

    assert fastest(cold, 3) < 20 * fastest(plain, 3)


def test_a_density_asked_again_costs_less_than_one_worked_out():
    ethanol.density_of(60.0)

    def worked_out():
        forget()
        ethanol.density_of(60.0)

    assert fastest(lambda: ethanol.density_of(60.0), 2000) < 0.5 * fastest(worked_out, 2000)
