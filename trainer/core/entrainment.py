"""Air that leaks draw in: a loose fitting or torn hose by the passing gas, an old foam dam along its edge."""

import math

from trainer.core.errors import Limits, UnknownName
from trainer.core.gas import (
    AIR,
    REFERENCE_TEMPERATURE_K,
    G,
    Gas,
    density_kg_m3,
    viscosity_pa_s,
)
from trainer.core.in_leaks import circle_air_inflow_m3_s
from trainer.core.pipe import BORE, bore_area_m2
from trainer.core.tables import table_rows
from trainer.core.vent import DISCHARGE_COEFFICIENT, FLOW

_AREA = Limits(quantity="leak area", unit="m2", low=0.0, high=0.1, why="an opening is not negative")
_THICKNESS = Limits(quantity="dam thickness", unit="m", low=0.005, high=2.0, why="dams are 5 mm to 2 m thick")
_EDGE = Limits(
    quantity="gap at the dam's edge", unit="m", low=0.0, high=1e-3, why="flow in a wider gap is not laminar"
)


def leak_places() -> tuple[str, ...]:
    """The places of a leak that the core knows.

    Returns:
        [text] names, as data/leak_places.csv spells them

    Example:
        >>> "hose fitting" in leak_places()
        True

    Reference: data/leak_places.csv, common practice.
    """
    return tuple(row["where"] for row in table_rows("leak_places"))


def leak_air_inflow_m3_s(
    flow_m3_s: float, *, where: str, area_m2: float, hose_bore_m: float, gas: Gas
) -> float:
    """Air that a leak lets into the gas.

    supply side: Q_in = s Q Cd (A / A_hose) sqrt(rho_gas / rho_air), as a jet pump that works to the share s;
    in the section: exchange through a round hole of the leak's area at no net outflow

    Args:
        flow_m3_s [m3/s]: Q, the purge flow
        where [text]: one of `leak_places`
        area_m2 [m2]: A of the leak
        hose_bore_m [m]: bore of the hose, for A_hose
        gas [record]: the purge gas
    Returns:
        [m3/s] air in; on the supply side it is mixed into the gas before the inlet
    Raises:
        UnknownName: for a place that the table does not hold
        OutOfRange: for a negative flow or area
    Valid: an assumption for training, no published figure: gas may as well only leak out. In the section
        it is the worst case, all gas leaving elsewhere.

    Example:
        >>> from trainer.core.gas import gas
        >>> q = leak_air_inflow_m3_s(
        ...     15 / 60000, where="hose fitting", area_m2=1e-6, hose_bore_m=0.00635, gas=gas("I1"))
        >>> round(q * 60000, 3)
        0.034

    Reference: own model on the dynamic pressure of the gas in the hose; shares are assumptions, status d.
    """
    FLOW.check(flow_m3_s)
    _AREA.check(area_m2)
    rows = {row["where"]: row for row in table_rows("leak_places")}
    if where not in rows:
        raise UnknownName("place of a leak", where, known=leak_places())
    share = float(rows[where]["share"])
    if rows[where]["kind"] == "opens":
        return share * _hole_inflow_m3_s(area_m2, gas)
    density_ratio = gas.molar_mass_kg_mol / AIR.molar_mass_kg_mol
    area_ratio = area_m2 / bore_area_m2(hose_bore_m)
    return share * flow_m3_s * DISCHARGE_COEFFICIENT * area_ratio * math.sqrt(density_ratio)


def _hole_inflow_m3_s(area_m2: float, gas: Gas) -> float:
    if area_m2 == 0.0:
        return 0.0
    return circle_air_inflow_m3_s(0.0, diameter_m=math.sqrt(4.0 * area_m2 / math.pi), gas=gas)


def foam_edge_gap_m(age: str) -> float:
    """Gap between a foam dam's edge and the bore.

    Args:
        age [text]: "new" or "old"
    Returns:
        [m] gap
    Raises:
        UnknownName: for another age
    Valid: an assumption for training.

    Example:
        >>> foam_edge_gap_m("new")
        0.0

    Reference: data/foam_edges.csv, assumption, status d.
    """
    gaps = {row["age"]: float(row["edge_gap_m"]) for row in table_rows("foam_edges")}
    if age not in gaps:
        raise UnknownName("age of a foam dam", age, known=tuple(gaps))
    return gaps[age]


def foam_edge_air_inflow_m3_s(bore_m: float, *, edge_gap_m: float, thickness_m: float, gas: Gas) -> float:
    """Air that comes in along the edge of a foam dam in a level pipe.

    Q_in = w^3 g |rho - rho_air| d^2 / (24 mu b): laminar flow between plates, air in above mid-height and gas
    out below it

    Args:
        bore_m [m]: d
        edge_gap_m [m]: w
        thickness_m [m]: b of the dam
        gas [record]: the gas inside
    Returns:
        [m3/s] air in
    Raises:
        OutOfRange: for a gap over 1 mm
    Valid: worst case: the neutral level at mid-height, no overpressure that holds the air out. A dam in a
        sloping pipe spans less height, bore times cos(slope), so that the level one bounds it.

    Example:
        >>> from trainer.core.gas import gas
        >>> q = foam_edge_air_inflow_m3_s(0.1615, edge_gap_m=0.0005, thickness_m=0.1, gas=gas("I1"))
        >>> round(q * 60000, 4)
        0.02

    Reference: plane Poiseuille flow (Bird, Stewart and Lightfoot, Transport Phenomena) integrated over the
    upper half of the ring; gap an assumption, status d.
    """
    BORE.check(bore_m)
    _EDGE.check(edge_gap_m)
    _THICKNESS.check(thickness_m)
    gas_kg_m3 = density_kg_m3(gas, temperature_k=REFERENCE_TEMPERATURE_K)
    air_kg_m3 = density_kg_m3(AIR, temperature_k=REFERENCE_TEMPERATURE_K)
    viscosity = viscosity_pa_s(AIR, temperature_k=REFERENCE_TEMPERATURE_K)
    gradient = G * abs(gas_kg_m3 - air_kg_m3) * bore_m**2 / (24.0 * viscosity * thickness_m)
    return edge_gap_m**3 * gradient
