"""What a fresh machine does once, before any test is watched for slowness."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st


@settings(max_examples=1, deadline=None, database=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.text(max_size=1))
def draw_a_text(_text):
    """Nothing: to draw it is enough."""


@pytest.fixture(scope="session", autouse=True)
def _table_of_characters():
    """Hypothesis works out its table of characters when it first draws a text in a new place: seconds that are no test's own."""
    draw_a_text()
