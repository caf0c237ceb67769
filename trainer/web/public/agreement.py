"""The table of agreement as the page shows it: one row a run, what was judged first."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from flask_babel import gettext
from flask_babel import lazy_gettext as _l
from markupsafe import Markup

from trainer.core.agreement import Agreement, AgreementShare, agreement_share, agreements
from trainer.drawing.agreement_plot import agreement_plot
from trainer.web.figures import number_shown, sentence
from trainer.web.preferences import drawing_reader

TARGETS_FRAC = (0.01, 0.001, 0.0001)
JUDGED_TO_FRAC = 0.001  # the model is judged at 1 % and 1000 ppm; 100 ppm is shown beside them


@dataclass(frozen=True, kw_only=True)
class RunRow:
    """One simulated run with the ratio of volume changes at each target; None where it ended before."""

    run: str
    description: str
    judges: bool
    cells: tuple[Agreement | None, ...]


@dataclass(frozen=True, kw_only=True)
class AgreementPage:
    """What the page says of the purge model's agreement with simulation."""

    judging: AgreementShare
    fitted: AgreementShare
    plot: Markup
    judge_rows: tuple[RunRow, ...]
    fit_rows: tuple[RunRow, ...]


def agreement_page() -> AgreementPage:
    """The whole table, and the shares at 1 % and 1000 ppm."""
    rows = agreements()
    runs = tuple(_run_row(tuple(each)) for _, each in groupby(rows, key=lambda row: row.run))
    judged = [each for each in rows if each.target_o2_frac >= JUDGED_TO_FRAC * 0.999]
    return AgreementPage(
        judging=agreement_share(each for each in judged if each.judges == "judge"),
        fitted=agreement_share(each for each in judged if each.judges != "judge"),
        plot=Markup(agreement_plot(rows, reader=drawing_reader(prefix="agreement"))),
        judge_rows=tuple(each for each in runs if each.judges),
        fit_rows=tuple(each for each in runs if not each.judges),
    )


# What the table of runs says of a set-up, part by part between commas.
_PARTS = {
    "argon": _l("argon"), "helium": _l("helium"), "nitrogen": _l("nitrogen"),
    "diffuser": _l("diffuser"), "diffuser low": _l("diffuser low"), "diffuser high": _l("diffuser high"),
    "open tube": _l("open tube"), "open tube low": _l("open tube low"),
    "open tube high": _l("open tube high"), "open tube at mid-height": _l("open tube at mid-height"),
    "vent low": _l("vent low"), "vent high": _l("vent high"), "vent at mid-height": _l("vent at mid-height"),
    "level": _l("level"), "upright": _l("upright"),
    "inlet below": _l("inlet below"), "inlet above": _l("inlet above"),
}  # fmt: skip
_MEASURED = {
    "bore": _l("%(size)s bore"), "long": _l("%(size)s long"),
    "degrees up towards the vent": _l("%(size)s degrees up towards the vent"),
    "degrees down towards the vent": _l("%(size)s degrees down towards the vent"),
}  # fmt: skip
_SIZE = re.compile(r"(?P<size>[\d.]+(?: (?:mm|L/min))?) ?(?P<of>.*)")


def description_words(description: str) -> str:
    """The set-up of a run in the reader's language and units."""
    return ", ".join(map(_part_words, description.split(", ")))


def _part_words(part: str) -> str:
    found = _SIZE.fullmatch(part)
    if found is None:
        return str(_PARTS[part])
    size = sentence(found["size"])
    return str(_MEASURED[found["of"]]) % {"size": size} if found["of"] else size


def cell_words(cell: Agreement | None) -> str:
    """The ratio, with a word where the interval does not hold the simulated time."""
    if cell is None:
        return "–"
    ratio = number_shown(cell.ratio, ".2f")
    return ratio if cell.is_held else gettext("%(ratio)s, outside", ratio=ratio)


def _run_row(rows: Sequence[Agreement]) -> RunRow:
    at = {each.target_o2_frac: each for each in rows}
    return RunRow(
        run=rows[0].run.split("_")[0],
        description=description_words(rows[0].description),
        judges=rows[0].judges == "judge",
        cells=tuple(at.get(each) for each in TARGETS_FRAC),
    )
