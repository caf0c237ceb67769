"""The quantities that a policy's thresholds may name, each None where the set-up does not tell it."""

from collections.abc import Mapping

from trainer.domain.bead_quantities import BEAD_QUANTITIES
from trainer.domain.breathing_quantities import BREATHING_QUANTITIES
from trainer.domain.gas_quantities import GAS_QUANTITIES
from trainer.domain.heat_quantities import HEAT_QUANTITIES
from trainer.domain.judged import Quantity
from trainer.domain.purge_quantities import PURGE_QUANTITIES
from trainer.domain.reading_quantities import READING_QUANTITIES
from trainer.domain.section_quantities import SECTION_QUANTITIES
from trainer.domain.spool_quantities import SPOOL_QUANTITIES

QUANTITIES: Mapping[str, Quantity] = {
    **BEAD_QUANTITIES,
    **BREATHING_QUANTITIES,
    **GAS_QUANTITIES,
    **HEAT_QUANTITIES,
    **PURGE_QUANTITIES,
    **READING_QUANTITIES,
    **SECTION_QUANTITIES,
    **SPOOL_QUANTITIES,
}
