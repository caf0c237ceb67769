"""Amounts of facts as the trade tells them."""

import pytest

from trainer.domain.quantities import Dimension
from trainer.wording.facts import told_amount
from trainer.wording.quantities import UnitSystem

METRIC, US = UnitSystem.METRIC, UnitSystem.US


@pytest.mark.parametrize(
    ("path", "value", "dimension", "metric", "us"),
    [
        # ISO 3821 has hose of 6,3 mm bore, which is a quarter of an inch
        ("inlet.bore", 0.00635, Dimension.LENGTH, "6.3 mm", "1/4 in"),
        ("inlet.bore", 0.004, Dimension.LENGTH, "4 mm", "0.16 in"),
        ("dams.0.thickness", 0.1016, Dimension.LENGTH, "102 mm", "4 in"),
        ("supply.water_volume", 0.05, Dimension.VOLUME, "50 L", "50 L"),
        ("surroundings.volume", 0.05, Dimension.VOLUME, "50 L", "1.77 ft³"),
        ("temperature", 293.15, Dimension.TEMPERATURE, "20 °C", "68 °F"),
    ],
)
def test_bores_are_told_as_they_are_sold_and_cylinders_by_their_litres(
    path: str, value: float, dimension: Dimension, metric: str, us: str
) -> None:
    assert told_amount(path, value, dimension, system=METRIC) == metric
    assert told_amount(path, value, dimension, system=US) == us
