"""What contradicts itself in dams, fan and what else surrounds the purge."""

from collections.abc import Iterator

from trainer.core.terms import Fan
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_fault import SetUpFault


def dam_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Dams without a side, or two on one."""
    seen: dict[str, int] = {}
    for place, dam in enumerate(set_up.dams):
        if dam.side is None:
            yield SetUpFault(path=f"dams.{place}.side", code="side-missing")
        elif dam.side in seen:
            yield SetUpFault(
                path=f"dams.{place}.side",
                code="two-dams-on-a-side",
                value=dam.side,
                facts={"first": seen[dam.side]},
            )
        else:
            seen[dam.side] = place


def fan_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """A flow of a fan that is not there."""
    around = set_up.surroundings
    if around is not None and around.fan is Fan.NONE and around.fan_flow_m3_s:
        yield SetUpFault(
            path="surroundings.fan_flow", code="flow-without-fan", value=around.fan_flow_m3_s,
            dimension=Dimension.VOLUME_FLOW,
        )  # fmt: skip
