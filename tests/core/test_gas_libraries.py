"""Gases against two independent libraries: Cantera's kinetic theory, and the formulas of `chemicals`.

Cantera 3.2.0 with gri30.yaml: Lennard-Jones parameters and Chapman-Enskog theory, mixture-averaged. chemicals 1.5:
Wilke's rule and the virial equation by Pitzer and Curl. Both are tests' libraries only; nothing here is our output.
"""

import cantera
import pytest
from chemicals import Wilke
from chemicals.virial import BVirial_Pitzer_Curl

from trainer.core.compressibility import compressibility_ratio
from trainer.core.gas import component, density_kg_m3, diffusivity_in_air_m2_s, gas, viscosity_pa_s
from trainer.core.gas_mix import mixture

TEMPERATURES_K = (273.15, 293.15, 323.15)
DRY_AIR = {"O2": 0.2095, "N2": 0.7812, "AR": 0.0093}
SPECIES = {"Ar": "AR", "N2": "N2", "H2": "H2"}
SYMBOLS = {"Ar": "I1", "N2": "N1", "H2": "H2"}


@pytest.fixture(scope="module")
def kinetic():
    solution = cantera.Solution("gri30.yaml")
    solution.transport_model = "mixture-averaged"
    return solution


@pytest.mark.parametrize("temperature_k", TEMPERATURES_K)
@pytest.mark.parametrize(("symbol", "shares"), [("I1", {"AR": 1.0}), ("N1", {"N2": 1.0}), ("AIR", DRY_AIR)])
def test_density_and_viscosity_of_a_gas_follow_kinetic_theory(kinetic, temperature_k, symbol, shares):
    kinetic.TPX = temperature_k, 101325.0, shares
    ours = gas(symbol)
    assert density_kg_m3(ours, temperature_k=temperature_k) == pytest.approx(kinetic.density, rel=5e-4)
    # Lennard-Jones parameters of gri30 give argon 1.8 % high; measured values lie between
    assert viscosity_pa_s(ours, temperature_k=temperature_k) == pytest.approx(kinetic.viscosity, rel=0.02)


@pytest.mark.parametrize("temperature_k", TEMPERATURES_K)
def test_argon_diffuses_in_air_as_blancs_law_of_kinetic_pairs_says(kinetic, temperature_k):
    kinetic.TPX = temperature_k, 101325.0, {"AR": 1.0}
    pairs, at = kinetic.binary_diff_coeffs, kinetic.species_index
    in_air = 1.0 / (0.79 / pairs[at("AR"), at("N2")] + 0.21 / pairs[at("AR"), at("O2")])
    assert diffusivity_in_air_m2_s(gas("I1"), temperature_k=temperature_k) == pytest.approx(in_air, rel=0.02)


MIXTURES = [
    {"Ar": 0.98, "H2": 0.02},
    {"Ar": 0.90, "H2": 0.10},
    {"N2": 0.95, "H2": 0.05},
    {"N2": 0.90, "H2": 0.10},
    {"Ar": 0.70, "N2": 0.30},
]


@pytest.mark.parametrize("shares", MIXTURES, ids=str)
def test_a_mixture_is_as_heavy_and_as_viscous_as_kinetic_theory_says(kinetic, shares):
    kinetic.TPX = 293.15, 101325.0, {SPECIES[name]: share for name, share in shares.items()}
    ours = mixture(shares, symbol="mixed")
    assert density_kg_m3(ours, temperature_k=293.15) == pytest.approx(kinetic.density, rel=5e-4)
    assert viscosity_pa_s(ours, temperature_k=293.15) == pytest.approx(kinetic.viscosity, rel=0.025)


@pytest.mark.parametrize("shares", [*MIXTURES, {"Ar": 0.5, "He": 0.5}, {"Ar": 0.2, "He": 0.8}], ids=str)
def test_viscosities_mix_by_wilkes_rule_as_chemicals_writes_it(shares):
    parts = {name: component({**SYMBOLS, "He": "I2"}[name]) for name in shares}
    expected = Wilke(
        list(shares.values()),
        [parts[name].viscosity_ref_pa_s for name in shares],
        [parts[name].molar_mass_kg_mol * 1e3 for name in shares],
    )
    assert mixture(shares, symbol="mixed").viscosity_ref_pa_s == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    "bar", [5.0, 10.0, 20.0]
)  # with the second coefficient alone: not beyond some 20 bar
def test_moderate_pressures_depart_from_an_ideal_gas_as_the_virial_equation_says(bar):
    # argon: Tc 150.687 K, Pc 4.863 MPa, omega -0.0022 (Tegeler et al., J. Phys. Chem. Ref. Data 28 (1999) 779)
    second = BVirial_Pitzer_Curl(288.15, 150.687, 4.863e6, -0.0022)
    expected = 1.0 + second * bar * 1e5 / (8.314462618 * 288.15)
    ours = compressibility_ratio(gas("I1"), pressure_pa=bar * 1e5, temperature_k=288.15)
    assert ours == pytest.approx(expected, abs=1e-3)
