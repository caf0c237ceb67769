"""Reads reading items of a family file: which instrument, what it shows, and its scale."""

from trainer import units
from trainer.domain.family import RIGHT, Amount, ReadingTemplate
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import InstrumentKind
from trainer.scenario_files.parts_file import flat_set_up, read_result
from trainer.scenario_files.tables import Table


def read_reading(table: Table, known: tuple[str, ...]) -> ReadingTemplate:
    """`instrument` and what its kind needs: a scale and what it shows, a level of a trace, or only a root."""
    kind = InstrumentKind(table.one_of("instrument", [each.value for each in InstrumentKind]))
    if kind is InstrumentKind.ROOT:
        return ReadingTemplate(instrument=kind, of=table.one_of("of", known, default=RIGHT))
    if kind is InstrumentKind.TRACE:
        return _trace(table, known)
    return _dial(table, kind, known)


def _trace(table: Table, known: tuple[str, ...]) -> ReadingTemplate:
    unit = table.text("unit_hint")
    return ReadingTemplate(
        instrument=InstrumentKind.TRACE,
        of=table.one_of("of", known, default=RIGHT),
        unit=unit,
        si_per_unit=_per_unit(table, unit, Dimension.DURATION),
        division=table.value("division"),
        tolerance_divisions=table.number("tolerance", default=0.5),
        zero_divisions=table.number("zero", default=3.0),
        at=table.value("at"),
    )


def _dial(table: Table, kind: InstrumentKind, known: tuple[str, ...]) -> ReadingTemplate:
    unit, high = table.text("unit_hint"), table.value("high")
    if not isinstance(high, Amount):
        table.fault("high", "the end of the scale is a number with its unit")
        high = Amount(text="1 bar", value=1e5, dimension=Dimension.PRESSURE)
    shows = read_result(table.inner("shows"), known) if table.has("shows") else None
    path = table.text("path", default="")
    if (shows is None) is (path == ""):
        table.fault(
            "shows", "an instrument shows either a result (`shows`) or a value of the set-up (`path`)"
        )
    if path:
        flat_set_up({path: 0}, table)
    return ReadingTemplate(
        instrument=kind,
        of=table.one_of("of", known, default=RIGHT),
        shows=shows,
        path=path,
        unit=unit,
        si_per_unit=_per_unit(table, unit, high.dimension),
        dimension=high.dimension,
        low=table.value("low"),
        high=high,
        division=table.value("division"),
        tolerance_divisions=table.number("tolerance", default=0.5),
        zero_divisions=table.number("zero", default=3.0),
    )


def _per_unit(table: Table, unit: str, dimension: Dimension) -> float:
    try:
        return units.parse(f"1 {unit}", dimension) - units.parse(f"0 {unit}", dimension)
    except units.UnitFault as fault:
        table.fault("unit_hint", str(fault))
        return 1.0
