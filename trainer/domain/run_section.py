"""The pipe's sizes, and the section between the dams: length, volume, and the pocket beyond the vent."""

from trainer.core.gas import sinks_in_air
from trainer.core.pipe import section_volume_m3
from trainer.core.vent_place import beyond_vent_frac
from trainer.domain.flows import is_vent_blocked, vent_place_of
from trainer.domain.known_parts import BoreAndLength, gas_of, section_of, size_of
from trainer.domain.purge_run import PipeResult, SectionResult
from trainer.domain.run_spool import spool_section_result
from trainer.domain.set_up import SetUp
from trainer.domain.spool_path import path_of


def pipe_result(set_up: SetUp) -> PipeResult | None:
    """Sizes of the pipe, where it is known."""
    size = size_of(set_up.pipe)
    if size is None:
        return None
    return PipeResult(outside_diameter_m=size.outside_diameter_m, wall_m=size.wall_m, bore_m=size.bore_m)


def section_result(set_up: SetUp) -> SectionResult | None:
    """The dammed section, where bore and dams are known, level, sloping or upright; or a spool."""
    if path_of(set_up):
        return spool_section_result(set_up)
    section = section_of(set_up)
    if section is None:
        return None
    return SectionResult(
        length_m=section.length_m,
        volume_m3=section_volume_m3(section.bore_m, length_m=section.length_m),
        pocket_beyond_vent_frac=_pocket_frac(set_up, section),
    )


def _pocket_frac(set_up: SetUp, section: BoreAndLength) -> float | None:
    used, place = gas_of(set_up), vent_place_of(set_up, section=section)
    if used is None or place is None or is_vent_blocked(set_up):
        return None
    return beyond_vent_frac(place, gas_sinks=sinks_in_air(used))
