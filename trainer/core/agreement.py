"""How far the purge model's times lie from simulated ones: the table of agreement, and what it amounts to."""

from collections.abc import Iterable
from dataclasses import dataclass

from trainer.core.interval import Interval
from trainer.core.tables import table_rows

CLOSE_RATIO = 1.25  # a time within a quarter of the simulated one is called close


@dataclass(frozen=True, kw_only=True)
class Agreement:
    """Volume changes until the worst point of the root is below a target: simulated, and by the model.

    Args:
        run [text]: name of the simulated run
        description [text]: the set-up in words
        judges [text]: "judge" for a run that no constant was set on, "fit" for the others
        target_o2_frac [-]: oxygen to come down to, mole fraction
        simulated_count [-]: volume changes by the simulation
        modelled [record]: volume changes by the model between its ends
    """

    run: str
    description: str
    judges: str
    target_o2_frac: float
    simulated_count: float
    modelled: Interval

    @property
    def ratio(self) -> float:
        """Simulated over expected: above 1 the model is too quick.

        Returns:
            [-] ratio of volume changes
        """
        return self.simulated_count / self.modelled.expected

    @property
    def is_close(self) -> bool:
        """Whether the expected value lies within a quarter of the simulated one.

        Returns:
            [bool] close
        """
        return 1.0 / CLOSE_RATIO <= self.ratio <= CLOSE_RATIO

    @property
    def is_held(self) -> bool:
        """Whether the model's interval holds the simulated value.

        Returns:
            [bool] held
        """
        return self.modelled.lower <= self.simulated_count <= self.modelled.upper


@dataclass(frozen=True, kw_only=True)
class AgreementShare:
    """How many of some simulated times lie close to the model's, and how many its intervals hold."""

    times_count: int
    close_count: int
    held_count: int


def agreements() -> tuple[Agreement, ...]:
    """The whole table, in its order.

    Returns:
        [record] one for each run and target

    Example:
        >>> agreements()[0].run
        'A01_diff_low_high'

    Reference: simulated values from an independent finite-volume simulation in three dimensions, written to
    the table beside the model's own; a test holds the table to what the model gives.
    """
    return tuple(
        Agreement(
            run=row["run"],
            description=row["description"],
            judges=row["used_for"],
            target_o2_frac=float(row["target_o2_frac"]),
            simulated_count=float(row["simulated_volume_changes"]),
            modelled=Interval(
                float(row["expected_volume_changes"]),
                float(row["lower_volume_changes"]),
                float(row["upper_volume_changes"]),
            ),
        )
        for row in table_rows("simulation_agreement")
    )


def agreement_share(rows: Iterable[Agreement]) -> AgreementShare:
    """How many of these times are close, and how many the intervals hold.

    Args:
        rows [record]: any of the table's rows
    Returns:
        [record] counts

    Example:
        >>> agreement_share(agreements()[:3]).times_count
        3

    Reference: counting.
    """
    counted = tuple(rows)
    return AgreementShare(
        times_count=len(counted),
        close_count=sum(each.is_close for each in counted),
        held_count=sum(each.is_held for each in counted),
    )
