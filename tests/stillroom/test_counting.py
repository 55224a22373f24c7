"""Bottles of several sizes, marks of a cylinder, doses that change from day to day: against counting it out."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant import Session
from assistant.session.batch import Batch, Fact
from assistant.session.bottling import fewest, least_left
from assistant.session.regimens import days_it_lasts
from assistant.session.rounding import rounded

SIZES = st.lists(st.sampled_from([10, 15, 20, 30, 50, 60, 100, 250]), min_size=2, max_size=3, unique=True)


@settings(max_examples=60, deadline=None)
@given(volume=st.integers(1, 600), sizes=SIZES)
def test_nothing_fuller_can_be_filled(volume, sizes):
    counts = least_left(volume, sizes)
    filled = sum(size * n for size, n in counts.items())
    every = (sum(s * n for s, n in zip(sizes, ns, strict=True)) for ns in product(*(range(volume // s + 1) for s in sizes)))
    assert filled == max(total for total in every if total <= volume)


@settings(max_examples=60, deadline=None)
@given(volume=st.integers(1, 600), sizes=SIZES)
def test_the_fewest_leave_less_than_the_smallest_bottle(volume, sizes):
    counts = fewest(volume, sizes)
    assert 0 <= volume - sum(size * n for size, n in counts.items()) < min(sizes)


def test_of_sets_as_full_the_one_with_fewer_bottles():
    assert least_left(200, [100, 50]) == {100: 2, 50: 0}


@settings(max_examples=60, deadline=None)
@given(volumes=st.lists(st.floats(1, 500), min_size=2, max_size=9), division=st.sampled_from([0.1, 0.5, 1.0, 2.0, 5.0]))
def test_rounding_keeps_the_total(volumes, division):
    wanted = {f"herb {n}": v for n, v in enumerate(volumes)}
    result = rounded(wanted, division)
    assert sum(result.volumes.values()) == pytest.approx(round(sum(volumes) / division) * division)
    assert all(abs(result.volumes[m] - v) < division + 1e-9 for m, v in wanted.items())
    assert all(abs(v / division - round(v / division)) < 1e-6 for v in result.volumes.values())


STRETCHES = st.lists(st.tuples(st.sampled_from([1.0, 2.5, 5.0]), st.integers(1, 4), st.integers(1, 14)), min_size=2, max_size=4)


@settings(max_examples=60, deadline=None)
@given(stretches=STRETCHES, volume=st.integers(10, 600))
def test_a_changing_dose_lasts_as_long_as_counted_out(stretches, volume):
    members = tuple(str(n) for n in range(len(stretches)))
    facts = {}
    for member, (dose, times, days) in zip(members, stretches, strict=True):
        facts |= {f"dose_in[{member}]": Fact(dose), f"times_in[{member}]": Fact(float(times)), f"days_in[{member}]": Fact(float(days))}
    batch = Batch(frames=frozenset({"dose", "regimen"}), members=members).with_facts(facts)
    daily = [dose * times for dose, times, days in stretches for _ in range(days)]
    left, counted = float(volume), 0
    while left >= (today := daily[counted] if counted < len(daily) else daily[-1]):
        left -= today
        counted += 1
    assert days_it_lasts(float(volume), batch) == counted


@settings(max_examples=60, deadline=None)
@given(on=st.integers(1, 10), off=st.integers(1, 10), daily=st.integers(1, 20), volume=st.integers(20, 500))
def test_days_off_are_days_too(on, off, daily, volume):
    reply = Session().say(f"{on} days on and {off} days off, {daily} mL once a day, how long does a {volume} mL bottle last?")
    doses, day = volume // daily, 0
    taken = 0
    while taken < doses:
        taken += day % (on + off) < on
        day += 1
    assert any(v.quantity == "days" and v.value == day for v in reply.values), reply.text


@settings(max_examples=60, deadline=None)
@given(stretches=STRETCHES)
def test_a_taper_needs_what_its_days_add_up_to(stretches):
    line = ", then ".join(f"{dose:g} mL {times} times a day for {days} days" for dose, times, days in stretches)
    reply = Session().say(f"{line}. how much in all?")
    assert any(v.quantity == "supply" and v.value == pytest.approx(sum(d * t * n for d, t, n in stretches)) for v in reply.values), reply.text
