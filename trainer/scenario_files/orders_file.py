"""Reads order items of a family file: the steps, and which has to come before which."""

from trainer.domain.family import OrderStepTemplate, OrderTemplate, PrecedenceTemplate
from trainer.scenario_files.tables import Table

LEAST_STEPS = 3


def read_order(table: Table) -> OrderTemplate:
    """`step` and `before`; a step with a belief is one to leave out, so that nothing comes before it."""
    steps = tuple(_step(each) for each in table.tables("step", required=True))
    belongs = {each.id for each in steps if not each.belief}
    if len(belongs) < LEAST_STEPS:
        table.fault("step", f"an order has at least {LEAST_STEPS} steps that belong in it")
    if len({each.id for each in steps}) < len(steps):
        table.fault("step", "two steps have one id")
    precedences = tuple(_precedence(each, belongs) for each in table.tables("before", required=True))
    if _goes_round(precedences):
        table.fault("before", "the steps go round in a circle: none of them could be the first")
    return OrderTemplate(steps=steps, precedences=precedences)


def _step(table: Table) -> OrderStepTemplate:
    step = OrderStepTemplate(
        id=table.text("id"),
        text=table.text("text"),
        belief=table.text("belief", default=""),
        critical=table.truth("critical", default=False),
        span=table.span(),
    )
    if step.critical and not step.belief:
        table.fault(
            "critical", "a step that belongs is critical through `before`, with what it has to precede"
        )
    table.close()
    return step


def _precedence(table: Table, belongs: set[str]) -> PrecedenceTemplate:
    precedence = PrecedenceTemplate(
        first=table.text("first"),
        then=table.text("then"),
        why=table.text("why"),
        critical=table.truth("critical", default=False),
    )
    for name, step in (("first", precedence.first), ("then", precedence.then)):
        if step not in belongs:
            table.fault(name, f"{step!r} is not one of {', '.join(sorted(belongs))}")
    table.close()
    return precedence


def _goes_round(precedences: tuple[PrecedenceTemplate, ...]) -> bool:
    """Whether some step would have to come before itself."""
    pairs = {(each.first, each.then) for each in precedences}
    steps = {step for pair in pairs for step in pair}
    while steps:
        free = {step for step in steps if not any(then == step and first in steps for first, then in pairs)}
        if not free:
            return True
        steps -= free
    return False
