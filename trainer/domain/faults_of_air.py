"""What contradicts itself in the space that gas escapes into, its ventilation and the people in it."""

from collections.abc import Iterator

from trainer.core.errors import OutOfRange, UnknownSize
from trainer.core.terms import Fan
from trainer.domain.air_space import Shape, pipe_around_of, shape_of
from trainer.domain.quantities import Dimension
from trainer.domain.run_people_air import people_here
from trainer.domain.set_up import Place, SetUp
from trainer.domain.set_up_fault import SetUpFault

# A face that just touches the ceiling, or a height that came through another unit, is inside.
_SLACK_RATIO = 1e-9
_LARGEST_BORE_M = 3.0
_PIPE_LENGTHS_M = (0.01, 1e3)


def air_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Draught beside a fan, blower or cold gas with nothing to reckon from, pipe or face that cannot be."""
    yield from _ventilation_faults(set_up)
    yield from _cold_gas_faults(set_up)
    yield from _pipe_faults(set_up)
    shape = _shape_of(set_up)
    if shape is not None:
        yield from _face_faults(set_up, shape)


def _shape_of(set_up: SetUp) -> Shape | None:
    try:
        return shape_of(set_up)
    except (UnknownSize, OutOfRange):
        return None  # reported beside the pipe, or beside the volume that makes it


def _pipe_around_of(set_up: SetUp) -> tuple[float, float] | None:
    try:
        return pipe_around_of(set_up)
    except (UnknownSize, OutOfRange):
        return None  # already reported beside the pipe


def _ventilation_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    around = set_up.surroundings
    if around is None:
        return
    if around.air_changes_per_h and around.fan in (Fan.BLOWS_IN, Fan.DRAWS_OUT):
        yield SetUpFault(
            path="surroundings.air_changes_per_h", code="draught-beside-fan", value=around.air_changes_per_h,
            facts={"fan": str(around.fan)}, involves=("surroundings.fan",),
        )  # fmt: skip
    if around.blower_m3_s is not None and around.after_s is None and set_up.wait_s is None:
        yield SetUpFault(
            path="surroundings.blower", code="blower-without-after", value=around.blower_m3_s,
            dimension=Dimension.VOLUME_FLOW, involves=("surroundings.after", "wait"),
        )  # fmt: skip


def _cold_gas_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    around = set_up.surroundings
    if around is None or around.gas_temperature_k is None or around.kind is Place.PIPE:
        return
    if around.floor_area_m2 is None:
        yield SetUpFault(
            path="surroundings.gas_temperature", code="cold-gas-without-floor",
            value=around.gas_temperature_k, dimension=Dimension.TEMPERATURE,
            involves=("surroundings.floor_area",),
        )  # fmt: skip


def _pipe_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """A pipe that volume and floor area, or volume and bore, make too wide, too short or too long."""
    around, bore_and_length = set_up.surroundings, _pipe_around_of(set_up)
    if around is None or around.volume_m3 is None or bore_and_length is None:
        return
    bore_m, length_m = bore_and_length
    shortest_m, longest_m = _PIPE_LENGTHS_M
    if bore_m > _LARGEST_BORE_M or not shortest_m <= length_m <= longest_m:
        yield SetUpFault(
            path="surroundings.volume", code="no-such-pipe", value=around.volume_m3,
            dimension=Dimension.VOLUME, facts={"bore_m": bore_m, "length_m": length_m},
            involves=("surroundings.floor_area", "pipe"),
        )  # fmt: skip


def _face_faults(set_up: SetUp, shape: Shape) -> Iterator[SetUpFault]:
    volume_m3 = set_up.surroundings.volume_m3 if set_up.surroundings else None
    ceiling_m, here = shape.height_m(volume_m3), people_here(set_up)
    if ceiling_m is None:
        return
    for place, person in enumerate(set_up.scene.people if set_up.scene else ()):
        face_m = person.face_height_m
        if face_m is not None and person in here and face_m > ceiling_m * (1.0 + _SLACK_RATIO):
            yield SetUpFault(
                path=f"scene.people.{place}.face_height", code="face-above-ceiling", value=face_m,
                dimension=Dimension.LENGTH, facts={"ceiling_m": ceiling_m},
                involves=("surroundings.volume", "surroundings.floor_area", "pipe"),
            )  # fmt: skip
