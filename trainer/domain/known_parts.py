"""What the parts of a set-up amount to once they are known well enough: size of the pipe, section, gas.

Each function returns None where what it needs was left out; nothing is guessed. The few defaults that a
set-up has are stated here, once.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from trainer.core.errors import OutOfRange, UnknownName, UnknownSize
from trainer.core.gas import AIR, Gas
from trainer.core.gas_designation import MIXTURE_SYMBOLS, PURE_SYMBOLS, gas_of_designation, purge_gas
from trainer.core.gas_purity import source_o2_frac
from trainer.core.pipe import PipeSize, pipe_from_wall, pipe_size, pipe_size_by_dn
from trainer.domain.set_up import Pipe, SetUp

DEFAULT_TEMPERATURE_K = 293.15
DEFAULT_STOP_PRESSURE_PA = 2e5  # gauge; what is left keeps air and moisture out of the cylinder
DEFAULT_SLOPE_DEG = 0.0

PURGE_GASES = (*PURE_SYMBOLS, *MIXTURE_SYMBOLS)
AIR_SCALE = "AIR"

# Anything else would reach a parser of fractions, where an exponent can ask for a number without end.
_SIZE = re.compile(r"(?:DN ?)?[0-9][0-9 ./-]{0,9}\"?", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class BoreAndLength:
    """The dammed section: bore, distances of the dams from the joint."""

    bore_m: float
    left_dam_m: float
    right_dam_m: float

    @property
    def length_m(self) -> float:
        """Distance between the inner faces of the dams."""
        return self.left_dam_m + self.right_dam_m


def size_of(pipe: Pipe | None) -> PipeSize | None:
    """Sizes of the pipe; raises UnknownSize or OutOfRange for one that does not exist."""
    if pipe is None:
        return None
    if pipe.outside_diameter_m is not None and pipe.wall_m is not None:
        return pipe_from_wall(outside_diameter_m=pipe.outside_diameter_m, wall_m=pipe.wall_m)
    name = pipe.nps or pipe.dn
    if name is None or pipe.schedule is None:
        return None
    if not _SIZE.fullmatch(name):
        raise UnknownSize(name, schedule=None, known=("1/8 to 36 by NPS", "6 to 900 by DN"))
    if pipe.nps is not None:
        return pipe_size(nps=pipe.nps, schedule=pipe.schedule)
    return pipe_size_by_dn(dn=name, schedule=pipe.schedule)


def find_size_of(pipe: Pipe | None) -> PipeSize | None:
    """Sizes of the pipe; None also where they are at fault, for checks of what else rests on them."""
    try:
        return size_of(pipe)
    except (UnknownSize, OutOfRange):
        return None


def section_of(set_up: SetUp) -> BoreAndLength | None:
    """Bore and dams, where the pipe's size and both dams are known."""
    size, section = size_of(set_up.pipe), set_up.section
    if size is None or section is None or section.left_dam_m is None or section.right_dam_m is None:
        return None
    return BoreAndLength(bore_m=size.bore_m, left_dam_m=section.left_dam_m, right_dam_m=section.right_dam_m)


def slope_of(set_up: SetUp) -> float:
    """The angle by which the vent's end lies higher, level when left out."""
    slope_deg = set_up.section.slope_deg if set_up.section else None
    return DEFAULT_SLOPE_DEG if slope_deg is None else slope_deg


def temperature_of(set_up: SetUp) -> float:
    """Temperature of pipe and gas, 20 degC when left out."""
    return DEFAULT_TEMPERATURE_K if set_up.temperature_k is None else set_up.temperature_k


def gas_of(set_up: SetUp) -> Gas | None:
    """The purge gas; raises UnknownName or OutOfRange for one that is none."""
    named = set_up.gas
    return _purge_gas(named.symbol, named.composition) if named and named.symbol else None


def find_gas_of(set_up: SetUp) -> Gas | None:
    """The purge gas; None also where it is at fault, for checks of what else rests on it."""
    try:
        return gas_of(set_up)
    except (UnknownName, OutOfRange):
        return None


def scale_gas_of(calibrated_for: str) -> Gas:
    """The gas that a meter's scale was made for, by its designation, or air; raises as `gas_of`."""
    return AIR if calibrated_for == AIR_SCALE else _gas_of_designation(calibrated_for)


# A gas is asked for a dozen times in a run, and a mixture takes longer to make than to look up.
@lru_cache(maxsize=256)
def _purge_gas(symbol: str, composition: str | None) -> Gas:
    return purge_gas(symbol, composition=composition)


@lru_cache(maxsize=256)
def _gas_of_designation(designation: str) -> Gas:
    return gas_of_designation(designation)


def source_oxygen_of(set_up: SetUp) -> float | None:
    """Oxygen that the purge gas carries: as given, by its purity, or that of the gas's usual grade."""
    if set_up.gas and set_up.gas.oxygen_frac is not None:
        return set_up.gas.oxygen_frac
    if set_up.gas and set_up.gas.purity_frac is not None:
        return source_o2_frac(100.0 * set_up.gas.purity_frac)
    known = gas_of(set_up)
    return known.default_source_o2_frac if known else None


def joint_time_of(set_up: SetUp) -> float | None:
    """Time of one joint from gas on to gas off; None where wait, hold or a stage of them is not known."""
    flow = set_up.flow
    if flow is not None and flow.stages:
        lasts = [stage.lasts_s for stage in flow.stages if stage.lasts_s is not None]
        return sum(lasts) if len(lasts) == len(flow.stages) else None
    if set_up.wait_s is None or flow is None or flow.hold_for_s is None:
        return None
    return set_up.wait_s + flow.hold_for_s + (flow.after_for_s or 0.0)
