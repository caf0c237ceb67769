"""What the core's errors say and carry."""

import importlib
import math
import subprocess
import sys

import pytest

from trainer.core.errors import Limits, OutOfRange, UnknownGas, UnknownName, UnknownSize


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (1.0, 2.0, "between 1 and 2 m"),
        (1.0, None, "at least 1 m"),
        (None, 2.0, "at most 2 m"),
        (None, None, "a finite number"),
    ],
)
def test_out_of_range_is_one_sentence_with_quantity_value_limits_and_reason(low, high, said):
    error = OutOfRange("bore", math.inf, low=low, high=high, unit="m", why="it is a pipe")
    assert str(error) == f"bore is inf m but must be {said}: it is a pipe"
    assert (error.quantity, error.value, error.low, error.high) == ("bore", math.inf, low, high)
    assert (error.unit, error.why) == ("m", "it is a pipe")


def test_limits_include_their_ends_and_refuse_what_is_not_a_number():
    limits = Limits(quantity="bore", unit="m", low=1.0, high=2.0, why="it is a pipe")
    for inside in (1.0, 1.5, 2.0):
        limits.check(inside)
    for outside in (0.999, 2.001, math.nan, math.inf, -math.inf):
        with pytest.raises(OutOfRange):
            limits.check(outside)


def test_unknown_things_say_what_is_known():
    size = UnknownSize("NPS 7", schedule=None, known=["6", "8"])
    assert str(size) == "NPS 7 is not in the pipe tables; known: 6, 8"
    assert "none" in str(UnknownSize("NPS 7", schedule="10S", known=[]))
    name = UnknownName("dam", "gum", known=["foam"])
    assert str(name) == "'gum' is not a known dam; accepted: foam"
    assert UnknownGas("XE", known=["I1"]).kind == "gas"


def test_importing_the_core_does_not_pull_in_scipy_or_fluids():
    modules = [
        "pipe",
        "gas",
        "vent",
        "in_leaks",
        "entrainment",
        "supply",
        "dewar",
        "hose",
        "meter",
        "dam_heat",
        "arc_heat",
        "oxidation",
        "breathing",
    ]
    for module in modules:
        importlib.import_module(f"trainer.core.{module}")
    names = ", ".join(f"trainer.core.{module}" for module in modules)
    code = f"import sys, {names}; print([m for m in sys.modules if m.split('.')[0] in ('scipy', 'fluids')])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
