"""The form that every page form is: token, stripped text, no control characters, errors from services."""

import unicodedata
from typing import Any

from flask_babel import gettext
from flask_wtf import FlaskForm
from wtforms import Field, FieldList, FormField, PasswordField, SelectFieldBase
from wtforms.validators import ValidationError

from trainer.domain.errors import DomainError
from trainer.web.reasons import refusal_words

# Blanks in a password count; fields of fields strip their own; a choice is one of those offered or refused.
_TAKEN_AS_THEY_ARE = (PasswordField, FieldList, FormField, SelectFieldBase)
_ALLOWED_CONTROLS = "\n\r\t"
_LONGEST = 4000


def strip(value: Any) -> Any:
    """What was typed without the blanks around it."""
    return value.strip() if isinstance(value, str) else value


def no_control_signs(_: FlaskForm, field: Field) -> None:
    """Refuses signs that no keyboard writes and no database keeps, and text without end."""
    if not isinstance(field.data, str):
        return
    if any(unicodedata.category(sign) == "Cc" and sign not in _ALLOWED_CONTROLS for sign in field.data):
        raise ValidationError(gettext("This holds signs that cannot be stored. Type it again by hand."))
    if len(field.data) > _LONGEST:
        raise ValidationError(gettext("This is too long: up to %(longest)s signs.", longest=_LONGEST))


class PageForm(FlaskForm):
    """Base of all forms."""

    class Meta(FlaskForm.Meta):
        """Text is stripped and checked in every field, so that no form can forget it."""

        def bind_field(self, form: Any, unbound_field: Any, options: Any) -> Field:
            """Adds the filter and the check that all fields have."""
            if not issubclass(unbound_field.field_class, _TAKEN_AS_THEY_ARE):
                options["filters"] = [strip, *options.get("filters", ())]
            bound = unbound_field.bind(form=form, **options)
            bound.validators = [*bound.validators, no_control_signs]
            return bound

    def refuse(self, error: DomainError) -> None:
        """Shows what a service refused above the form, one line a reason."""
        self.form_errors.extend(refusal_words(error))

    def say(self, fault: str) -> None:
        """Shows a fault that belongs to no field above the form."""
        self.form_errors.append(fault)

    @property
    def faults(self) -> list[tuple[str | None, str]]:
        """All faults as (id of the field or None, message), for the summary above the form."""
        listed: list[tuple[str | None, str]] = [(None, each) for each in self.form_errors]
        return listed + [each for field in self for each in faults_of(field)]


def faults_of(field: Field) -> list[tuple[str | None, str]]:
    """The faults of a field, or of the fields within it, each with the id of the box to go to."""
    inner = field if isinstance(field, FieldList) else field.form if isinstance(field, FormField) else None
    if inner is not None:
        return [each for one in inner for each in faults_of(one)]
    return [(field.id, str(message)) for message in field.errors]
