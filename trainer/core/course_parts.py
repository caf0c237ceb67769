"""What a course in time asks of a balance of air and of its solution, whatever the layers are."""

from __future__ import annotations

from typing import Protocol

from trainer.core.column import Floats
from trainer.core.solved_layers import Following


class Balance(Protocol):
    """What a course asks of a balance of air at one flow."""

    @property
    def outflow_m3_s(self) -> float:
        """Everything that leaves through the vents.

        Returns:
            [m3/s] outflow
        """

    @property
    def is_closed(self) -> bool:
        """Whether nothing enters or leaves.

        Returns:
            [bool] true when closed
        """

    def vent_air_frac(self, air_frac: Floats) -> Floats:
        """Air fraction of what leaves through the vents.

        Args:
            air_frac [-]: by layer (rows) and time (columns)
        Returns:
            [-] air fraction for each time
        """


class Solution(Protocol):
    """What a course asks of a solved balance."""

    @property
    def steady_air_frac(self) -> Floats:
        """The air fraction that each layer ends at.

        Returns:
            [-] air fraction by layer
        """

    @property
    def slowest_per_s(self) -> float:
        """Rate of the slowest mode.

        Returns:
            [1/s] rate
        """

    @property
    def from_full_of_air(self) -> Following:
        """The air fractions from layers full of air.

        Returns:
            [-] function of times in seconds
        """

    def follow(self, start_air_frac: Floats) -> Following:
        """The air fractions from some start.

        Args:
            start_air_frac [-]: air fraction by layer at time 0
        Returns:
            [-] function of times in seconds
        """
