"""Pressure on the bead, and heat at dams, ropes and tapes, line by line on the page of a result."""

from collections.abc import Iterator

from flask_babel import gettext

from trainer.domain.purge_run import DamResult, HotPartResult, PurgeRun, VentResult
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import Dam, SetUp, Side
from trainer.web.figures import shown
from trainer.web.gas_account import AccountLine
from trainer.web.said import said

_CELSIUS_ZERO_K = 273.15


def bead_and_heat(set_up: SetUp, run: PurgeRun | None) -> tuple[AccountLine, ...]:
    """Everything known of both, the pressure first; empty where nothing is."""
    if run is None:
        return ()
    lines: list[AccountLine] = []
    if run.vent is not None:
        lines += _pressure_lines(run.vent)
    for dam, found in zip(set_up.dams, run.dams, strict=True):
        lines += _dam_lines(dam, found)
    for part in run.near_heat:
        lines += _near_lines(part)
    return tuple(lines)


def _pressure_lines(vent: VentResult) -> Iterator[AccountLine]:
    last = gettext("the vent and the last of the root let it out")
    shut = gettext("nothing lets the gas out, and it rises on")
    figures = (
        (gettext("Pressure while welding"), vent.pressure_while_welding_pa, ""),
        (gettext("Pressure at the last of the joint"), vent.pressure_at_last_of_joint_pa, last),
        (
            gettext("What the pool weighs"),
            vent.pool_head_pa,
            gettext("density of the liquid metal from memory"),
        ),
        (gettext("What its surface bridges"), vent.bridging_pressure_pa, gettext("a yardstick, no limit")),
    )
    for label, value_pa, beside in figures:
        if value_pa is not None:
            yield AccountLine(label=label, words=shown(value_pa, Dimension.PRESSURE), beside=beside)
    if vent.reaches_pool_head_s is not None:
        time = shown(vent.reaches_pool_head_s, Dimension.DURATION)
        yield AccountLine(label=gettext("Shut in, the pool lifts after"), words=time, beside=shut)


def _dam_lines(dam: Dam, found: DamResult) -> Iterator[AccountLine]:
    left = dam.side is Side.LEFT
    if found.temperature_c is not None:
        yield AccountLine(
            label=gettext("Heat at the left dam") if left else gettext("Heat at the right dam"),
            words=_degrees(found.temperature_c),
            beside=_limit_words(found.limit_c, found.safe_distance_m),
        )
    if found.steady_c is not None:
        label = (
            gettext("Left dam, arc without a pause") if left else gettext("Right dam, arc without a pause")
        )
        yield AccountLine(
            label=label, words=_degrees(found.steady_c), beside=gettext("no passes build up further")
        )
    if found.rope_long_enough is not None:
        reaches = (
            gettext("leads out of the pipe's end")
            if found.rope_long_enough
            else gettext("too short to lead out")
        )
        label = gettext("Rope of the left dam") if left else gettext("Rope of the right dam")
        yield AccountLine(label=label, words=reaches)
    if found.surely_holds_pa is not None and found.surely_slips_pa is not None:
        label = (
            gettext("Pressure that the left dam holds")
            if left
            else gettext("Pressure that the right dam holds")
        )
        yield AccountLine(
            label=label,
            words=shown(found.surely_holds_pa, Dimension.PRESSURE),
            beside=gettext(
                "soft foam holds no more, hard foam up to %(most)s",
                most=shown(found.surely_slips_pa, Dimension.PRESSURE),
            ),
        )


def _near_lines(part: HotPartResult) -> Iterator[AccountLine]:
    if part.temperature_c is not None:
        what = said(part.what) if part.what else gettext("a part near the weld")
        yield AccountLine(
            label=gettext("Heat at %(what)s", what=what),
            words=_degrees(part.temperature_c),
            beside=_limit_words(part.limit_c, part.safe_distance_m),
        )


def _limit_words(limit_c: float | None, safe_m: float | None) -> str:
    if limit_c is None:
        return ""
    if safe_m is None:
        return gettext("stands %(limit)s", limit=_degrees(limit_c))
    return gettext(
        "stands %(limit)s, so at least %(distance)s from the weld",
        limit=_degrees(limit_c),
        distance=shown(safe_m, Dimension.LENGTH),
    )


def _degrees(value_c: float) -> str:
    return shown(value_c + _CELSIUS_ZERO_K, Dimension.TEMPERATURE)
