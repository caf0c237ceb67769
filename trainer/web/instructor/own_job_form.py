"""The form of an own job: its words, its set-up field by field, and the questions that are asked about it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext
from flask_babel import lazy_gettext as _l
from werkzeug.datastructures import MultiDict
from wtforms import (
    BooleanField,
    Field,
    FieldList,
    Form,
    FormField,
    HiddenField,
    SelectField,
    StringField,
    TextAreaField,
)

from trainer.domain.hazards import HazardCatalogue
from trainer.domain.items.explanation import MOST_CRITERIA
from trainer.domain.own_job_faults import ASKED_ANY_NUMBER, MOST_QUESTIONS, MOST_WRONG, JobFault
from trainer.domain.own_jobs import (
    ALWAYS_NEEDED,
    JOB_FIELDS,
    LABELS,
    NEEDS,
    Asked,
    AskKind,
    JobSheet,
    WrongAnswer,
)
from trainer.scenario_files.own_jobs import AMOUNTS
from trainer.web.figures import sentence
from trainer.web.forms.base import PageForm, faults_of, strip
from trainer.web.forms.fields import TicksField, offered
from trainer.web.forms.numbers import NumberField
from trainer.web.forms.set_up_fields import field_at, set_up_fault_words, written_value
from trainer.web.forms.typed import kept
from trainer.web.instructor.own_job_questions import HINTS, QUESTIONS
from trainer.web.kinds import skill_choices

ADD, TAKE_OUT = "add", "take-out"  # the buttons that change which questions there are, and save nothing
_NOT_TYPED = ("csrf_token", ADD, TAKE_OUT)
_LONGEST_TITLE = 120


def control_of(path: str) -> str:
    """The name of the control for a path of the set-up."""
    return path.replace(".", "_")


def _of(what: str, fault: str) -> str:
    return gettext("%(what)s: %(fault)s", what=what, fault=fault)


def _fault_words(fault: JobFault) -> str:
    """A fault in the reader's language; a question by what the form calls it."""
    kind = fault.facts.get("question")
    if not kind:
        return set_up_fault_words(fault)
    return gettext(fault.template, question=str(QUESTIONS[AskKind(kind)].name))


def _hint(path: str, needed_by: list[str]) -> str:
    hint = str(HINTS.get(path, ""))
    if not needed_by:
        return hint
    needed = gettext("Needed for: %(questions)s.", questions=", ".join(needed_by))
    return f"{hint} {needed}".strip()


@dataclass(frozen=True, kw_only=True)
class FieldGroup:
    """Fields of the set-up under one heading, each with its hint."""

    name: str
    fields: list[tuple[Field, str]]
    is_needed: bool

    @property
    def told_count(self) -> int:
        """How many of them hold something."""
        return sum(bool(each.data) for each, _ in self.fields)

    @property
    def is_open(self) -> bool:
        """Whether there is something to be typed or mended here."""
        return self.is_needed or any(each.errors for each, _ in self.fields)


class WrongForm(Form):
    """One wrong answer."""

    answer = StringField(_l("Wrong answer"), filters=[strip])
    belief = StringField(_l("The belief behind it"), filters=[strip])

    @property
    def is_touched(self) -> bool:
        """Whether something stands here, or is missing here."""
        return any(each.data or each.errors for each in self)


