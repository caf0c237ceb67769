"""What a scenario takes as given: values that its keys rest on, and that no drawing shows or fact states."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from trainer.domain.family import ScenarioFamily
from trainer.domain.quantities import FieldKind
from trainer.domain.scenario import Fact
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import spec_at, value_at

# Values of a set-up that are the same for everybody on the job, in the order in which they are listed.
GIVEN: Mapping[str, str] = MappingProxyType(
    {
        "gas.oxygen": "Oxygen in the gas as it comes",
        "inlet.bore": "Inside of the inlet tube",
        "inlet.face_area": "Face that the gas comes out of",
        "hose.bore": "Inside of the hose",
        "hose.length": "Length of the hose",
        "hose.inlet_pressure": "Pressure at the start of the hose",
        "supply.water_volume": "Volume of one cylinder",
        "supply.stop_pressure": "Left in the cylinder",
        "arc.current": "Arc current",
        "arc.voltage": "Arc voltage",
        "arc.travel_speed": "Travel speed",
        "arc.efficiency": "Share of the arc's heat that enters the metal",
        "temperature": "Temperature of air, gas and pipe",
        "surroundings.fresh_oxygen": "Oxygen in fresh air",
    }
)


def given_of(family: ScenarioFamily, shown: SetUp, *, told: tuple[Fact, ...]) -> tuple[Fact, ...]:
    """What is taken as given in this set-up: of the list above, what it holds and no fact has told.

    A value that any draw, choice or cause of the family moves is no given: it is there to be found out.
    """
    kept_back = {each.path for each in told} | set(_moved(family))
    return tuple(
        fact
        for path, label in GIVEN.items()
        if path not in kept_back and (fact := _fact(path, label, shown)) is not None
    )


def _fact(path: str, label: str, shown: SetUp) -> Fact | None:
    value, spec = value_at(shown, path), spec_at(path)
    if value is None:
        return None
    if spec.kind is FieldKind.MEASURED:
        return Fact(label=label, path=path, value=value, dimension=spec.dimension)
    return Fact(label=label, path=path, text=f"{value:g}")


def _moved(family: ScenarioFamily) -> Iterator[str]:
    for each in family.draws:
        for choice in each.choices:
            yield from choice.set_up
    for item in family.items:
        for option in item.choice.options if item.choice is not None else ():
            yield from option.sets
        if item.diagnosis is not None:
            for cause in item.diagnosis.causes:
                yield from cause.set_up
            for move in item.diagnosis.moves:
                yield from move.sets
