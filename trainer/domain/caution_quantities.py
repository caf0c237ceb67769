"""The quantities that a policy's thresholds may name, each None where the set-up does not tell it."""

from collections.abc import Mapping

from trainer.domain.breathing_quantities import BREATHING_QUANTITIES
from trainer.domain.gas_quantities import GAS_QUANTITIES
from trainer.domain.judged import Quantity
from trainer.domain.purge_quantities import PURGE_QUANTITIES
from trainer.domain.section_quantities import SECTION_QUANTITIES

QUANTITIES: Mapping[str, Quantity] = {
    **BREATHING_QUANTITIES,
    **GAS_QUANTITIES,
    **PURGE_QUANTITIES,
    **SECTION_QUANTITIES,
}
