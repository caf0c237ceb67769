"""The form of a module: rows of a blueprint with its rules."""

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from flask_babel import gettext
from flask_babel import lazy_gettext as _l
from wtforms import FieldList, Form, FormField, SelectField, StringField
from wtforms.validators import DataRequired, Length

from trainer.domain.modules import (
    LARGEST_ROW_COUNT,
    LONGEST_TIME_LIMIT_S,
    SHORTEST_TIME_LIMIT_S,
    Blueprint,
    BlueprintRow,
)
from trainer.domain.quantities import Dimension
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import QuantityField, TicksField, offered
from trainer.web.forms.numbers import CountField, NumberField
from trainer.web.kinds import skill_choices

MORE_ROWS = "more_rows"
MOST_ROWS = 12
_ROWS_AT_FIRST = 2


class RowForm(Form):
    """One row of a module."""

    skill = SelectField(
        _l("Skill"),
        coerce=int,
        choices=skill_choices,
    )
    families = TicksField(_l("Scenario families"), choices=[], validate_choice=True)
    count = CountField(_l("Scenarios"), low=1, high=LARGEST_ROW_COUNT, example="3", required=False)
    difficulty = NumberField(_l("Difficulty, 0 to 1"), low=0, high=1, example="0.5", required=False)
    cut = NumberField(_l("Cut, where not the pass mark"), low=0.01, high=1, example="0.8", required=False)

    @property
    def is_blank(self) -> bool:
        """Whether nothing was written into the row."""
        typed = (self.count.typed, self.difficulty.typed, self.cut.typed)
        return not self.families.data and not any(each.strip() for each in typed)

    def validate(self, extra_validators: Any = None) -> bool:
        """A row that was begun has to be complete; what it lacks is said at its own box."""
        holds: bool = super().validate(extra_validators)
        if self.is_blank:
            return holds
        for box in (self.count, self.difficulty):
            if not box.typed.strip():
                box.errors = [gettext("Write a number, such as %(example)s.", example=box.example)]
                holds = False
        if not self.families.data:
            self.families.errors = [gettext("Tick at least one family.")]
            holds = False
        return holds

    def row(self) -> BlueprintRow:
        """The row of a form that holds."""
        return BlueprintRow(
            skill=self.skill.data,
            families=tuple(self.families.data or ()),
            count=int(self.count.data or 0),
            difficulty=round(float(self.difficulty.data or 0.0), 2),
            cut_frac=self.cut.data,
        )


class ModuleForm(PageForm):
    """A new module; a row left blank is left out."""

    title = StringField(
        _l("Title"), validators=[DataRequired(_l("Give the module a title.")), Length(max=200)]
    )
    rows = FieldList(FormField(RowForm), min_entries=_ROWS_AT_FIRST, max_entries=MOST_ROWS)
    pass_mark = NumberField(_l("Pass mark, 0 to 1"), low=0.01, high=1, example="0.80", default=0.8)
    critical_items = TicksField(_l("Critical items: a mistake in one fails the attempt"), choices=[])
    time_limit = QuantityField(
        _l("Time limit, if there is one"),
        Dimension.DURATION,
        limits=(SHORTEST_TIME_LIMIT_S, LONGEST_TIME_LIMIT_S, _l("1 min to 8 h")),
        required=False,
    )

    def offer(self, families: Sequence[tuple[str, str]], items: Sequence[tuple[str, str]]) -> "ModuleForm":
        """What can be ticked: (id, words) of families and of items, whose id has a family before it."""
        for row in self.rows:
            row.form.families.choices = offered(families)
        self.critical_items.choices = offered(items)
        self._titles = dict(families)
        return self

    def critical_groups(self) -> list[tuple[str, list[Any]]]:
        """The boxes of critical items by family: its words, and the boxes."""
        by_family = groupby(self.critical_items, key=lambda each: each.data.partition("/")[0])
        return [(self._titles[family], list(boxes)) for family, boxes in by_family]

    def add_rows(self) -> None:
        """Two more rows, up to the most that a form has."""
        for _ in range(min(_ROWS_AT_FIRST, MOST_ROWS - len(self.rows))):
            self.rows.append_entry()

    def blueprint(self) -> Blueprint:
        """The blueprint of a form that holds."""
        return Blueprint(
            rows=tuple(each.form.row() for each in self.rows if not each.form.is_blank),
            pass_mark_frac=self.pass_mark.number,
            critical_items=tuple(self.critical_items.data or ()),
            time_limit_s=None if self.time_limit.data is None else round(self.time_limit.data),
        )
