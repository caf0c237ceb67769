"""Quantities of thresholds about the heat of the weld: dams, their ropes, and what else lies near it."""

from collections.abc import Mapping, Sequence

from trainer.domain.judged import Judged, Quantity
from trainer.domain.purge_run import DamResult, HotPartResult
from trainer.domain.quantities import Dimension
from trainer.domain.run_dams import rope_to_spare_m

_Facts = Mapping[str, float | str]
_Least = tuple[float, int]  # the least margin, and whose it is


def _least(margins: Sequence[float | None]) -> _Least | None:
    known = [(margin, place) for place, margin in enumerate(margins) if margin is not None]
    return min(known, default=None)


def _to_spare(limit_c: float | None, temperature_c: float | None) -> float | None:
    return None if limit_c is None or temperature_c is None else limit_c - temperature_c


def _peak_margins(parts: Sequence[DamResult | HotPartResult]) -> list[float | None]:
    return [_to_spare(each.limit_c, each.temperature_c) for each in parts]


def _steady_margins(judged: Judged) -> list[float | None]:
    """Only passes after the first build up; a dam that its peak alone spoils needs no second word."""
    arc = judged.set_up.arc
    if arc is None or (arc.passes or 1) < 2:
        return []
    return [
        None if peak is not None and peak <= 0.0 else _to_spare(each.limit_c, each.steady_c)
        for each, peak in zip(judged.run.dams, _peak_margins(judged.run.dams), strict=True)
    ]


def _rope_margins(judged: Judged) -> list[float | None]:
    return [rope_to_spare_m(judged.set_up, dam) for dam in judged.set_up.dams]


def _margin(least: _Least | None) -> float | None:
    return None if least is None else least[0]


def _dam_facts(judged: Judged, least: _Least | None, *, temperature: str) -> _Facts:
    if least is None:
        return {}
    found, dam = judged.run.dams[least[1]], judged.set_up.dams[least[1]]
    return {
        "temperature_c": getattr(found, temperature), "dam_limit_c": found.limit_c or 0.0,
        "dam": str(dam.kind or ""), "side": str(dam.side or ""),
    }  # fmt: skip


def _rope_facts(judged: Judged) -> _Facts:
    least = _least(_rope_margins(judged))
    if least is None:
        return {}
    dam = judged.set_up.dams[least[1]]
    rope_m = dam.rope_m or 0.0
    return {"rope_m": rope_m, "way_m": rope_m - least[0], "side": str(dam.side or "")}


def _near_facts(judged: Judged) -> _Facts:
    least = _least(_peak_margins(judged.run.near_heat))
    if least is None:
        return {}
    found, part = judged.run.near_heat[least[1]], judged.set_up.near_heat[least[1]]
    return {
        "temperature_c": found.temperature_c or 0.0, "part_limit_c": found.limit_c or 0.0,
        "part": part.what or part.material or "", "material": part.material or "",
    }  # fmt: skip


HEAT_QUANTITIES: Mapping[str, Quantity] = {
    "dams.margin": Quantity(
        fact="margin_k", dimension=Dimension.TEMPERATURE,
        value=lambda judged: _margin(_least(_peak_margins(judged.run.dams))),
        facts=lambda judged: _dam_facts(
            judged, _least(_peak_margins(judged.run.dams)), temperature="temperature_c"
        ),
    ),
    "dams.steady_margin": Quantity(
        fact="margin_k", dimension=Dimension.TEMPERATURE,
        value=lambda judged: _margin(_least(_steady_margins(judged))),
        facts=lambda judged: _dam_facts(judged, _least(_steady_margins(judged)), temperature="steady_c"),
    ),
    "dams.rope_to_spare": Quantity(
        fact="spare_m", dimension=Dimension.LENGTH,
        value=lambda judged: _margin(_least(_rope_margins(judged))), facts=_rope_facts,
    ),
    "near_heat.margin": Quantity(
        fact="margin_k", dimension=Dimension.TEMPERATURE,
        value=lambda judged: _margin(_least(_peak_margins(judged.run.near_heat))), facts=_near_facts,
    ),
}  # fmt: skip
