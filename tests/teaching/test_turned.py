"""The wrong equations turned ahead of time: as the command writes them, as sympy has them, and none left for sympy to do while somebody waits."""

import subprocess
import sys
from pathlib import Path

import pytest

from assistant.matter.functions import FUNCTIONS
from assistant.solving import algebra
from assistant.solving.expression import read_equation, read_expression, to_text
from assistant.solving.forms import unknowns_of
from assistant.teaching import turned
from assistant.teaching.turning import table_text


def test_the_table_is_what_the_command_writes():
    assert Path(turned.__file__).read_text(encoding="utf-8") == table_text(), "run: python -m assistant.teaching.turning"


@pytest.mark.parametrize("equation", turned.TURNED)
def test_sympy_derives_the_same_form(equation):
    for unknown in unknowns_of(equation):
        text = turned.TURNED[equation].get(to_text(unknown))
        if text:
            form = read_expression(text)
            derived = algebra.solved_for(read_equation(equation), unknown, FUNCTIONS)
            assert algebra.agrees(read_equation(equation), unknown, form)
            assert derived is None or algebra.same(derived, form)


@pytest.mark.parametrize(
    "claim",
    [
        "I get 57 % for 350 mL of 96 % topped up with water to 600 mL. Am I close?",
        "I took 500 mL of 95 % down to 50 % and I worked out 450 mL of water, because 950 less 500. Is that right?",
        "200 g fresh nettle at 80 % water in 400 mL of 60 % ends up at 50, right?",
    ],
)
def test_a_claim_is_looked_at_without_sympy(claim):
    code = f"import sys; from assistant import Session; print(Session().say({claim!r}).status, 'sympy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120, check=True)
    assert done.stdout.split() == ["answered", "False"]
