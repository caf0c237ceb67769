"""Faults of a set-up in words: what was given, what is accepted, and what to do next."""

from collections.abc import Callable, Iterator, Mapping

from trainer.domain.quantities import Dimension
from trainer.domain.set_up_faults import SetUpFault
from trainer.units import written
from trainer.wording.faults_of_path import PATH_FACTS, PATH_WORDS, path_facts
from trainer.wording.gas_names import gas_words
from trainer.wording.numerals import ENGLISH, number_words

_WORDS = {
    "two-size-names": "the pipe is named by nps and by dn at once; keep one of them",
    "sized-twice": "the pipe is given by schedule and by its own diameter and wall at once; keep one",
    "wall-fills-pipe": "a wall of %(value)s leaves no bore; it must be less than half the outside diameter",
    "unknown-size": "'%(value)s' is not a size in the tables%(nearby)s; accepted: %(known)s",
    "unknown-schedule": "%(size)s has no schedule '%(value)s'%(nearby)s; it exists in %(known)s",
    "inlet-bore-missing": "missing; the end '%(end)s' needs the bore of its tube, such as 0.25 in",
    "face-area-missing": "missing; a diffuser needs the area of its face, such as 15 cm^2",
    "face-larger-than-bore": "%(value)s is larger than the bore, which is %(area)s; accepted up to that",
    "hole-larger-than-bore": "%(holes)s of %(value)s do not fit into the bore of %(bore)s",
    "hole-outside-bore": (
        "at %(value)s the hole of %(diameter)s reaches outside the bore of %(bore)s;"
        " accepted from %(low)s to %(high)s"
    ),
    "unknown-gas": "'%(value)s' is no purge gas by ISO 14175; accepted: %(known)s",
    "no-backing-gas": (
        "'%(value)s' holds carbon dioxide or oxygen: it is a gas for the arc and oxidises the root;"
        " accepted behind it: %(known)s"
    ),
    "symbol-missing": "missing; '%(composition)s' needs its symbol beside it%(fits)s",
    "composition-missing": (
        "missing; %(symbol)s stands for a range, so write which gas it is, as 'ArHe-30' or 'Ar + 5 %% H2';"
        " it holds %(accepted)s (ISO 14175:2008, table from memory)"
    ),
    "composition-unreadable": "'%(value)s' cannot be read as a composition; write it like %(known)s",
    "shares-not-whole": (
        "'%(value)s' adds up to %(total)s %%; shares make 100 %%, or the balance gas stands without a number"
    ),
    "part-not-in-symbol": (
        "'%(value)s' contradicts %(symbol)s, which holds no %(parts)s but %(accepted)s"
        " (ISO 14175:2008, table from memory)%(fits)s"
    ),
    "share-outside-symbol": (
        "'%(value)s' holds %(percent)s %% %(component)s; %(symbol)s stands for %(accepted)s"
        " (ISO 14175:2008, table from memory)%(fits)s"
    ),
    "oxygen-above-purity": (
        "%(value)s is more than gas of %(purity_percent)s %% can hold: %(bound)s is all of its impurity;"
        " correct oxygen or purity"
    ),
    "unknown-scale": (
        "'%(value)s' is no gas that a scale is known for; accepted: %(known)s,"
        " or a mixture by its designation, such as 'R1-ArH-5' or 'I3-ArHe-30'"
    ),
    "flow-not-as-metered": "%(value)s contradicts meter.reads, which is %(reads)s; leave one of them out",
    "hold-without-purge": "a hold flow of %(value)s needs flow.purge or meter.reads before it",
    "hold-time-without-hold": "a hold time of %(value)s needs flow.hold, such as 5 L/min",
    "stage-kind-missing": "missing; each stage says what happens: %(known)s",
    "stage-time-missing": "missing; only the last stage may be without end; give a time, such as 5 min",
    "flow-on-line-out": "%(value)s contradicts a line that is out, which brings no gas; leave the flow out",
    "opening-missing": "missing; a line that is out leaves a hole, give its diameter, such as 8 mm",
    "opening-with-line-in": "%(value)s is left by a line that is out; this stage is '%(kind)s': leave it out",
    "pinch-without-pinched-hose": "only a pinch leaves %(value)s; this stage is '%(kind)s': leave it out",
    "pinch-missing": "missing; a pinched hose needs what is left of its area, such as 0.02, or its own flow",
    "pinch-given-twice": "the pinch is given by its open fraction and by its flow at once; keep one of them",
    "pinch-without-hose": "what %(value)s of the hose passes needs %(missing)s; or give the stage a flow",
    "pinch-adds-flow": "%(value)s is more than the purge flow of %(purge)s; a pinch only takes flow away",
    "starts-without-flow": "the time line starts when the gas is turned on; its first stage needs a flow",
    "wait-beyond-stages": (
        "%(value)s lies beyond the stages, which end after %(end)s; accepted up to that, or leave out"
        " how long the last one lasts"
    ),
    "time-beside-stages": "%(value)s stands beside flow.stages, which tell what flows how long; leave it out",
    "one-reading-only": "one reading tells no rate; give two, the later one last",
    "reading-time-missing": "missing; say how long after the gas was turned on, such as 5 min",
    "reading-missing": "missing; say what the analyser showed, such as 0.3 %%",
    "readings-not-in-order": "%(value)s is not after the one before it, at %(before)s; the latest comes last",
    "reading-below-source": "%(value)s is below the %(source)s that the gas carries: check the analyser",
    "readings-across-stages": (
        "between this reading and the one before it the flow changed, at %(change)s; take two at one flow"
    ),
    "uncertainty-missing": "missing; say how far a reading may be off, as a share of it, such as 5 %%",
    "readings-without-target": "missing; the time still to wait needs the oxygen wanted, such as 0.1 %%",
    "after-time-without-hold": "a time of %(value)s after the weld needs flow.hold, such as 5 L/min",
    "only-for-liquid": "%(value)s says nothing of a %(kind)s, which holds gas; leave it out",
    "only-for-cylinders": "%(value)s says nothing of a %(kind)s; what stays in it is supply.residual",
    "not-kept-liquid": (
        "%(gas)s in a %(value)s is not solved: it boils at 4 K, and for welding it comes as gas in cylinders;"
        " accepted: %(known)s"
    ),
    "mixture-kept-liquid": (
        "%(gas)s in a %(value)s is not solved: a liquid mixture boils off unevenly, so that it would not stay"
        " this gas; accepted: %(known)s"
    ),
    "pressure-missing": "missing; how dense the liquid in a %(kind)s is goes by its pressure, such as 10 bar",
    "over-full": (
        "%(value)s leaves a %(kind)s no room for vapour, and liquid comes out of its relief as it warms;"
        " accepted up to %(high)s"
    ),
    "joint-every-too-short": "%(value)s is less than one joint takes, %(taken)s from gas on to gas off",
    "stop-above-pressure": "%(value)s is above the cylinder's %(pressure)s; accepted up to that",
    "dam-outside-pipe": (
        "%(value)s from the joint the pipe ends, and the dam stands at %(dam)s: it must stand inside the pipe"
    ),
    "more-open-than-joint": "%(value)s is more than once round the root, %(around)s; accepted up to that",
    "pool-deeper-than-wall": "%(value)s is deeper than the wall, which is %(wall)s; accepted up to that",
    "pause-after-one-pass": "a pause of %(value)s between passes needs arc.passes of 2 or more",
    "side-missing": "missing; say left or right of the joint",
    "leak-too-small": "%(value)s is no leak that is calculated; write 0 mm^2, or %(area)s at least",
    "two-dams-on-a-side": "the %(value)s side has a dam already, dams.%(first)s; each side has one",
    "flow-without-fan": "%(value)s contradicts fan 'none'; write 'blows in' or 'draws out', or leave it out",
    "draught-beside-fan": (
        "%(value)s air changes by draught contradict fan '%(fan)s'; keep the fan's flow, or leave the fan out"
    ),
    "blower-without-after": (
        "%(value)s of fresh air says nothing until it is known how long gas has escaped; give"
        " surroundings.after or wait"
    ),
    "cold-gas-without-floor": (
        "gas at %(value)s sinks or rises, and how deep it lies needs surroundings.floor_area, such as 6 m^2"
    ),
    "no-such-pipe": (
        "%(value)s makes a pipe of %(bore)s bore and %(length)s length; calculated up to a bore of 3 m and"
        " from 10 mm to 1000 m of length; the floor area of a pipe is bore times length"
    ),
    "face-above-ceiling": (
        "a face at %(value)s is above the ceiling, which volume and floor area, or the pipe's bore, put at"
        " %(ceiling)s; accepted up to that"
    ),
    "unknown-name": "'%(value)s' is not known; accepted: %(known)s",
    "out-of-formula": "%(quantity)s is %(number)s %(unit)s; calculated %(limits)s: %(why)s",
}

