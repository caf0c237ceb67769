"""The form that takes a family file: sent as a file, or written into the box."""

from flask_babel import gettext
from flask_babel import lazy_gettext as _l
from flask_wtf.file import FileField
from wtforms import Field, TextAreaField
from wtforms.validators import ValidationError

from trainer.web.forms.base import PageForm

_LARGEST_BYTES = 100_000


class SendJobForm(PageForm):
    """A family file; what is written in the box counts where no file is chosen."""

    file = FileField(_l("Family file (TOML)"))
    text = TextAreaField(_l("Or its text"), render_kw={"rows": 20, "spellcheck": "false"})

    def __init__(self, *arguments: object, **more: object) -> None:
        super().__init__(*arguments, **more)
        # A family file is longer than the other texts that people type.
        self.text.validators = []
        self.family_file = ""

    def validate_text(self, field: Field) -> None:
        """One of the two is there and can be read as text."""
        sent = self.file.data.read(_LARGEST_BYTES + 1) if self.file.data else (field.data or "").encode()
        if len(sent) > _LARGEST_BYTES:
            raise ValidationError(gettext("This is too long: a family file holds up to 100 kB."))
        try:
            self.family_file = sent.decode("utf-8-sig").replace("\r\n", "\n").strip() + "\n"
        except UnicodeDecodeError as fault:
            raise ValidationError(gettext("This file is no text in UTF-8.")) from fault
        if not self.family_file.strip() or "\0" in self.family_file:
            raise ValidationError(gettext("Choose a family file, or write its text here."))
        self.text.data = self.family_file

    def refuse_file(self, lines: tuple[str, ...]) -> None:
        """What the checker says, line by line, above the box that holds the text."""
        for each in lines:
            self.say(each.removeprefix("own-job.toml: "))
