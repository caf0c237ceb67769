"""The body of a spool: all that the purge gas reaches, asked as any other purge."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

import numpy as np

from trainer.core.column import Column, Floats
from trainer.core.dilution import Purge
from trainer.core.plug_course import PlugCourse
from trainer.core.purge_case import PurgeCase

UNTESTED_SPOOL = "spool: only single straight sections tested"
UNTESTED_CROSSING = "spool: gas crosses a high point without a vent"


class SpoolBody(Purge):
    """The body of a spool; asked as any other purge.

    Args:
        case [record]: the straight section of the same volume, which the closure goes by
        layers [record]: gives the layers of the body
        is_crossed [bool]: whether the gas has to cross a high point without a vent

    Reference: as `purge_spool`.
    """

    def __init__(
        self, case: PurgeCase, *, layers: Callable[[PurgeCase], Column], is_crossed: bool = False
    ) -> None:
        super().__init__(case, layers=layers)
        self._body_layers = layers
        self._is_crossed = is_crossed

    @cached_property
    def _edge_m(self) -> Floats:
        return self._body_layers(self.case).edge_m

    @property
    def height_m(self) -> float:
        """Height that the body spans.

        Returns:
            [m] height
        """
        return float(self._edge_m[-1])

    @property
    def root_floor_air_frac(self) -> float:
        """Air at the worst point of the root that the first flow ends at.

        Returns:
            [-] air fraction
        """
        return self.courses.expected.root_floor_frac[0]

    def mouth_air_frac(self, piece: int, *, height_m: float, times_s: Floats) -> Floats:  # noqa: ARG002
        """Air fraction at the mouth of a dead leg, which its height decides.

        Args:
            piece [-]: number of the piece at the mouth
            height_m [m]: height above the side where the gas settles
            times_s [s]: times since the gas was turned on
        Returns:
            [-] air fraction for each time
        """
        return self.air_frac_at(height_m, times_s=times_s)

    def air_frac_at(self, height_m: float, *, times_s: Floats) -> Floats:
        """Air fraction at some height of the body.

        Args:
            height_m [m]: height above the side where the gas settles
            times_s [s]: times since the gas was turned on
        Returns:
            [-] air fraction for each time; that of the root where the gas moves as a plug
        """
        if isinstance(self.courses.expected, PlugCourse):
            return self.courses.expected.root_mean_vent(times_s)[:, 0]
        air = self.courses.expected.layers_air_frac(times_s)
        layer = int(np.searchsorted(self._edge_m, height_m, side="left")) - 1
        return np.asarray(air[max(0, min(air.shape[0] - 1, layer))])

    @cached_property
    def beyond_tested_range(self) -> tuple[str, ...]:
        """Why the spool lies outside what was simulated: always, for none was.

        Returns:
            [text] reasons
        """
        crossed = (UNTESTED_CROSSING,) if self._is_crossed else ()
        return (*super().beyond_tested_range, UNTESTED_SPOOL, *crossed)

    @cached_property
    def vent_margin_ratio(self) -> float | None:
        """By how much the root may hold more than a vent reads: nothing is known of that for a spool.

        Returns:
            [-] None
        """
        return None
