"""The facts that a scenario states: values of the set-up that the person sees, and texts."""

from typing import Any

from trainer.domain.drawn import Drawn
from trainer.domain.family import FactTemplate
from trainer.domain.quantities import FieldKind
from trainer.domain.scenario import Fact
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import spec_at, value_at
from trainer.domain.templates import sentence


def facts_of(drawn: Drawn, shown: SetUp) -> tuple[Fact, ...]:
    """The facts of this difficulty, in the order of the file."""
    templates = [each for each in drawn.family.facts if each.span.holds(drawn.difficulty)]
    return tuple(fact for each in templates if (fact := _fact(each, drawn, shown)) is not None)


def _fact(template: FactTemplate, drawn: Drawn, shown: SetUp) -> Fact | None:
    label = sentence(template.label, drawn.values)
    if template.text:
        return Fact(label=label, path=template.path, text=sentence(template.text, drawn.values))
    value = value_at(shown, template.path)
    if value is None:
        return None
    spec = spec_at(template.path)
    if spec.kind is FieldKind.MEASURED:
        return Fact(label=label, path=template.path, value=value, dimension=spec.dimension)
    return Fact(label=label, path=template.path, text=_word(value))


def _word(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}" if isinstance(value, float) else str(value)
