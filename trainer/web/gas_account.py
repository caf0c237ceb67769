"""Gas, supply and cost of a run, line by line, for whoever orders the gas or pays for it."""

from collections.abc import Iterator
from dataclasses import dataclass

from flask_babel import gettext

from trainer.domain.gas_results import CostResult, GasResult, GasUsed, HoseResult, SupplyResult
from trainer.domain.purge_run import PurgeRun
from trainer.domain.quantities import Dimension
from trainer.web.figures import gas_shown, number_shown, oxygen_shown, plain, shown

_REFERENCES = {
    "15C-1bar": "15 °C, 1 bar", "21C-1atm": "21 °C, 1 atm", "0C-1atm": "0 °C, 1 atm",
    "60F-1atm": "60 °F, 1 atm",
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class AccountLine:
    """One line: what it is, how it reads, and what stands behind it."""

    label: str
    words: str
    beside: str = ""


def gas_account(run: PurgeRun | None) -> tuple[AccountLine, ...]:
    """Everything known of the gas, from what it is to what it costs; empty where nothing is."""
    if run is None:
        return ()
    lines: list[AccountLine] = []
    if run.gas is not None:
        lines += _gas_lines(run.gas)
    if run.gas_used is not None:
        lines += _used_lines(run.gas_used)
    if run.hose is not None:
        lines += _hose_lines(run.hose)
    if run.supply is not None:
        lines += _supply_lines(run.supply)
    if run.cost is not None:
        lines += _cost_lines(run.cost)
    return tuple(lines)


def _line(label: str, value: float | None, dimension: Dimension, beside: str = "") -> Iterator[AccountLine]:
    """A quantity where it is known."""
    if value is not None:
        yield AccountLine(label=label, words=shown(value, dimension), beside=beside)


def _count(label: str, count: int | None) -> Iterator[AccountLine]:
    if count is not None:
        yield AccountLine(label=label, words=str(count))


def _gas_lines(gas: GasResult) -> Iterator[AccountLine]:
    lies = {
        "low": gettext("gathers low"),
        "high": gettext("gathers high"),
        "nowhere": gettext("gathers nowhere for sure"),
    }
    weight = gettext(
        "%(ratio)s times as heavy as air, %(lies)s",
        ratio=plain(gas.density_over_air_ratio or 0.0),
        lies=lies.get(gas.lies or "", ""),
    )
    yield AccountLine(
        label=gettext("Purge gas"), words=gas_shown(gas.name) if gas.name else "", beside=weight
    )
    if gas.oxygen_frac is not None:
        most = gas.oxygen_at_most_frac
        bound = "" if most is None else gettext("at most %(most)s by its purity", most=oxygen_shown(most))
        yield AccountLine(
            label=gettext("Oxygen in the gas"), words=oxygen_shown(gas.oxygen_frac), beside=bound
        )
    yield from _line(gettext("Water in the gas"), gas.moisture_frac, Dimension.FRACTION)
    if gas.verdict is not None:
        yield AccountLine(
            label=gettext("For this material"), words=_verdict_words(gas.verdict), beside=_verdict_reason(gas)
        )


def _verdict_words(verdict: str) -> str:
    words = {
        "recommended": gettext("recommended"),
        "not needed": gettext("no purge needed"),
        "by procedure": gettext("only where a qualified procedure says so"),
        "never": gettext("never"),
    }
    return words[verdict]


def _verdict_reason(gas: GasResult) -> str:
    why, source = (gettext(each) if each else "" for each in (gas.verdict_because, gas.verdict_by))
    return gettext("%(why)s (%(source)s)", why=why, source=source)


def _used_lines(used: GasUsed) -> Iterator[AccountLine]:
    wasted = ""
    if used.wasted_m3:
        wasted = gettext(
            "%(wasted)s of it after the root was ready", wasted=shown(used.wasted_m3, Dimension.VOLUME)
        )
    yield from _line(gettext("Gas before the arc"), used.before_arc_m3, Dimension.VOLUME, wasted)
    yield from _line(gettext("Gas while welding"), used.during_arc_m3, Dimension.VOLUME)
    yield from _line(gettext("Gas after the weld"), used.after_arc_m3, Dimension.VOLUME)
    yield from _line(gettext("Gas for the joint"), used.total_m3, Dimension.VOLUME)


def _hose_lines(hose: HoseResult) -> Iterator[AccountLine]:
    yield from _line(gettext("Pressure lost in the hose"), hose.pressure_drop_pa, Dimension.PRESSURE)
    choked = gettext("held back by the speed of sound") if hose.choked else ""
    yield from _line(
        gettext("Most that the hose passes"), hose.largest_flow_m3_s, Dimension.VOLUME_FLOW, choked
    )


def _supply_lines(supply: SupplyResult) -> Iterator[AccountLine]:
    of_all = gettext(
        "of %(contents)s, at %(reference)s",
        contents=shown(supply.contents_m3, Dimension.VOLUME),
        reference=_REFERENCES.get(supply.reference or "", ""),
    )
    yield from _line(gettext("Gas that can be drawn"), supply.usable_m3, Dimension.VOLUME, of_all)
    yield from _line(gettext("Lasts at the purge flow"), supply.runs_for_s, Dimension.DURATION)
    yield from _line(gettext("Steady flow that it delivers"), supply.deliverable_m3_s, Dimension.VOLUME_FLOW)
    if supply.evaporates_m3_s is not None:
        yield from _line(
            gettext("Boils off in a day"), supply.evaporates_m3_s * 86_400.0, Dimension.VOLUME,
            gettext("into wherever the vessel stands"),
        )  # fmt: skip
    yield from _count(gettext("Joints in it"), supply.joints)
    left = ""
    if supply.left_over_m3 is not None:
        left = gettext("%(left)s go back in them", left=shown(supply.left_over_m3, Dimension.VOLUME))
    if supply.supplies_needed is not None:
        yield AccountLine(
            label=gettext("Supplies for the job"), words=str(supply.supplies_needed), beside=left
        )
    if supply.change_below_pa is not None:
        pressure = shown(supply.change_below_pa, Dimension.PRESSURE)
        yield AccountLine(label=gettext("Change it before a joint below"), words=pressure)
    if supply.change_below_fill_frac is not None:
        level = gettext("%(percent)s %% full", percent=plain(100.0 * supply.change_below_fill_frac))
        yield AccountLine(label=gettext("Change it before a joint below"), words=level)


def _cost_lines(cost: CostResult) -> Iterator[AccountLine]:
    money = gettext("in the money of the prices")
    lines = (
        (gettext("Cost of the gas"), cost.gas),
        (gettext("Of that wasted"), cost.wasted_gas),
        (gettext("Cost of waiting"), cost.waiting),
        (gettext("Cost of the lost joint"), cost.lost_joint),
        (gettext("Cost in all"), cost.total),
    )
    for label, value in lines:
        if value is not None:
            yield AccountLine(label=label, words=number_shown(value, ".2f"), beside=money)
