"""What the root sees in one stage of a purge, each figure computed when it is first asked for."""

import math
from dataclasses import dataclass, fields
from functools import cached_property

from trainer.core.dilution import Purge
from trainer.core.purge_watch import highest_o2_frac
from trainer.domain.purge_run import Expected, StageResult
from trainer.domain.run_time_line import expected_of
from trainer.domain.time_line import KnownStage


@dataclass(kw_only=True)
class StageFigures:
    """What StageResult holds, under its names."""

    purge: Purge
    stage: KnownStage

    def all(self) -> StageResult:
        """Every figure."""
        return StageResult(**{each.name: getattr(self, each.name) for each in fields(StageResult)})

    @property
    def kind(self) -> str:
        """What happens in it."""
        return str(self.stage.kind)

    @property
    def starts_s(self) -> float:
        """When it begins."""
        return self.stage.starts_s

    @property
    def ends_s(self) -> float | None:
        """When it ends; None where it goes on."""
        return None if math.isinf(self.stage.ends_s) else self.stage.ends_s

    @property
    def flow_m3_s(self) -> float:
        """What flows."""
        return self.stage.flow_m3_s

    @cached_property
    def oxygen_at_end_frac(self) -> Expected | None:
        """Oxygen at the worst point of the root when it ends."""
        return None if self.ends_s is None else expected_of(self.purge.oxygen_at(self.ends_s))

    @cached_property
    def expected_oxygen_at_end_frac(self) -> float | None:
        """The same without its ends, for which more courses have to be solved."""
        return None if self.ends_s is None else self.purge.expected_o2_frac(self.ends_s)

    @cached_property
    def highest_oxygen_frac(self) -> float:
        """The highest that the worst point of the root sees in it."""
        return highest_o2_frac(self.purge, from_s=self.stage.starts_s, until_s=self.stage.ends_s)
