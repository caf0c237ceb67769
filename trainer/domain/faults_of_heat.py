"""What contradicts itself about the weld and what lies near it: passes, pool, the pipe's open ends."""

import math
from collections.abc import Iterator

from trainer.core.heat_materials import heat_materials
from trainer.domain.known_parts import find_size_of
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_fault import SetUpFault

# A length that came through another unit and just reaches a limit is within it.
_SLACK_RATIO = 1.0 + 1e-9


def weld_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """More root left open than the joint has, a pool deeper than the wall, a pause after a single pass."""
    joint, arc, size = set_up.joint, set_up.arc, find_size_of(set_up.pipe)
    if joint is not None and size is not None:
        around_m = math.pi * size.bore_m
        if joint.left_open_m is not None and joint.left_open_m > around_m * _SLACK_RATIO:
            yield SetUpFault(
                path="joint.left_open", code="more-open-than-joint", value=joint.left_open_m,
                dimension=Dimension.LENGTH, facts={"around_m": around_m},
            )  # fmt: skip
        if joint.pool_depth_m is not None and joint.pool_depth_m > size.wall_m * _SLACK_RATIO:
            yield SetUpFault(
                path="joint.pool_depth", code="pool-deeper-than-wall", value=joint.pool_depth_m,
                dimension=Dimension.LENGTH, facts={"wall_m": size.wall_m},
            )  # fmt: skip
    if arc is not None and arc.between_passes_s is not None and (arc.passes or 1) == 1:
        yield SetUpFault(
            path="arc.between_passes", code="pause-after-one-pass", value=arc.between_passes_s,
            dimension=Dimension.DURATION, involves=("arc.passes",),
        )  # fmt: skip


def pipe_end_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """A dam that would stand outside the pipe."""
    section = set_up.section
    if section is None:
        return
    ends = {
        "left_end": (section.left_end_m, section.left_dam_m),
        "right_end": (section.right_end_m, section.right_dam_m),
    }
    for key, (end_m, dam_m) in ends.items():
        if end_m is not None and dam_m is not None and end_m < dam_m / _SLACK_RATIO:
            yield SetUpFault(
                path=f"section.{key}", code="dam-outside-pipe", value=end_m, dimension=Dimension.LENGTH,
                facts={"dam_m": dam_m},
            )  # fmt: skip


def near_heat_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Materials near the weld whose behaviour in heat nobody knows."""
    for place, part in enumerate(set_up.near_heat):
        if part.material is not None and part.material not in heat_materials():
            yield SetUpFault(
                path=f"near_heat.{place}.material", code="unknown-name", value=part.material,
                facts={"known": ", ".join(heat_materials())},
            )  # fmt: skip
