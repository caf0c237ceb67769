"""`trainer solve`: a set-up in, what would happen out."""

import json
from collections.abc import Callable
from typing import Any

import click

from trainer.cli.exits import UNUSABLE, read_input, refuse
from trainer.core.reference_conditions import ReferenceCondition
from trainer.domain.policy import Policy
from trainer.domain.run_set_up import run
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.scenario_files.policy_file import DEFAULT_POLICY, load_policy
from trainer.set_up_files import (
    LARGEST_BYTES,
    Fault,
    SetUpFaults,
    read_json,
    read_set_up,
    write_run,
    written_fault,
)

_MOST_SET_UPS = 1000
_REFERENCES = [
    ReferenceCondition.AT_15C_1BAR.value,
    ReferenceCondition.AT_21C_1ATM.value,
    ReferenceCondition.AT_0C_1ATM.value,
]


@click.command
@click.argument("source", metavar="FILE|-")
@click.option(
    "--reference",
    type=click.Choice(_REFERENCES),
    default=_REFERENCES[0],
    show_default=True,
    help="Condition at which the supply's gas volumes are stated.",
)
def solve(source: str, reference: str) -> None:
    """Say what would happen with the set-up in FILE (JSON; - reads standard input).

    A list of set-ups gives a list of answers, with {"errors": [...]} in place of one that cannot be used.
    Where they are left out, temperature is 20 degC, stop_pressure 2 bar, slope 0 deg, the number of vent
    holes and of weld passes 1, the time from one pass to the next 10 min. The gas carries the oxygen of its
    purity, else of its usual grade, 10 ppm.
    Of a liquid supply 5 % of the liquid stay in the vessel and 3 % a day boil off; a dewar delivers 350
    cubic feet an hour. Nothing else is guessed: what depends on it is left out of the answer. null means
    never.

    A mixture is written by its ISO 14175 symbol and its composition, such as R1 with "ArH-5" or
    "Ar + 5 % H2". Prices are plain numbers in any currency, and costs come out in the same.
    """
    answer = _answering(load_policy(DEFAULT_POLICY), ReferenceCondition(reference))
    try:
        document = read_json(read_input(source, most_bytes=LARGEST_BYTES))
        if not isinstance(document, list):
            _print(answer(document))
            return
    except SetUpFaults as unusable:
        refuse(each.line for each in unusable.faults)
    _print_all(document, answer)


def _answering(policy: Policy, reference: ReferenceCondition) -> Callable[[Any], dict[str, Any]]:
    def answer(document: Any) -> dict[str, Any]:
        try:
            return write_run(run(read_set_up(document), policy=policy, reference=reference))
        except UnusableSetUp as unusable:
            raise SetUpFaults([written_fault(each) for each in unusable.faults]) from unusable

    return answer


def _print_all(documents: list[Any], answer: Callable[[Any], dict[str, Any]]) -> None:
    if len(documents) > _MOST_SET_UPS:
        refuse([f"the list has {len(documents)} set-ups; accepted up to {_MOST_SET_UPS}"])
    answers, lines = [], []
    for place, document in enumerate(documents):
        try:
            answers.append(answer(document))
        except SetUpFaults as unusable:
            answers.append({"errors": [_error(each) for each in unusable.faults]})
            lines += [f"[{place}] {each.line}" for each in unusable.faults]
    _print(answers)
    if lines:
        for line in lines:
            click.echo(line, err=True)
        raise click.exceptions.Exit(UNUSABLE)


def _error(fault: Fault) -> dict[str, str]:
    return {"path": fault.path, "message": fault.message}


def _print(answer: Any) -> None:
    # As bytes: the answer is UTF-8 whatever the terminal's encoding.
    click.echo(json.dumps(answer, ensure_ascii=False, allow_nan=False).encode())