class AskedForm(Form):
    """One question; the page shows of these fields what its kind needs."""

    kind = HiddenField()
    text = TextAreaField(_l("The question, where not the usual one"), filters=[strip])
    right = StringField(_l("The right answer"), filters=[strip])
    wrong = FieldList(FormField(WrongForm), min_entries=MOST_WRONG, max_entries=MOST_WRONG)
    hazards = TicksField(_l("Hazards that are there"), choices=[])
    innocents = TicksField(_l("Things that are there and harm nobody"), choices=[])
    criteria = FieldList(
        StringField(_l("What is looked for"), filters=[strip]),
        min_entries=MOST_CRITERIA,
        max_entries=MOST_CRITERIA,
    )
    skill = SelectField(
        _l("Skill"),
        choices=skill_choices,
        default="9",
    )
    weight = NumberField(_l("Weight"), low=0.1, high=10, example="1", default=1.0)
    critical = BooleanField(_l("Critical: a mistake here fails an assessed attempt"))
    note = TextAreaField(_l("Words of your own for the worked solution, if any"), filters=[strip])

    @property
    def has_faults(self) -> bool:
        """Whether something is to be put right in this question."""
        return any(faults_of(each) for each in self)

    @property
    def own_errors(self) -> bool:
        """Whether a fault lies in the words and weight that most questions leave as they are."""
        return any(each.errors for each in (self.text, self.weight, self.critical, self.note))

    @property
    def ask_kind(self) -> AskKind | None:
        """What is asked; None for a kind that there is not."""
        return next((each for each in AskKind if each.value == self.kind.data), None)

    def asked(self, kind: AskKind) -> Asked:
        """The question as it was typed; rows left blank are left out."""
        # an amount is kept as all others are; what is words stays as it was written
        meant = kept if kind in AMOUNTS else str
        rows = ((meant(each.form.answer.data or ""), each.form.belief.data or "") for each in self.wrong)
        free = kind in (AskKind.OWN, AskKind.EXPLANATION)
        return Asked(
            kind=kind,
            text=self.text.data or "",
            weight=float(self.weight.data or 0.0),
            critical=bool(self.critical.data) and kind is not AskKind.EXPLANATION,
            skill=int(self.skill.data or 0) if free else 0,
            right=self.right.data or "",
            wrong=tuple(
                WrongAnswer(answer=answer, belief=belief) for answer, belief in rows if answer or belief
            ),
            note=self.note.data or "",
            hazards=tuple(self.hazards.data or ()),
            innocents=tuple(self.innocents.data or ()),
            criteria=tuple(each.data for each in self.criteria if each.data),
        )


