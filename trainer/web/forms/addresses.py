"""Forms sent by GET: addresses are read by machines and have a point, boxes hold what people type."""

from urllib.parse import urlencode

from flask import request
from werkzeug.datastructures import MultiDict

from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import QuantityField
from trainer.web.forms.numbers import NumberField
from trainer.web.forms.typed import as_typed, kept

TYPED = "typed"  # the form's own sign, which no address of ours has


def was_typed() -> bool:
    """Whether the form sent this, rather than an address that was kept or passed on."""
    return TYPED in request.args


def asked(kind: type[PageForm]) -> MultiDict[str, str]:
    """What this request asks, as its reader would have typed it."""
    if was_typed():
        return request.args
    numbers = _numbers(kind)
    pairs = request.args.items(multi=True)
    return MultiDict((name, as_typed(text) if name in numbers else text) for name, text in pairs)


def told_again(kind: type[PageForm]) -> str:
    """The query that asks the same in every language."""
    numbers = _numbers(kind)
    pairs = ((name, text) for name, text in request.args.items(multi=True) if name != TYPED)
    return urlencode([(name, kept(text) if name in numbers else text) for name, text in pairs])


def _numbers(kind: type[PageForm]) -> set[str]:
    return {each.name for each in kind(formdata=None) if isinstance(each, QuantityField | NumberField)}
