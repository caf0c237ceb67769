"""How the root comes out if the arc is struck after the wait."""

from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.oxidation import grade, grade_thresholds, root_colour
from trainer.domain.policy import Policy
from trainer.domain.purge_run import PurgeResult, RootResult
from trainer.domain.set_up import SetUp


def root_result(set_up: SetUp, *, purge: PurgeResult | None, policy: Policy) -> RootResult | None:
    """Grade and colour at the oxygen expected at arc strike, by the site's grades or the core's proposal."""
    after = purge.oxygen_after_wait_frac if purge else None
    if after is None or set_up.material is None:
        return None
    # A section still full of air may carry a last digit more than air.
    oxygen_frac = min(after.expected, O2_IN_DRY_AIR_FRAC)
    thresholds = policy.root_grades.get(set_up.material) or grade_thresholds(set_up.material)
    return RootResult(
        grade=grade(oxygen_frac, thresholds=thresholds),
        colour=root_colour(oxygen_frac, group=set_up.material, thresholds=thresholds),
    )