_ENDINGS = (_FITTING, _NOT_FITTING, _NEAREST_IS, _NEAREST_ARE) = (
    "; that would be %(fitting)s",
    "; no symbol stands for it",
    "; the nearest is %(nearest)s",
    "; the nearest are %(nearest)s",
)

_LIMITS = {"low": "from %(low)s", "high": "up to %(high)s"}

_DIMENSION_OF_FACT = {
    "area_m2": Dimension.AREA,
    "bore_m": Dimension.LENGTH,
    "ceiling_m": Dimension.LENGTH,
    "length_m": Dimension.LENGTH,
    "diameter_m": Dimension.LENGTH,
    "dam_m": Dimension.LENGTH,
    "around_m": Dimension.LENGTH,
    "wall_m": Dimension.LENGTH,
    "reads_m3_s": Dimension.VOLUME_FLOW,
    "pressure_pa": Dimension.PRESSURE,
    "bound_frac": Dimension.FRACTION,
    "taken_s": Dimension.DURATION,
    "purge_m3_s": Dimension.VOLUME_FLOW,
    "end_s": Dimension.DURATION,
    "before_s": Dimension.DURATION,
    "change_s": Dimension.DURATION,
    "source_frac": Dimension.FRACTION,
}


def fault_words(fault: SetUpFault, _: Callable[[str], str], *, language: str = ENGLISH) -> str:
    """One sentence about one fault, without the path that it stands beside."""
    facts: dict[str, str] = {"value": _text(fault.value, fault.dimension, language)}
    for name, value in fault.facts.items():
        dimension = _DIMENSION_OF_FACT.get(name) or PATH_FACTS.get(name)
        facts[name.partition("_")[0] if dimension else name] = _text(value, dimension, language)
    if "gas" in facts:
        facts["gas"] = gas_words(facts["gas"], _, language=language)
    if fault.code == "out-of-formula":
        facts["limits"] = _limits(fault.facts, _, language)
        facts |= {name: _(facts[name]) for name in ("quantity", "why")}
    if fault.code == "hole-larger-than-bore":
        facts["holes"] = _("one hole") if fault.facts["holes"] == 1 else _("%(holes)s holes") % facts
    if "nearest" in fault.facts:
        facts["nearby"] = _nearby(str(fault.facts["nearest"]), _)
    if "fitting" in fault.facts:
        facts["fits"] = _(_FITTING if fault.facts["fitting"] else _NOT_FITTING) % facts
    if fault.code in PATH_WORDS:
        return _(PATH_WORDS[fault.code]) % {**facts, **path_facts(facts)}
    return _(_WORDS[fault.code]) % facts


def _limits(facts: Mapping[str, float | str], _: Callable[[str], str], language: str) -> str:
    ends = [
        _(template) % {name: _text(facts[name], None, language)}
        for name, template in _LIMITS.items()
        if name in facts
    ]
    return " ".join((*ends, str(facts["unit"]))).strip()


def _text(value: float | str | None, dimension: Dimension | None, language: str) -> str:
    if isinstance(value, str) or value is None:
        return value or ""
    if dimension is None:
        return number_words(value, ".6g", language=language)
    number, _, unit = written(value, dimension).partition(" ")
    return f"{number_words(float(number), '.6g', language=language)} {unit}"


def _nearby(nearest: str, _: Callable[[str], str]) -> str:
    if not nearest:
        return ""
    return _(_NEAREST_ARE if " and " in nearest else _NEAREST_IS) % {"nearest": nearest}


def messages() -> Iterator[str]:
    """Everything that is said here, as it is handed to the translate function."""
    yield from _WORDS.values()
    yield from PATH_WORDS.values()
    yield from _ENDINGS
    yield from _LIMITS.values()
