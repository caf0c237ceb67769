"""SetUp → the JSON object that reads back as the same set-up, to the last bit."""

from typing import Any

from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.set_up import SetUp
from trainer.set_up_files.exact import exact_text


def write_set_up(set_up: SetUp) -> dict[str, Any]:
    """The set-up as a JSON object with quantities in readable metric units; what is not known is left out."""
    return _part(set_up)


def _part(part: Any) -> dict[str, Any]:
    specs = specs_of(type(part)).values()
    known = ((spec, getattr(part, spec.attribute)) for spec in specs)
    written = {
        spec.key: written_value(value, spec) for spec, value in known if value is not None and value != ()
    }
    return {key: value for key, value in written.items() if value != {}}


def written_value(value: Any, spec: FieldSpec) -> Any:
    """One value as it stands in a file."""
    if value is None:
        return None
    if spec.kind is FieldKind.MEASURED and spec.dimension is not None:
        return exact_text(value, spec.dimension)
    if spec.kind is FieldKind.PART:
        return _part(value)
    if spec.kind is FieldKind.PARTS:
        return [_part(each) for each in value]
    return str(value) if spec.kind is FieldKind.CHOICE else value
