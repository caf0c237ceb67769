"""The first flow of a purge as it enters the section, and what that says of a reading at the vent."""

from __future__ import annotations

from functools import cached_property

from trainer.core.closure import constant
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_groups import inlet_froude, inlet_velocity_m_s, situation
from trainer.core.sloped_column import vent_above_pool_frac
from trainer.core.stirring import closure
from trainer.core.terms import InletEnd


class EnteringFlow:
    """What the first flow of a purge is like where it enters.

    Args:
        case [record]: the purge

    Reference: own definition.
    """

    def __init__(self, case: PurgeCase) -> None:
        self.case = case

    @cached_property
    def inlet_velocity_m_s(self) -> float:
        """Velocity at which the first flow enters the section.

        Returns:
            [m/s] velocity
        """
        return inlet_velocity_m_s(self.case, flow_m3_s=self.case.segments[0].flow_m3_s)

    @cached_property
    def inlet_froude(self) -> float:
        """Froude number of the first flow as it enters, by the equal-area diameter.

        Returns:
            [-] Froude number
        """
        return inlet_froude(self.case, flow_m3_s=self.case.segments[0].flow_m3_s)

    @cached_property
    def jet_length_ratio(self) -> float:
        """Momentum length of the first flow over the bore.

        Returns:
            [-] l_M / D
        """
        return situation(self.case, flow_m3_s=self.case.segments[0].flow_m3_s).jet_length_ratio

    @cached_property
    def vent_margin_ratio(self) -> float | None:
        """By how much the root may hold more oxygen than an analyser at the vent reads.

        Returns:
            [-] factor on oxygen; None where no vent reading is safe, the vent being on the pool's side
        """
        groups = situation(self.case, flow_m3_s=self.case.segments[0].flow_m3_s)
        gentle = self.case.inlet.end is not InletEnd.OPEN_TUBE and not self.case.section.is_upright
        if gentle and vent_above_pool_frac(self.case) < constant(
            "vent reading is safe from, height above the pool"
        ):
            return None
        return closure(groups).expected.vent_margin_ratio
