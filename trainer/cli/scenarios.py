"""`trainer families`, `draw` and `mark`: scenarios from the content files, on the command line."""

import json
from typing import Any

import click

from trainer.cli.exits import read_input, refuse
from trainer.core.errors import OutOfRange
from trainer.domain.errors import Missing
from trainer.domain.families import draw as draw_scenario
from trainer.domain.family import ScenarioFamily
from trainer.domain.marking import mark as mark_scenario
from trainer.domain.people import UnitSystem
from trainer.domain.scenario import Scenario
from trainer.domain.streams import LAST_SEED
from trainer.scenario_files import (
    Content,
    ContentFault,
    ResponseFault,
    load_content,
    marked_document,
    parse_responses,
    scenario_document,
)
from trainer.set_up_files import LARGEST_BYTES, SetUpFaults, read_json, write_run

_ASKED = ("family", "seed", "difficulty", "responses", "content_version")


@click.command
@click.option("--json", "as_json", is_flag=True, help="Print the list as JSON.")
def families(as_json: bool) -> None:
    """List the scenario families."""
    found = [_listed(each) for each in _content().families.values()]
    if as_json:
        _print(found)
        return
    for each in found:
        kinds, skills = ", ".join(each["item_kinds"]), ", ".join(map(str, each["skills"]))
        click.echo(f"{each['family']}: {each['title']} (skills {skills}; {kinds})")


@click.command
@click.argument("family")
@click.option("--seed", type=int, required=True, help=f"Which scenario: 0 to {LAST_SEED}.")
@click.option("--difficulty", type=float, default=0.5, show_default=True, help="0 to 1, in steps of 0.01.")
@click.option("--with-key", is_flag=True, help="Print each item's key, band and worked solution too.")
@click.option(
    "--units",
    type=click.Choice([each.value for each in UnitSystem]),
    default=UnitSystem.METRIC.value,
    show_default=True,
    help="For whom it is drawn: sizes are those that readers of these units have.",
)
def draw(family: str, seed: int, difficulty: float, with_key: bool, units: str) -> None:
    """Draw one scenario of FAMILY; the same seed, difficulty and units give the same one anywhere."""
    drawn = _drawn(_content(), family, seed, difficulty, UnitSystem(units))
    _print(scenario_document(drawn, with_answers=with_key))


@click.command
@click.argument("source", metavar="FILE|-")
def mark(source: str) -> None:
    """Mark the responses in FILE (JSON; - reads standard input).

    {"family": …, "seed": …, "difficulty": …, "responses": {"<item id>": …}}, and content_version where a
    scenario drawn from other content is to be refused.
    """
    try:
        asked = read_json(read_input(source, most_bytes=LARGEST_BYTES))
    except SetUpFaults as unusable:
        refuse(each.line for each in unusable.faults)
    _refuse_malformed(asked)
    content = _content()
    edition = _edition(content, asked["family"], asked.get("content_version"))
    scenario = _drawn(content, asked["family"], asked["seed"], asked["difficulty"], edition)
    if asked.get("content_version", scenario.content_version) != scenario.content_version:
        refuse(
            [f"content_version: {asked['content_version']!r} is not the present {scenario.content_version!r}"]
        )
    try:
        responses = parse_responses({each.id: each for each in scenario.items}, asked["responses"])
    except ResponseFault as fault:
        refuse([f"responses.{fault.item_id}: {fault.message}"])
    marked = mark_scenario(scenario, responses=responses, policy=content.policy)
    _print(marked_document(marked, scenario, run=write_run(marked.run) if marked.run is not None else None))


def _listed(family: ScenarioFamily) -> dict[str, Any]:
    return {
        "family": family.id,
        "title": family.title,
        "skills": list(family.skills),
        "item_kinds": [each.value for each in family.item_kinds],
        "difficulty_range": [0.0, 1.0],
    }


def _content() -> Content:
    try:
        return load_content()
    except ContentFault as fault:
        refuse(fault.lines)


def _edition(content: Content, family: str, version: Any) -> UnitSystem:
    """The edition of a family that has this content version; the metric one for any other and for none."""
    inch = content.inch_families.get(family)
    return UnitSystem.INCH_POUND if inch and inch.content_version == version else UnitSystem.METRIC


def _drawn(content: Content, family: Any, seed: Any, difficulty: Any, edition: UnitSystem) -> Scenario:
    try:
        return draw_scenario(
            content.family(family, edition=edition),
            seed=seed,
            difficulty=difficulty,
            policy=content.policy,
            hazards=content.hazards,
        )
    except Missing:
        refuse([f"family: {family!r} is not one of {', '.join(content.families)}"])
    except OutOfRange as error:
        refuse([f"{error.quantity}: {error}"])


def _refuse_malformed(asked: Any) -> None:
    """Every fault of the request's own keys at once."""
    if not isinstance(asked, dict):
        refuse(["the input is not a JSON object with family, seed, difficulty and responses"])
    faults = [f"{each}: is not known; known are {', '.join(_ASKED)}" for each in asked if each not in _ASKED]
    if not isinstance(asked.get("family"), str):
        faults.append("family: is not the name of a family")
    if not isinstance(asked.get("seed"), int) or isinstance(asked.get("seed"), bool):
        faults.append(f"seed: is not a whole number from 0 to {LAST_SEED}")
    if not isinstance(asked.get("difficulty"), int | float) or isinstance(asked.get("difficulty"), bool):
        faults.append("difficulty: is not a number from 0 to 1")
    if not isinstance(asked.get("responses"), dict):
        faults.append("responses: is not an object from item id to response")
    if faults:
        refuse(faults)


def _print(document: Any) -> None:
    # As bytes: the output is UTF-8 whatever the terminal's encoding.
    click.echo(json.dumps(document, ensure_ascii=False, allow_nan=False).encode())
