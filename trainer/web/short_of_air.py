"""Who is short of air, person by person, and what a blower could do; for deciding that nobody goes in."""

from dataclasses import dataclass, replace

from flask_babel import gettext
from markupsafe import Markup

from trainer.core.release import OxygenEffect
from trainer.domain.air_over_time import air_over_time
from trainer.domain.around_results import BreathingResult, PersonResult
from trainer.domain.purge_run import PurgeRun
from trainer.domain.quantities import Dimension, Never
from trainer.domain.run_people_air import LEAST_TO_BREATHE_FRAC
from trainer.domain.set_up import Place, SetUp
from trainer.drawing.air_plot import air_plot, air_rows
from trainer.web.figures import air_shown, shown
from trainer.web.preferences import drawing_reader


@dataclass(frozen=True, kw_only=True)
class PersonLine:
    """One person: who it is, what is breathed there, and whether it is too little."""

    who: str
    air: str
    is_short: bool


@dataclass(frozen=True, kw_only=True)
class ShortOfAir:
    """Everybody near the joint, how long blowing out would take, and what goes before every entry."""

    people: tuple[PersonLine, ...]
    blower: str
    before_entry: str
    plot: Markup | None
    heads: list[str]  # of the table behind the plot
    rows: list[tuple[str, ...]]


def short_of_air(set_up: SetUp, run: PurgeRun | None, *, number: int = 1) -> ShortOfAir | None:
    """The air at each face and over time; None where nobody is near and no blower stands by.

    The scenario's number keeps its plot apart from others on the page.
    """
    told = air_near(set_up, run)
    over_time = air_over_time(set_up) if told is not None else None
    if told is None or over_time is None:
        return told
    faces = [gettext("Person %(number)s", number=place + 1) for place in range(len(told.people))]
    reader = drawing_reader(f"air-{number}")
    return replace(
        told,
        plot=Markup(air_plot(over_time, reader=reader)),
        heads=[f"#{each}" for each in (gettext("Minutes"), gettext("If it mixes"), *faces)],
        rows=air_rows(over_time, reader=reader),
    )


def air_near(set_up: SetUp, run: PurgeRun | None) -> ShortOfAir | None:
    """The same without its course over time, which takes the core as long as all the rest."""
    air = run.breathing if run is not None else None
    if air is None or not (air.people or air.ventilated_s is not None):
        return None
    return ShortOfAir(
        plot=None,
        heads=[],
        rows=[],
        people=tuple(_line(number, each, set_up) for number, each in enumerate(air.people, start=1)),
        blower=_blower_words(air, set_up),
        before_entry=gettext(
            "Sums, no promise of minutes. Nobody goes in to fetch anybody out without supplied air: alarm,"
            " gas off, blow air in, haul from outside. The meter, the permit, the watch and the rescue plan"
            " decide."
        ),
    )


def _line(number: int, person: PersonResult, set_up: SetUp) -> PersonLine:
    return PersonLine(
        who=_who(number, person),
        air=_air_words(person, set_up),
        is_short=person.oxygen_frac is not None and person.oxygen_frac < LEAST_TO_BREATHE_FRAC,
    )


def _who(number: int, person: PersonResult) -> str:
    where, face_m = _where_words(person.where), person.face_height_m
    if face_m is None:
        return gettext("Person %(number)s, %(where)s", number=number, where=where)
    return gettext(
        "Person %(number)s, %(where)s, face %(height)s above the floor",
        number=number,
        where=where,
        height=shown(face_m, Dimension.LENGTH),
    )


def _where_words(where: str | None) -> str:
    words = {
        Place.OPEN_AIR: gettext("in the open air"),
        Place.ROOM: gettext("in the room"),
        Place.PIT: gettext("in the pit"),
        Place.TRENCH: gettext("in the trench"),
        Place.VESSEL: gettext("in the vessel"),
        Place.PIPE: gettext("in the pipe"),
        Place.VAN: gettext("in the van"),
    }
    return gettext("somewhere near") if where is None else words[Place(where)]


def _air_words(person: PersonResult, set_up: SetUp) -> str:
    if person.oxygen_frac is None:
        return _unknown_words(person, set_up)
    effect = _effect_words(OxygenEffect(person.effect or OxygenEffect.NORMAL))
    oxygen = air_shown(person.oxygen_frac)
    if person.oxygen_frac <= 0.0 and person.in_layer:
        told = gettext("no oxygen, inside the layer of gas: %(effect)s", effect=effect)
    elif person.oxygen_frac <= 0.0:
        told = gettext("no oxygen: %(effect)s", effect=effect)
    elif person.in_layer:
        told = gettext("%(oxygen)s oxygen, inside the layer of gas: %(effect)s", oxygen=oxygen, effect=effect)
    else:
        told = gettext("%(oxygen)s oxygen: %(effect)s", oxygen=oxygen, effect=effect)
    return f"{told}. {_when_words(person)}".strip()


def _unknown_words(person: PersonResult, set_up: SetUp) -> str:
    around, scene = set_up.surroundings, set_up.scene
    here = around.kind if around is not None else None
    if here is None or person.where == here:
        return gettext("the air at this face cannot be reckoned from what is known; test it.")
    if person.where is not None and scene is not None and scene.vent_leads_to == person.where:
        return gettext("the vent's gas is led there, and how much air is left was not reckoned; test it.")
    return gettext("not %(where)s; the air elsewhere was not reckoned.", where=_where_words(str(here)))


def _effect_words(effect: OxygenEffect) -> str:
    """What the air does, by the strictest reading of the published tables, for healthy people at rest."""
    return {
        OxygenEffect.NORMAL: gettext("enough; any reading below fresh air still needs a reason before entry"),
        OxygenEffect.IMPAIRED_UNAWARE: gettext("too little; impaired without knowing it"),
        OxygenEffect.JUDGEMENT_LOST: gettext("judgement lost"),
        OxygenEffect.COLLAPSE_LIKELY: gettext("collapse likely"),
        OxygenEffect.UNCONSCIOUS: gettext("unconscious within breaths to a minute, and dead without rescue"),
    }[effect]


def _when_words(person: PersonResult) -> str:
    """When the gas began to tell; never how long somebody still has."""
    starts = person.time_to_19_5_s
    if starts is None or isinstance(starts, Never):
        return ""
    least = air_shown(LEAST_TO_BREATHE_FRAC)
    if starts == 0.0:
        return gettext("Below %(least)s from the start.", least=least)
    return gettext(
        "Below %(least)s once gas has escaped for %(time)s.",
        least=least,
        time=shown(starts, Dimension.DURATION),
    )


def _blower_words(air: BreathingResult, set_up: SetUp) -> str:
    blower_m3_s = set_up.surroundings.blower_m3_s if set_up.surroundings else None
    if air.ventilated_s is None or blower_m3_s is None:
        return ""
    flow = shown(blower_m3_s, Dimension.VOLUME_FLOW)
    least = air_shown(LEAST_TO_BREATHE_FRAC)
    if isinstance(air.ventilated_s, Never):
        return gettext(
            "A blower of %(flow)s never brings the place back to %(least)s.", flow=flow, least=least
        )
    if air.ventilated_s == 0.0:
        return gettext("The air is not below %(least)s: test it all the same.", least=least)
    return gettext(
        "With the gas shut off, a blower of %(flow)s brings the place back to %(least)s in %(time)s if it"
        " mixes; a dead corner takes longer, so test before entry.",
        flow=flow,
        least=least,
        time=shown(air.ventilated_s, Dimension.DURATION),
    )
