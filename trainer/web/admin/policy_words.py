"""The numbers of a policy in words: what each is called, in what unit it stands, what it decides."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from flask_babel import gettext
from flask_babel import lazy_gettext as _l

from trainer.domain.policy import Policy
from trainer.domain.policy_changes import Bounds, changeable, limit_material, numbers_of
from trainer.web.admin.policy_amounts import Kind, written
from trainer.web.kinds import kind_words

_PASSING = _l("Passing and qualifications")
_ROOT = _l("Oxygen at the root")
_PEOPLE = _l("Air to breathe, and fire")
_GAS = _l("Gas and its supply")
_HEAT = _l("Dams, ropes and heat")
_PURGE = _l("Purge, vents and pressure")
_SUBJECTS = (_PASSING, _ROOT, _PEOPLE, _GAS, _PURGE, _HEAT)

_TIMES, _MONTHS, _DAYS, _COUNT = _l("times"), _l("months"), _l("days"), _l("number")
_SHARE, _LENGTH, _PRESSURE, _DEGREES = Kind.SHARE, Kind.LENGTH, Kind.PRESSURE, Kind.DEGREES

# subject, label, how it is written or what it counts, what it decides, by the policy's own name
_WORDS = {
    "pass_mark_frac": (
        _PASSING, _l("Pass mark"), _SHARE,
        _l("An attempt passes when every skill reaches it."),
    ),
    "qualification.validity_months": (
        _PASSING, _l("How long a qualification is valid"), _MONTHS,
        _l("After that it lapses and is awarded anew."),
    ),
    "qualification.confirmation_months": (
        _PASSING, _l("How often it is confirmed"), _MONTHS,
        _l("Without a confirmation within them it lapses."),
    ),
    "qualification.due_days": (
        _PASSING, _l("When it counts as due"), _DAYS,
        _l("So many days before its last day it is listed as due."),
    ),
    "qualification.diameter_from_ratio": (
        _PASSING, _l("Smallest diameter covered"), _TIMES,
        _l("As a multiple of the smallest diameter that was shown."),
    ),
    "qualification.diameter_to_ratio": (
        _PASSING, _l("Largest diameter covered"), _TIMES,
        _l("As a multiple of the largest diameter that was shown."),
    ),
    "qualification.length_to_ratio": (
        _PASSING, _l("Longest section covered"), _TIMES,
        _l("As a multiple of the longest section that was shown."),
    ),
    "qualification.scenarios_behind_a_critical": (
        _PASSING, _l("Scenarios behind each critical point"), _COUNT,
        _l("So many scenarios have to ask it before a qualification can rest on it."),
    ),
    "thresholds.asphyxiation/breathing.oxygen": (
        _PEOPLE, _l("Air too poor to breathe, below"), _SHARE,
        _l("Oxygen in people's air from which the caution of asphyxiation is given."),
    ),
    "thresholds.boil-off-collects/breathing.boil_off_steady": (
        _PEOPLE, _l("Boil-off that collects, below"), _SHARE,
        _l("Oxygen that a vessel's boil-off alone may bring the room down to before it is cautioned of."),
    ),
    "thresholds.supply-could-empty-here/breathing.supply_emptied": (
        _PEOPLE, _l("Supply emptied into the room, below"), _SHARE,
        _l("Oxygen that may be left if all of the supply escapes, before it is cautioned of."),
    ),
    "thresholds.enriched-air/surroundings.fresh_oxygen": (
        _PEOPLE, _l("Air enriched with oxygen, above"), _SHARE,
        _l("Oxygen in the air from which the caution of fire is given."),
    ),
    "thresholds.hydrogen-burns/gas.hydrogen": (
        _PEOPLE, _l("Hydrogen that can burn, from"), _SHARE,
        _l("Hydrogen in the purge gas from which the caution of a flame at the vent is given."),
    ),
    "thresholds.gas-is-damp/gas.moisture": (
        _GAS, _l("Damp gas, above"), _SHARE,
        _l("Water in the gas from which it is cautioned that the root colours."),
    ),
    "thresholds.no-purge-needed/material.needs_no_purge": (
        _GAS, _l("Root that needs no purge, from"), _COUNT,
        _l("A root that needs no back purge counts 1; from here on it is told that gas is wasted on it."),
    ),
    "thresholds.root-lost/root.oxygen_over_limit": (
        _ROOT, _l("Root lost, from"), _TIMES,
        _l("So many times the limit of its material, the root has to come out again."),
    ),
    "thresholds.supply-runs-out/supply.usable_over_needed": (
        _GAS, _l("Supply for this joint, below"), _TIMES,
        _l("Gas that can be drawn over the gas of one joint, below which it is told that it runs out."),
    ),
    "thresholds.change-before-next-joint/supply.next_over_needed": (
        _GAS, _l("Supply for the next joint, below"), _TIMES,
        _l("Gas that is left over the gas of one joint, below which a change before the next is advised."),
    ),
    "thresholds.boils-off-unused/supply.boil_off_over_joint": (
        _GAS, _l("Boil-off between joints, above"), _TIMES,
        _l("What boils off over what a joint takes, above which it is told that gas is lost."),
    ),
    "thresholds.dam-too-close/dams.margin": (
        _HEAT, _l("Dam to spare at the first pass, up to"), _DEGREES,
        _l("Degrees left to what the dam stands, at or below which it is said to be too close."),
    ),
    "thresholds.dams-heat-up/dams.steady_margin": (
        _HEAT, _l("Dam to spare as passes go on, up to"), _DEGREES,
        _l("The same for an arc that hardly pauses."),
    ),
    "thresholds.rope-too-short/dams.rope_to_spare": (
        _HEAT, _l("Rope to spare, up to"), _LENGTH,
        _l("Rope beyond the way out of the pipe, at or below which the dam is said to stay inside."),
    ),
    "thresholds.burns-near-weld/near_heat.margin": (
        _HEAT, _l("Tape or hose to spare near the weld, up to"), _DEGREES,
        _l("Degrees left to the first harm, at or below which it is said to burn or melt."),
    ),
    "thresholds.dead-leg/dead_leg.time_over_body": (
        _PURGE, _l("Dead leg that sets the time, from"), _TIMES,
        _l("The time that a closed point needs over that of the rest, from which a vent there is asked for."),
    ),
    "thresholds.high-point-crossed/crossed.time_over_vented": (
        _PURGE, _l("High point without a vent, above"), _TIMES,
        _l("The time to purge over the time with a vent there, above which it is cautioned of."),
    ),
    "thresholds.vent-beyond-pool/section.pocket_beyond_vent": (
        _PURGE, _l("Air trapped beyond the vent, from"), _SHARE,
        _l("Share of the section that lies beyond the vent, from which it is cautioned of."),
    ),
    "thresholds.vent-too-small/vent.pressure_rise": (
        _PURGE, _l("Vent too small, from"), _PRESSURE,
        _l("Pressure in the section from which tape or bead is said to blow out."),
    ),
    "thresholds.blows-the-bead/vent.last_pressure_over_pool_head": (
        _PURGE, _l("Bead blown at the last gap, from"), _TIMES,
        _l("Pressure through the last of the joint over what the pool weighs, from which it is cautioned."),
    ),
    "thresholds.pressure-on-bead/vent.pressure_while_welding": (
        _PURGE, _l("Pressure on the bead, from"), _PRESSURE,
        _l("Pressure during the weld from which the bead is said to be pushed."),
    ),
    "thresholds.vent-reading-flatters/analyser.root_over_reading": (
        _PURGE, _l("Reading at the vent that flatters, from"), _TIMES,
        _l("Oxygen at the root over what the analyser reads, from which it is cautioned of."),
    ),
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class NumberWords:
    """One number of a policy for the form: its label, how it is written, and what is said below the box."""

    name: str
    subject: str
    label: str
    kind: Kind
    accepted: str
    hint: str


def number_words_of(policy: Policy) -> Mapping[str, NumberWords]:
    """Every number that a site may set, by name, those of one subject together."""
    defaults = numbers_of(policy)
    known = changeable(policy)
    found = {name: _words(name, bounds, Decimal(repr(defaults[name]))) for name, bounds in known.items()}
    order = [str(each) for each in _SUBJECTS]
    return dict(sorted(found.items(), key=lambda each: order.index(each[1].subject)))


def by_subject(words: Mapping[str, NumberWords]) -> Iterator[tuple[str, list[tuple[int, NumberWords]]]]:
    """The same by subject, each with its place among all."""
    for subject in _SUBJECTS:
        of_subject = [
            (place, each) for place, each in enumerate(words.values()) if each.subject == str(subject)
        ]
        if of_subject:
            yield str(subject), of_subject


def _words(name: str, bounds: Bounds, default: Decimal) -> NumberWords:
    subject, what, unit, decides = _said_of(name)
    kind = unit if isinstance(unit, Kind) else Kind.BARE
    accepted = _accepted(bounds, kind)
    return NumberWords(
        name=name,
        subject=str(subject),
        label=str(what) if unit is kind else gettext("%(what)s (%(unit)s)", what=what, unit=unit),
        kind=kind,
        accepted=accepted,
        hint=gettext(
            "%(decides)s Default %(default)s; accepted: %(accepted)s.",
            decides=decides,
            default=written(default, kind),
            accepted=accepted,
        ),
    )


def _said_of(name: str) -> tuple[object, object, object, object]:
    if name in _WORDS:
        return _WORDS[name]
    group = limit_material(name)
    if group is not None:
        decides = gettext(
            "Oxygen that the root may see when the arc is struck; what is over it is judged by it."
        )
        return _ROOT, gettext("Limit for %(material)s", material=kind_words(group)), _SHARE, decides
    code = name.partition(".")[2]
    decides = gettext("From this value on the caution of this name is given.")
    return _PURGE, gettext("Threshold of the caution '%(code)s'", code=code), gettext("in SI"), decides


def _accepted(bounds: Bounds, kind: Kind) -> str:
    low, high = (written(each, kind) if each.is_finite() else "" for each in (bounds.low, bounds.high))
    if low and high:
        span = gettext("%(low)s to %(high)s", low=low, high=high)
        return gettext("whole numbers, %(span)s", span=span) if bounds.whole else span
    # only sooner than by default: what a source or a law says is nobody's to loosen
    return gettext("%(low)s or more", low=low) if low else gettext("%(high)s or less", high=high)
