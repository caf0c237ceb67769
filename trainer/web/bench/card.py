"""A purge card: one page for one joint, with what to set, what to read and what to watch."""

from collections.abc import Iterator
from dataclasses import dataclass

from flask_babel import gettext
from markupsafe import Markup

from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.quantities import Dimension, Never
from trainer.domain.set_up import SetUp, SupplyKind
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.services.bench_set_up import WorkedOut
from trainer.web.figures import caution_shown, oxygen_shown, shown
from trainer.web.gas_account import AccountLine
from trainer.web.gases import gas_words
from trainer.web.preferences import drawing_reader

READINGS_COUNT = 5


@dataclass(frozen=True, kw_only=True)
class CardView:
    """What the card prints."""

    drawing: Markup
    numbers: tuple[AccountLine, ...]
    steps: tuple[str, ...]
    cautions: tuple[str, ...]


def card_view(worked: WorkedOut) -> CardView:
    """The card of a set-up that was worked out."""
    set_up, run = worked.set_up, worked.run
    return CardView(
        drawing=Markup(set_up_drawing(set_up, reader=drawing_reader("card"))),
        numbers=tuple(each for each in _numbers(set_up, run) if each.words != "–"),
        steps=tuple(_steps(set_up)),
        cautions=tuple(caution_shown(each).text for each in run.cautions),
    )


def _numbers(set_up: SetUp, run: PurgeRun) -> Iterator[AccountLine]:
    flow, used, section = set_up.flow, run.gas_used, run.section
    yield _line(gettext("Pipe"), _pipe_words(set_up))
    yield _line(gettext("Gas"), gas_words(set_up.gas.symbol) if set_up.gas and set_up.gas.symbol else "–")
    yield _amount(gettext("Volume to purge"), section.volume_m3 if section else None, Dimension.VOLUME)
    yield _amount(gettext("Purge flow"), flow.purge_m3_s if flow else None, Dimension.VOLUME_FLOW)
    if set_up.meter is not None and run.flow is not None:
        reads = shown(set_up.meter.reads_m3_s, Dimension.VOLUME_FLOW)
        yield _line(
            gettext("Meter reads"),
            gettext(
                "%(reads)s, which is %(true)s",
                reads=reads,
                true=shown(run.flow.true_m3_s, Dimension.VOLUME_FLOW),
            ),
        )
    yield _line(gettext("Wait, by the sums"), _wait_words(run))
    yield _line(gettext("Oxygen at the root before the arc"), _target_words(set_up))
    yield _amount(gettext("Hold flow while welding"), flow.hold_m3_s if flow else None, Dimension.VOLUME_FLOW)
    yield _amount(gettext("Gas on after the weld"), flow.after_for_s if flow else None, Dimension.DURATION)
    yield _amount(gettext("Gas for the joint"), used.total_m3 if used else None, Dimension.VOLUME)
    yield _line(gettext("Supply"), _supply_words(set_up, run))


def _line(label: str, words: str) -> AccountLine:
    return AccountLine(label=label, words=words)


def _amount(label: str, value: float | None, dimension: Dimension) -> AccountLine:
    return _line(label, shown(value, dimension))


def _pipe_words(set_up: SetUp) -> str:
    pipe = set_up.pipe
    if pipe is None:
        return "–"
    if pipe.schedule and (pipe.nps or pipe.dn):
        size = f"NPS {pipe.nps}" if pipe.nps else f"DN {pipe.dn}"
        return f"{size} Sch {pipe.schedule}" + (
            f", {gettext(set_up.material.value)}" if set_up.material else ""
        )
    return gettext(
        "%(outside)s outside, wall %(wall)s",
        outside=shown(pipe.outside_diameter_m, Dimension.LENGTH),
        wall=shown(pipe.wall_m, Dimension.LENGTH),
    )


def _wait_words(run: PurgeRun) -> str:
    """The expected time, and the end of its interval: that is how long to plan with."""
    needed = run.purge.time_to_target_s if run.purge else None
    if isinstance(needed, Never):
        return gettext("the target is never reached: change the set-up")
    if not isinstance(needed, Expected):
        return "–"
    return gettext(
        "%(time)s expected; plan %(most)s, and go by the reading",
        time=shown(needed.expected, Dimension.DURATION),
        most=shown(needed.upper, Dimension.DURATION),
    )


def _target_words(set_up: SetUp) -> str:
    target = set_up.target.oxygen_frac if set_up.target else None
    return "–" if target is None else gettext("%(oxygen)s at most", oxygen=oxygen_shown(target))


def _supply_words(set_up: SetUp, run: PurgeRun) -> str:
    supply = set_up.supply
    if supply is None or supply.kind is None:
        return "–"
    kind = {
        SupplyKind.SINGLE_CYLINDER: gettext("cylinder"),
        SupplyKind.CYLINDER_PACK: gettext("cylinder pack"),
        SupplyKind.LIQUID_DEWAR: gettext("liquid dewar"),
        SupplyKind.BULK_TANK: gettext("bulk tank"),
    }[supply.kind]
    if run.supply is None or run.supply.usable_m3 is None:
        return kind
    return gettext(
        "%(kind)s at %(pressure)s; %(usable)s can be drawn",
        kind=kind,
        pressure=shown(supply.pressure_pa, Dimension.PRESSURE),
        usable=shown(run.supply.usable_m3, Dimension.VOLUME),
    )


def _steps(set_up: SetUp) -> Iterator[str]:
    """The order of the work: common practice, no source; figures from the set-up where it tells them."""
    flow = set_up.flow
    yield gettext("Permit, ventilation and watch in place; air tested where people stand, at the bottom too.")
    yield gettext(
        "Supply held fast, regulator and hose sound; dams set, their ropes led out, inlet and vent open."
    )
    yield gettext(
        "Gas on at %(flow)s; note the time. Vent gas led where nobody stands.",
        flow=shown(flow.purge_m3_s if flow else None, Dimension.VOLUME_FLOW),
    )
    yield gettext("Read oxygen at the joint, where air stays longest; the vent alone flatters.")
    yield gettext(
        "No arc before two readings in a row are at or below %(target)s.",
        target=oxygen_shown(set_up.target.oxygen_frac)
        if set_up.target and set_up.target.oxygen_frac
        else gettext("the target of the WPS"),
    )
    if flow is not None and flow.hold_m3_s is not None:
        yield gettext(
            "Turn down to %(hold)s before the arc; vent open until the last of the root is in.",
            hold=shown(flow.hold_m3_s, Dimension.VOLUME_FLOW),
        )
    yield gettext(
        "Keep the gas on through root and hot pass, and until the root is cool enough not to colour."
    )
    yield gettext("Gas off at the supply; dams out and counted; look at the root; test the air before entry.")
