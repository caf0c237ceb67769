"""Forms of administration."""

from collections.abc import Callable, Mapping
from decimal import Decimal

from flask_babel import lazy_gettext as _l
from wtforms import EmailField, SelectField, StringField
from wtforms.validators import DataRequired, Length, ValidationError

from trainer.domain.people import NewPerson, NotAnEmail, OrganisationKind, Role, folded_email, tidy_name
from trainer.domain.permissions import role_fits
from trainer.web.admin.policy_amounts import Kind, not_read_words, read, written
from trainer.web.admin.policy_words import NumberWords
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import offered
from trainer.web.forms.numbers import DayField
from trainer.web.forms.terms import TermForm
from trainer.web.kinds import kind_words

_LONGEST_NAME = 200
_LONGEST_EMAIL = 254


def _name(label: str) -> StringField:
    return StringField(label, validators=[DataRequired(_l("Write the name.")), Length(max=_LONGEST_NAME)])


def _email(label: str) -> EmailField:
    required = DataRequired(_l("Write the e-mail address."))
    return EmailField(label, validators=[required, Length(max=_LONGEST_EMAIL), _can_be_email])


def _can_be_email(_: PageForm, field: EmailField) -> None:
    try:
        folded_email(field.data or "")
    except NotAnEmail as fault:
        raise ValidationError(
            _l("This cannot be an e-mail address. Write it like name@place.example.")
        ) from fault


def _reason() -> StringField:
    required = DataRequired(_l("Write the reason; it stays on the record."))
    return StringField(_l("Reason"), validators=[required, Length(max=500)])


class _RoleForm(TermForm):
    """A role with its days."""

    role = SelectField(_l("Role"), validators=[DataRequired(_l("Choose the role."))])

    def offer(self, kind: OrganisationKind) -> None:
        """The roles that such an organisation has."""
        self.role.choices = offered(
            (each.value, kind_words(each)) for each in Role if role_fits(each, kind=kind)
        )


class PersonForm(_RoleForm):
    """A person and the role they start with."""

    name = _name(_l("Name"))
    email = _email(_l("E-mail"))

    def new_person(self) -> NewPerson:
        """The person of a form that holds."""
        return NewPerson(name=tidy_name(self.name.data or ""), email=folded_email(self.email.data or ""))


class RoleForm(_RoleForm):
    """A further role for a person."""


class EndRoleForm(PageForm):
    """The end of a role."""

    last_day = DayField(_l("Last day; at once if left out"), required=False)
    reason = _reason()


class EmployerForm(PageForm):
    """An employer that records can be shared with, and who administers it first."""

    name = _name(_l("Name of the employer"))
    first_name = _name(_l("Name of its first person"))
    first_email = _email(_l("E-mail of its first person"))

    def first(self) -> NewPerson:
        """The first person of a form that holds."""
        name, email = self.first_name.data or "", self.first_email.data or ""
        return NewPerson(name=tidy_name(name), email=folded_email(email))


def _can_be_read(kind: Kind) -> Callable[[PageForm, StringField], None]:
    def check(_: PageForm, field: StringField) -> None:
        if field.data and read(field.data, kind) is None:
            raise ValidationError(not_read_words(kind))

    return check


class PolicyForm(PageForm):
    """A new version of what the site sets differently; one box a number, blank for the default."""

    reason = _reason()
    kinds: Mapping[str, Kind] = {}

    @property
    def names(self) -> tuple[str, ...]:
        """The policy's own names, in the order of the boxes."""
        return tuple(self.kinds)

    def changes(self, own: Mapping[str, str]) -> dict[str, str]:
        """What was filled in, by the policy's own names; a box left as it was shown keeps its own number."""
        typed = {name: (self[f"change{place}"].data or "") for place, name in enumerate(self.kinds)}
        numbers = {name: read(text, self.kinds[name]) for name, text in typed.items() if text}
        stands = {name: each for name, each in own.items() if typed.get(name) == self.shown(name, each)}
        return {name: number for name, number in numbers.items() if number is not None} | stands

    def shown(self, name: str, kept: str) -> str:
        """A number that is kept as its box shows it."""
        return written(Decimal(kept), self.kinds[name]) if name in self.kinds else ""


def policy_form(words: Mapping[str, NumberWords]) -> type[PolicyForm]:
    """The form for a policy with these numbers, each with its words."""
    boxes = {
        f"change{place}": StringField(each.label, validators=[Length(max=30), _can_be_read(each.kind)])
        for place, each in enumerate(words.values())
    }
    kinds = {name: each.kind for name, each in words.items()}
    return type("SitePolicyForm", (PolicyForm,), {**boxes, "kinds": kinds})
