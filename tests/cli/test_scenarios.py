"""`trainer families`, `draw`, `mark`, `check` as a person runs them."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from trainer.cli import main
from trainer.scenario_files import FOLDER


def trainer(*arguments: str, given: Any = None) -> Result:
    text = None if given is None else json.dumps(given)
    return CliRunner().invoke(main, list(arguments), input=text)


def printed(*arguments: str, given: Any = None) -> Any:
    result = trainer(*arguments, given=given)
    assert result.exit_code == 0, result.stderr
    return json.loads(result.stdout)


def request(*, drawn_at: float = 0.2, **changed: Any) -> dict[str, Any]:
    drawn = printed("draw", "end-plates", "--seed", "7", "--difficulty", str(drawn_at), "--with-key")
    keys = {each["id"]: each["key"] for each in drawn["items"]}
    return {"family": "end-plates", "seed": 7, "difficulty": drawn_at, "responses": keys} | changed


def test_families_are_listed_for_people_and_for_programs() -> None:
    listed = printed("families", "--json")
    assert len(listed) >= 4
    assert set(listed[0]) == {"family", "title", "skills", "item_kinds", "difficulty_range"}
    assert listed[0]["family"] in trainer("families").stdout


def test_draw_prints_no_key_unless_asked() -> None:
    plain = printed("draw", "pump-pit", "--seed", "3")
    assert not any("key" in each or "solution" in each for each in plain["items"])
    keyed = printed("draw", "pump-pit", "--seed", "3", "--with-key")
    assert all({"key", "band", "critical", "solution"} <= set(each) for each in keyed["items"])
    assert plain["set_up"] == keyed["set_up"]


def test_keys_as_printed_score_one() -> None:
    marked = printed("mark", "-", given=request())
    assert marked["total"] == 1.0
    assert marked["passed"] is True
    assert marked["critical_missed"] == []
    assert marked["run"]["purge"]["time_to_target_s"]["expected"] > 0.0


def test_the_plan_of_a_diagnosis_is_marked_as_a_list_of_steps_and_one_after_the_end_is_refused() -> None:
    drawn = printed("draw", "came-back", "--seed", "5", "--difficulty", "0.4", "--with-key")
    keys = {each["id"]: each["key"] for each in drawn["items"]}
    asked = {"family": "came-back", "seed": 5, "difficulty": 0.4, "responses": keys}

    marked = printed("mark", "-", given=asked)
    assert marked["total"] == 1.0
    assert marked["own_set_up"]["hose"]["open_fraction"] == 1.0

    longer = trainer("mark", "-", given=asked | {"responses": keys | {"find": [*keys["find"], "m1"]}})
    assert longer.exit_code == 2
    assert "no further one is taken" in longer.stderr


def test_an_explanation_waits_for_a_person_and_keeps_the_pass_open() -> None:
    asked = request(drawn_at=0.5)
    assert asked["responses"]["say-why"] is None  # its key as printed: there is none
    asked["responses"]["say-why"] = "Argon sinks, so the air leaves at the top."
    marked = printed("mark", "-", given=asked)
    score = {each["id"]: each["score"] for each in marked["items"]}
    assert score.pop("say-why") is None
    assert set(score.values()) == {1.0}
    assert (marked["total"], marked["passed"], marked["by_skill"]["4"]) == (None, None, None)


def test_the_key_of_an_explanation_given_back_is_no_answer() -> None:
    marked = printed("mark", "-", given=request(drawn_at=0.5))
    found = next(each for each in marked["items"] if each["id"] == "say-why")
    assert (found["score"], found["answered"], marked["passed"]) == (0.0, False, False)


def test_the_run_is_what_solve_says_of_the_same_set_up() -> None:
    marked = printed("mark", "-", given=request())
    assert marked["run"] == printed("solve", "-", given=marked["own_set_up"])


def test_a_missing_response_scores_nothing_and_leaves_the_run_out() -> None:
    asked = request()
    del asked["responses"]["wait"]
    marked = printed("mark", "-", given=asked)
    assert next(each["score"] for each in marked["items"] if each["id"] == "wait") == 0.0
    assert marked["run"] is None
    assert marked["run_missing"] == ["wait"]


def test_a_response_file_is_read(tmp_path: Path) -> None:
    file = tmp_path / "responses.json"
    file.write_text(json.dumps(request()), encoding="utf-8")
    assert printed("mark", str(file))["total"] == 1.0


@pytest.mark.parametrize(
    ("changed", "expected"),
    [
        ({"responses": {"wait": "6"}}, "responses.wait: '6' has no unit"),
        ({"responses": {"nonsense": "b"}}, "responses.nonsense: there is no such item"),
        ({"content_version": "older"}, "content_version: 'older' is not the present"),
        ({"family": "nonsense"}, "family: 'nonsense' is not one of"),
        ({"seed": -1}, "seed"),
        ({"seed": "7"}, "seed: is not a whole number"),
        ({"difficulty": 0.505}, "steps of 0.01"),
        ({"responses": []}, "responses: is not an object"),
        ({"answer": 1}, "answer: is not known; known are family, seed"),
    ],
)
def test_a_request_that_cannot_be_used_exits_2_and_says_why(changed: dict[str, Any], expected: str) -> None:
    result = trainer("mark", "-", given=request(**changed))
    assert result.exit_code == 2
    assert expected in result.stderr
    assert result.stdout == ""


def test_all_faults_of_a_request_come_at_once() -> None:
    result = trainer("mark", "-", given={"family": 1, "seed": 1.5, "responses": None})
    assert result.exit_code == 2
    assert len(result.stderr.strip().splitlines()) == 4


@pytest.mark.parametrize("arguments", [("nonsense", "--seed", "1"), ("pump-pit", "--seed", "-1")])
def test_a_draw_that_there_is_not_exits_2(arguments: tuple[str, ...]) -> None:
    assert trainer("draw", *arguments).exit_code == 2


def test_check_prints_one_line_a_family() -> None:
    result = trainer("check", "--seeds", "12")
    assert result.exit_code == 0, result.stderr
    lines = result.stdout.strip().splitlines()
    assert len(lines) == len(printed("families", "--json"))
    # every seed is marked, and no family is without a choice
    told = [
        re.search(r": 12 drawn, .* 12 keys and ([1-9]\d*) other options marked: ok$", line) for line in lines
    ]
    assert None not in told


def test_check_says_what_it_marks() -> None:
    told = " ".join(trainer("check", "--help").stdout.split())
    assert "marks the key and every other option of each" in told
    assert "every tenth" in told


def test_check_of_one_file_says_where_its_fault_is(tmp_path: Path) -> None:
    written = (FOLDER / "families" / "pump-pit.toml").read_text()
    spoilt = tmp_path / "own-pit.toml"
    before, figure, after = written.partition("[figure.pool]")
    spoilt.write_text(before + figure + after.replace('result = "pool depth"', 'result = "pool deepness"', 1))
    result = trainer("check", str(spoilt))
    assert result.exit_code == 2
    number = next(
        at for at, line in enumerate(spoilt.read_text().splitlines(), 1) if line == 'result = "pool deepness"'
    )
    assert f"own-pit.toml: line {number}: figure.pool.result" in result.stderr
    assert result.stdout == ""


def test_check_of_a_sound_file_of_ones_own_checks_that_file_alone(tmp_path: Path) -> None:
    own = tmp_path / "own-pit.toml"
    own.write_text((FOLDER / "families" / "pump-pit.toml").read_text())
    result = trainer("check", str(own), "--seeds", "10", "--jobs", "1")
    assert result.exit_code == 0, result.stderr
    assert result.stdout.startswith("own-pit: 10 drawn")
    assert len(result.stdout.strip().splitlines()) == 1