class OwnJobForm(PageForm):
    """A job; the fields of its set-up are added below, one for each path of the list."""

    title = StringField(_l("Title"))
    place = StringField(_l("Where: the second half of the title"))
    situation = TextAreaField(_l("What the apprentice finds, in two or three sentences"))
    asked = FieldList(FormField(AskedForm), max_entries=MOST_QUESTIONS)
    # What stands in the list when the job is saved adds nothing, so it is never a fault.
    add_kind = SelectField(_l("Question to add"), choices=[], validate_choice=False)

    def offer(self, catalogue: HazardCatalogue) -> "OwnJobForm":
        """Fills in the questions that can still be added, and the things that can stand in a scene."""
        self.add_kind.choices = offered((each.value, QUESTIONS[each].name) for each in self.still_to_ask())
        entries = catalogue.entries.values()
        for row in self.asked:
            row.form.hazards.choices = offered((e.key, sentence(e.text)) for e in entries if e.is_hazard)
            row.form.innocents.choices = offered(
                (e.key, sentence(e.text)) for e in entries if not e.is_hazard
            )
        return self

    def still_to_ask(self) -> list[AskKind]:
        """The kinds that may be added: most are asked once at most, and a job holds so many questions."""
        asked = {kind for kind, _ in self.questions()}
        free = [each for each in AskKind if each in ASKED_ANY_NUMBER or each not in asked]
        return free if len(self.asked) < MOST_QUESTIONS else []

    def rearranged(self, sent: MultiDict[str, str]) -> bool:
        """Adds a question or takes one out, where a button for it was pressed; the rest stays as typed."""
        if ADD in sent:
            if self.add_kind.data in self.still_to_ask():
                self.asked.append_entry({"kind": self.add_kind.data})
            return True
        if TAKE_OUT not in sent:
            return False
        self.asked.entries = [each for each in self.asked.entries if each.name != sent[TAKE_OUT]]
        return True

    def groups(self) -> Iterator[FieldGroup]:
        """The fields of the set-up by group, as the page shows them."""
        needed = self._needed()
        for name, fields in JOB_FIELDS.items():
            yield FieldGroup(
                name=gettext(name),
                fields=[(self[control_of(path)], _hint(path, needed.get(path, []))) for path in fields],
                is_needed=any(path in needed for path in fields),
            )

    def _needed(self) -> dict[str, list[str]]:
        """What each path is needed by: the names of the questions that are asked so far."""
        needed: dict[str, list[str]] = {path: [] for path in ALWAYS_NEEDED}
        for kind, _ in self.questions():
            for path in NEEDS[kind]:
                needed.setdefault(path, []).append(str(QUESTIONS[kind].name))
        return needed

    def questions(self) -> list[tuple[AskKind, AskedForm]]:
        """The questions with their kinds."""
        rows = ((each.form.ask_kind, each.form) for each in self.asked)
        return [(kind, form) for kind, form in rows if kind is not None]

    def sheet(self) -> JobSheet:
        """The job as it was typed."""
        said = {path: written_value(path, self[control_of(path)].data) for path in LABELS}
        return JobSheet(
            title=(self.title.data or "")[:_LONGEST_TITLE],
            place=self.place.data or "",
            situation=self.situation.data or "",
            set_up={path: each for path, each in said.items() if each is not None},
            asked=tuple(form.asked(kind) for kind, form in self.questions()),
        )

    @property
    def faults(self) -> list[tuple[str | None, str]]:
        """All faults, each with the field or the question that it is of: several may need the same words."""
        named: list[tuple[str | None, str]] = [(None, each) for each in self.form_errors]
        for field in self:
            if field is not self.asked:
                named += [(id_, _of(field.label.text, fault)) for id_, fault in faults_of(field)]
        for number, entry in enumerate(self.asked, start=1):
            question = gettext("Question %(number)s", number=number)
            named += [(id_, _of(question, fault)) for id_, fault in faults_of(entry)]
        return named

    def tell(self, faults: Sequence[JobFault]) -> None:
        """Each fault at its field; one that belongs to none above the form."""
        for fault in faults:
            field = self._field_of(fault.place)
            if field is None:
                self.say(_fault_words(fault))
            else:
                field.errors = [*field.errors, _fault_words(fault)]

    def _field_of(self, place: str) -> Any:
        if place.startswith("asked."):
            return self._field_of_question(place.split(".")[1:])
        if place in self and place != "asked":
            return self[place]
        found = next((path for path in LABELS if f"{path}.".startswith(f"{place}.")), None)
        return self[control_of(found)] if found else None

    def _field_of_question(self, way: list[str]) -> Any:
        """The control within a question; its text where the fault is of the whole question."""
        form = self.questions()[int(way[0])][1]
        if len(way) == 1:
            return form.text
        if way[1] == "wrong":
            row = min(int(way[2]), MOST_WRONG - 1)
            return form.wrong[self._row(form, row)].form[way[3]]
        return form.criteria[0] if way[1] == "criteria" else form[way[1]]

    @staticmethod
    def _row(form: AskedForm, number: int) -> int:
        """The row of the page that holds the wrong answer of that number: blank ones are not counted."""
        is_filled = [bool(each.form.answer.data or each.form.belief.data) for each in form.wrong]
        filled = [place for place, filled in enumerate(is_filled) if filled]
        blank = [place for place, filled in enumerate(is_filled) if not filled]
        return [*filled, *blank][number]


for _path, _label in LABELS.items():
    setattr(OwnJobForm, control_of(_path), field_at(_path, _l(_label)))


def typed_document(sent: MultiDict[str, str]) -> dict[str, list[str]]:
    """What was sent, to be shown again as it was."""
    return {name: sent.getlist(name) for name in sent if name not in _NOT_TYPED}


def form_of(typed: dict[str, list[str]]) -> OwnJobForm:
    """The form with what was typed for a version."""
    return OwnJobForm(MultiDict((name, each) for name, many in typed.items() for each in many))
