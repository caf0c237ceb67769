"""A scenario and its marks as JSON: what the commands print and what an attempt stores."""

from collections.abc import Iterator, Mapping
from typing import Any

from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Cue, Fact, Marked, Scenario
from trainer.scenario_files.item_documents import (
    answer_from_document,
    item_document,
    item_from_document,
    response_document,
)
from trainer.scenario_files.records import from_json, to_json
from trainer.set_up_files import exact_text, exact_value, set_up_from_document, write_set_up

_NAMED = (
    "family",
    "title",
    "seed",
    "difficulty",
    "content_version",
    "core_version",
    "policy_version",
    "situation",
)


def scenario_document(scenario: Scenario, *, with_answers: bool) -> dict[str, Any]:
    """The scenario for whoever drew it; with the answers it can be stored and marked later."""
    return {
        **{name: getattr(scenario, name) for name in _NAMED},
        "set_up": write_set_up(scenario.set_up),
        "facts": [_fact_out(each) for each in scenario.facts],
        "given": [_fact_out(each) for each in scenario.given],
        "cues": to_json(scenario.cues),
        "items": [item_document(each, scenario.answers if with_answers else {}) for each in scenario.items],
        **({"said": to_json(scenario.said)} if scenario.said else {}),
    }


def public_document(scenario: Scenario) -> dict[str, Any]:
    """The scenario as it may be shown before it is handed in: without the answers and without the seed."""
    document = scenario_document(scenario, with_answers=False)
    del document["seed"]
    if "said" in document:
        told = set(_texts_in(document))
        document["said"] = {
            language: {each: words for each, words in said.items() if each in told}
            for language, said in document["said"].items()
        }
    return document


def _texts_in(document: Any) -> Iterator[str]:
    """Every text that stands in a document as a value."""
    if isinstance(document, str):
        yield document
    elif isinstance(document, Mapping):
        for name, each in document.items():
            yield from _texts_in(each) if name != "said" else ()
    elif isinstance(document, list):
        for each in document:
            yield from _texts_in(each)


def scenario_from_document(document: Mapping[str, Any]) -> Scenario:
    """The scenario that one of these documents holds, with as many answers as were written."""
    items = tuple(item_from_document(each) for each in document["items"])
    pairs = zip(items, document["items"], strict=True)
    return Scenario(
        **{name: document.get(name) for name in _NAMED},  # type: ignore[arg-type]
        set_up=set_up_from_document(document["set_up"]),
        facts=tuple(_fact_in(each) for each in document["facts"]),
        # scenarios that were drawn before there was such a list are read back without one
        given=tuple(_fact_in(each) for each in document.get("given", ())),
        cues=from_json(tuple[Cue, ...], document["cues"]),
        items=items,
        answers={item.id: answer_from_document(item, each) for item, each in pairs if "key" in each},
        said=document.get("said", {}),  # none where it was drawn before its family was translated
    )


def marked_document(marked: Marked, scenario: Scenario, *, run: Any = None) -> dict[str, Any]:
    """The marks, each beside the key; `run` is the answer of `solve` for the person's own set-up."""
    return {
        "family": scenario.family,
        "seed": scenario.seed,
        "difficulty": scenario.difficulty,
        "content_version": scenario.content_version,
        "core_version": scenario.core_version,
        "policy_version": scenario.policy_version,
        "items": [
            {
                **_outcome_out(each),
                "key": response_document(scenario.item(each.item_id), _key(scenario, each.item_id)),
            }
            for each in marked.outcomes
        ],
        "total": marked.total,
        "by_skill": {str(skill): score for skill, score in marked.by_skill.items()},
        "critical_missed": list(marked.critical_missed),
        "passed": marked.passed,
        "own_set_up": write_set_up(marked.own_set_up) if marked.own_set_up is not None else None,
        "run": run,
        "run_missing": list(marked.run_missing),
    }


def _outcome_out(outcome: Any) -> dict[str, Any]:
    return {
        "id": outcome.item_id,
        "score": outcome.score,
        "correct": outcome.correct,
        "answered": outcome.answered,
        "why": list(outcome.why),
        "misconceptions": list(outcome.misconceptions),
        "critical_missed": outcome.critical_missed,
    }


def _key(scenario: Scenario, item_id: str) -> Any:
    return scenario.answers[item_id].key


def _fact_out(fact: Fact) -> dict[str, Any]:
    written: dict[str, Any] = {"label": fact.label, "path": fact.path}
    if fact.value is not None and fact.dimension is not None:
        return {**written, "value": exact_text(fact.value, fact.dimension), "dimension": fact.dimension.value}
    return {**written, "text": fact.text}


def _fact_in(written: Mapping[str, Any]) -> Fact:
    if "dimension" not in written:
        return Fact(label=written["label"], path=written["path"], text=written["text"])
    dimension = Dimension(written["dimension"])
    value = exact_value(written["value"], dimension)
    return Fact(label=written["label"], path=written["path"], value=value, dimension=dimension)
