"""Every message of the pages and drawings: what stands in code and templates, and what tables hold."""

from collections.abc import Iterable, Iterator
from enum import StrEnum
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir

import trainer
from trainer.cli.core_words import range_messages
from trainer.core.backing_gas import BackingVerdict
from trainer.core.tables import table_rows
from trainer.core.terms import Fan, InletEnd, MaterialGroup, PurgeModel, RootGrade
from trainer.domain import own_job_faults
from trainer.domain.family_given import GIVEN
from trainer.domain.own_jobs import JOB_FIELDS, LABELS
from trainer.domain.people import Role
from trainer.domain.policy_changes import OF_THE_SITE
from trainer.domain.qualifications import QualificationState
from trainer.domain.scope import JointSituation
from trainer.domain.set_up_terms import (
    AnalyserAt,
    DamAge,
    DamKind,
    PathPartKind,
    Place,
    StageKind,
    SupplyKind,
)
from trainer.domain.skills import SKILLS
from trainer.scenario_files import load_content, response_faults
from trainer.services.job_previews import WRITTEN
from trainer.set_up_files import faults as set_up_faults
from trainer.units import faults as typed_faults
from trainer.wording import caution_texts, faults, gas_names, marking, untested

_ROOT = Path(trainer.__file__).resolve().parent
_METHODS = [("**.py", "python"), ("web/templates/**.html", "jinja2")]
# `words` is what wording and drawing call the translate function that they are handed
_KEYWORDS = {
    **dict.fromkeys(("gettext", "lazy_gettext", "_", "_l", "words")),
    "ngettext": (1, 2),
}
# Words that a set-up, a scope or a result can hold, and that pages say.
_SAID: tuple[type[StrEnum], ...] = (
    AnalyserAt, BackingVerdict, DamAge, DamKind, Fan, InletEnd, JointSituation, MaterialGroup, PathPartKind,
    Place, PurgeModel, QualificationState, Role, RootGrade, StageKind, SupplyKind,
)  # fmt: skip


def interface_messages() -> Catalog:
    """All messages by where they stand, those of tables at the end."""
    found = Catalog()
    for file, _, message, comments, _ in extract_from_dir(
        _ROOT, _METHODS, keywords=_KEYWORDS, options_map={"web/templates/**.html": {"trimmed": "true"}}
    ):
        found.add(message, locations=[(f"trainer/{file}", 0)], auto_comments=comments)
    for where, messages in _tables():
        for message in messages:
            found.add(message, locations=[(where, 0)])
    return found


def _tables() -> Iterator[tuple[str, Iterable[str]]]:
    yield "trainer/wording/caution_texts.py", caution_texts.messages()
    yield "trainer/wording/faults.py", faults.messages()
    yield "trainer/wording/gas_names.py", gas_names.messages()
    yield "trainer/wording/marking.py", marking.messages()
    yield "trainer/wording/untested.py", untested.messages()
    yield "trainer/set_up_files/faults.py", set_up_faults.messages()
    yield "trainer/scenario_files/response_faults.py", response_faults.messages()
    yield "trainer/domain/own_jobs.py", (*JOB_FIELDS, *LABELS.values())
    yield "trainer/domain/own_job_faults.py", own_job_faults.messages()
    yield "trainer/services/job_previews.py", (WRITTEN,)
    yield "trainer/units/faults.py", typed_faults.messages()
    for where, said in range_messages():
        yield where, (said,)
    limits = load_content().policy.oxygen_limits.values()
    yield "scenarios/policy.toml", (*(each.source for each in limits), OF_THE_SITE)
    for rule in table_rows("backing_gases"):
        yield "trainer/core/data/backing_gases.csv", (rule["why"], rule["source"])
    yield "trainer/core/data/dam_materials.csv", (each["material"] for each in table_rows("dam_materials"))
    yield "trainer/domain/skills.py", (each.name for each in SKILLS)
    yield "trainer/domain/family_given.py", GIVEN.values()
    for terms in _SAID:
        yield f"{terms.__module__.replace('.', '/')}.py", (each.value for each in terms)
