"""Cautions in words: one line that starts with the danger, and why; also why a target is never reached."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

from trainer.domain.purge_run import Caution
from trainer.domain.quantities import Dimension
from trainer.wording.caution_texts import CAUSES, CAUTIONS
from trainer.wording.gas_names import gas_words
from trainer.wording.numerals import ENGLISH
from trainer.wording.quantities import UnitSystem, air_frac_told, plain_number, quantity_words, round_up
from trainer.wording.untested import untested_words

Translate = Callable[[str], str]
Facts = Mapping[str, float | str]


@dataclass(frozen=True, kw_only=True)
class CautionWords:
    """One caution as it stands on a page: the line at the decision, and the reason behind it."""

    text: str
    because: str


_OF_AIR = ("asphyxiation", "supply-could-empty-here", "boil-off-collects")

_DIMENSIONS = {  # by the ending of a fact's name, the longer one first where one ends in the other
    "m3_s": Dimension.VOLUME_FLOW, "m3": Dimension.VOLUME, "m": Dimension.LENGTH, "pa": Dimension.PRESSURE,
    "frac": Dimension.FRACTION, "s": Dimension.DURATION,
}  # fmt: skip


def caution_words(
    caution: Caution, _: Translate, *, system: UnitSystem = UnitSystem.METRIC, language: str = ENGLISH
) -> CautionWords:
    """One caution in words."""
    known, code = dict(caution.facts), caution.code
    variants = (key for key in CAUTIONS if key.partition("/")[2] in known and key.startswith(f"{code}/"))
    text, because = CAUTIONS[next(variants, code)]
    facts = _facts(_on_the_safe_side(code, known), _, system, language)
    return CautionWords(text=_(text) % facts, because=_(because) % facts)


def cause_words(causes: tuple[str, ...], _: Translate) -> str:
    """Why a target is never reached, the largest cause first."""
    return "; ".join(_(CAUSES[each]) for each in causes)


def _on_the_safe_side(code: str, known: Facts) -> Facts:
    """Shares rounded so that none reads better than it is: what is breathed down, all else up."""
    rounded = air_frac_told if code in _OF_AIR else round_up
    return {
        name: rounded(value) if name.endswith("_frac") and not isinstance(value, str) else value
        for name, value in known.items()
    }


def _facts(known: Facts, _: Translate, system: UnitSystem, language: str) -> dict[str, str]:
    facts = {}
    for name, value in known.items():
        if isinstance(value, str):
            facts[name] = _(value) if value else ""
        else:
            stem, words = _number_words(name, value, system, language)
            facts[stem] = words
    gas = gas_words(str(known["gas"]), _, language=language) if known.get("gas") else _("purge gas")
    facts["gas"], facts["Gas"] = gas, gas[:1].upper() + gas[1:]
    if "part" in facts:
        facts["Part"] = facts["part"][:1].upper() + facts["part"][1:]
    if "reasons" in known:
        facts["reasons"] = untested_words(str(known["reasons"]), _, system=system, language=language)
    if "causes" in known:
        facts["causes"] = cause_words(tuple(str(known["causes"]).split(", ")), _)
    return facts


def _number_words(name: str, value: float, system: UnitSystem, language: str) -> tuple[str, str]:
    said = partial(quantity_words, system=system, language=language)
    for suffix, dimension in _DIMENSIONS.items():
        if name.endswith(f"_{suffix}"):
            return name.removesuffix(f"_{suffix}"), said(value, dimension)
    if name.endswith("_c"):
        return name.removesuffix("_c"), said(value + 273.15, Dimension.TEMPERATURE)
    return name, plain_number(value, language=language)
