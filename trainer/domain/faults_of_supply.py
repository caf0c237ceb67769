"""What contradicts itself in the supply: gas and liquid confused, too full, at no such pressure."""

from collections.abc import Iterator

from trainer.core.dewar import LIQUID_PRESSURE
from trainer.core.errors import OutOfRange
from trainer.core.gas import ATMOSPHERE_PA, Gas
from trainer.core.tables import table_rows
from trainer.domain.known_parts import find_gas_of, joint_time_of
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp, Supply
from trainer.domain.set_up_fault import SetUpFault, fault_from
from trainer.domain.supply_stock import CYLINDER_KINDS, LIQUID_KINDS, stop_pressure_of

# Vapour space that stays when the vessel has warmed to its relief pressure: 2 % (IMO gas carrier code and
# US transport rules for cryogenic vessels, both as quoted on public pages that were read).
FULLEST_FRAC = 0.98


def supply_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Everything in the supply that contradicts itself, its gas, or the time of a joint."""
    supply = set_up.supply
    if supply is None:
        return
    if supply.kind in CYLINDER_KINDS:
        yield from _cylinder_faults(supply)
    elif supply.kind in LIQUID_KINDS:
        yield from _liquid_faults(supply, find_gas_of(set_up))
    elif supply.kind is None and supply.stop_pressure_pa is not None:
        yield from _stop_faults(supply)
    yield from _pace_faults(set_up, supply)


def _cylinder_faults(supply: Supply) -> Iterator[SetUpFault]:
    only_liquid = (
        ("fill", supply.fill_frac, None), ("residual", supply.residual_frac, None),
        ("daily_loss", supply.daily_loss_frac, Dimension.FRACTION),
    )  # fmt: skip
    for key, value, dimension in only_liquid:
        if value is not None:
            yield SetUpFault(
                path=f"supply.{key}", code="only-for-liquid", value=value, dimension=dimension,
                facts={"kind": str(supply.kind)},
            )  # fmt: skip
    yield from _stop_faults(supply)


def _stop_faults(supply: Supply) -> Iterator[SetUpFault]:
    if supply.pressure_pa is None or supply.stop_pressure_pa is None:
        return
    if stop_pressure_of(supply) > supply.pressure_pa:
        yield SetUpFault(
            path="supply.stop_pressure", code="stop-above-pressure", value=supply.stop_pressure_pa,
            dimension=Dimension.PRESSURE, facts={"pressure_pa": supply.pressure_pa},
        )  # fmt: skip


def _liquid_faults(supply: Supply, used: Gas | None) -> Iterator[SetUpFault]:
    kind = str(supply.kind)
    kept_liquid = {row["gas"] for row in table_rows("liquids")}
    if used is not None and used.symbol not in kept_liquid:
        code = "mixture-kept-liquid" if used.composition else "not-kept-liquid"
        facts = {"gas": used.name, "known": ", ".join(sorted(kept_liquid))}
        yield SetUpFault(path="supply.kind", code=code, value=kind, facts=facts, involves=("gas.symbol",))
    if supply.stop_pressure_pa is not None:
        yield SetUpFault(
            path="supply.stop_pressure", code="only-for-cylinders", value=supply.stop_pressure_pa,
            dimension=Dimension.PRESSURE, facts={"kind": kind},
        )  # fmt: skip
    if supply.fill_frac is not None and supply.pressure_pa is None:
        yield SetUpFault(path="supply.pressure", code="pressure-missing", facts={"kind": kind})
    if supply.fill_frac is not None and supply.fill_frac > FULLEST_FRAC:
        facts_of_fill: dict[str, float | str] = {"kind": kind, "high": FULLEST_FRAC}
        yield SetUpFault(path="supply.fill", code="over-full", value=supply.fill_frac, facts=facts_of_fill)
    if supply.pressure_pa is not None:
        try:
            LIQUID_PRESSURE.check(supply.pressure_pa + ATMOSPHERE_PA)
        except OutOfRange as error:
            yield fault_from(error, path="supply.pressure")


def _pace_faults(set_up: SetUp, supply: Supply) -> Iterator[SetUpFault]:
    """Joints that begin sooner than one of them takes."""
    taken_s = joint_time_of(set_up)
    if supply.joint_every_s is not None and taken_s is not None and supply.joint_every_s < taken_s:
        yield SetUpFault(
            path="supply.joint_every", code="joint-every-too-short", value=supply.joint_every_s,
            dimension=Dimension.DURATION, facts={"taken_s": taken_s},
            involves=("wait", "flow.hold_for", "flow.after_for"),
        )  # fmt: skip
