"""What a refusal says, to the letter: quantity, value, limits and the reason, as a page repeats them."""

import pytest

from trainer.core.breathing import (
    Space,
    air_changes_to_recover,
    below_fresh,
    oxygen_mixed_frac,
    time_to_frac_s,
)
from trainer.core.dewar import liquid_density_kg_m3
from trainer.core.gas import gas
from trainer.core.gas_designation import gas_of_designation
from trainer.core.gas_mix import accepted_shares
from trainer.core.gas_purity import grade_o2_frac, impurity_bound_frac
from trainer.core.oxidation import grade
from trainer.core.release import gas_added_frac, long_term_fall_frac
from trainer.core.terms import RootGrade

TRENCH = Space(volume_m3=3.24, release_m3_s=20 / 60000)
BETWEEN = "oxygen lies between none and that of fresh air"
OWN_OXYGEN = "fresh air alone cannot bring more than its own oxygen"

REFUSALS = [
    (
        lambda: impurity_bound_frac(89.0),
        "purity is 89 % but must be between 90 and 100 %: a purge gas is over 90 % pure",
    ),
    (
        lambda: grade_o2_frac(99.5),
        "'99.5 %' is not a known purity grade; accepted: 99.99 %, 99.996 %, 99.998 %, 99.999 %",
    ),
    (
        lambda: gas_of_designation("argon"),
        "'argon' is not a known gas designation; accepted: ISO 14175 - I1 - Ar, I3 - ArHe - 30",
    ),
    (
        lambda: liquid_density_kg_m3(gas("I2"), pressure_pa=101325.0),
        "'I2' is not a known gas stored as a liquid; accepted: I1, N1",
    ),
    (
        lambda: below_fresh(0.209).check(0.21),
        f"level of oxygen is 0.21 but must be between 0 and 0.209: {OWN_OXYGEN}",
    ),
    (
        lambda: time_to_frac_s(TRENCH, o2_frac=0.3),
        f"level of oxygen is 0.3 but must be between 0 and 0.209: {BETWEEN}",
    ),
    (
        lambda: oxygen_mixed_frac(TRENCH, time_s=1.0, start_o2_frac=0.3),
        f"oxygen at the start is 0.3 but must be between 0 and 0.209: {BETWEEN}",
    ),
    (
        lambda: air_changes_to_recover(0.2, o2_frac=0.195),
        f"oxygen now is 0.2 but must be between 0 and 0.195: {BETWEEN}",
    ),
    (
        lambda: gas_added_frac(0.3),
        "oxygen is 0.3 but must be between 0 and 0.209: gas without oxygen cannot raise it",
    ),
    (
        lambda: long_term_fall_frac(0.02, volume_m3=10.0, air_changes_per_s=0.001),
        "gas released is 0.02 m3/s but must be between 0 and 0.01 m3/s: more gas than the ventilation takes away "
        "fills the room: use the mixed space",
    ),
    (
        lambda: grade(1e-5, thresholds={RootGrade.BRIGHT: 1e-3, RootGrade.BLUE: 1e-5}),
        "upper limit of blue is 1e-05 but must be at least 0.001: a worse grade reaches to more oxygen than a better one",
    ),
]


@pytest.mark.parametrize(("wrong", "words"), REFUSALS, ids=range(len(REFUSALS)))
def test_refusal_names_quantity_value_limits_and_reason(wrong, words):
    with pytest.raises(ValueError) as refused:  # noqa: PT011 (which error it is says less than its words)
        wrong()
    assert str(refused.value) == words


def test_what_a_symbol_accepts_is_written_with_its_excluded_end():
    assert accepted_shares("R2") == ("Ar 0 to 85 %", "He 0 to 85 %", "H2 over 15 to 50 %")
    assert accepted_shares("N2") == ("Ar 0 to 99.5 %", "He 0 to 99.5 %", "N2 0.5 to 5 %")
