"""`trainer solve` as people and scripts call it."""

import json
import subprocess
import sys

import pytest
from click.testing import CliRunner
from set_up_examples import POLICY, document, set_up

from trainer.cli import main
from trainer.cli import solve as solve_module
from trainer.domain.run_set_up import run
from trainer.set_up_files import write_run


def _solve(given, *options):
    text = given if isinstance(given, str | bytes) else json.dumps(given)
    return CliRunner().invoke(main, ["solve", "-", *options], input=text)


def test_an_answer_is_what_the_core_says():
    result = _solve(document())
    assert result.exit_code == 0
    assert json.loads(result.stdout) == json.loads(json.dumps(write_run(run(set_up(), policy=POLICY))))
    assert result.stderr == ""


def test_a_file_is_read_as_well_as_standard_input(tmp_path):
    (tmp_path / "set_up.json").write_text(json.dumps(document()))
    result = CliRunner().invoke(main, ["solve", str(tmp_path / "set_up.json")])
    assert json.loads(result.stdout)["pipe"]["bore_mm"] == pytest.approx(161.5, abs=0.05)


def test_an_unusable_set_up_prints_one_line_per_fault_and_nothing_else():
    result = _solve(document(vent__height=2, flow__purge="15", wiat="6 min"))
    assert result.exit_code == 2
    assert result.stdout == ""
    assert [line.partition(":")[0] for line in result.stderr.splitlines()] == [
        "vent.height",
        "flow.purge",
        "wiat",
    ]


@pytest.mark.parametrize(
    "given", [b"", b"{", b"\xff", b"NaN", b"3", b'"x"', b"null", b"[" * 100_000, b" " * 1_000_001]
)
def test_what_is_no_set_up_exits_2_with_one_line(given):
    result = _solve(given)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert len(result.stderr.splitlines()) == 1


def test_a_list_is_answered_in_its_order_with_errors_in_place():
    result = _solve([document(), document(vent__height=2), {}])
    assert result.exit_code == 2
    first, second, third = json.loads(result.stdout)
    assert first["pipe"]["wall_mm"] == pytest.approx(3.4)
    assert [each["path"] for each in second["errors"]] == ["vent.height"]
    assert third == {"cautions": []}
    assert result.stderr.startswith("[1] vent.height: ")


def test_a_list_without_faults_exits_0():
    result = _solve([{}, document()])
    assert result.exit_code == 0
    assert len(json.loads(result.stdout)) == 2


def test_an_endless_list_is_refused():
    assert _solve([{}] * 1001).exit_code == 2


def test_what_the_core_refuses_names_the_field():
    result = _solve(document(vent__diameter="1 mm", flow__purge="40 L/min"))
    assert result.exit_code == 2
    assert result.stderr.startswith("vent.diameter: vent velocity is ")


def test_the_reference_condition_moves_the_supply_and_is_echoed():
    standard = json.loads(_solve(document()).stdout)["supply"]
    us = json.loads(_solve(document(), "--reference", "21C-1atm").stdout)["supply"]
    assert (standard["reference"], us["reference"]) == ("15C-1bar", "21C-1atm")
    # Worked by hand: (294.26 / 288.15) x (100 000 / 101 325) = 1.0078 times the volume.
    assert us["contents_l"] / standard["contents_l"] == pytest.approx(1.0078, rel=2e-4)


def test_another_reference_condition_is_refused():
    assert _solve(document(), "--reference", "25C-1bar").exit_code == 2


def test_a_missing_file_is_named(tmp_path):
    result = CliRunner().invoke(main, ["solve", str(tmp_path / "gone.json")])
    assert result.exit_code == 2
    assert "gone.json: No such file or directory" in result.stderr


def test_a_fault_of_the_tool_itself_exits_1(monkeypatch):
    def broken(*_args, **_named):
        raise RuntimeError("the core fell over")

    monkeypatch.setattr(solve_module, "run", broken)
    assert _solve(document()).exit_code == 1


def test_an_unknown_command_is_refused():
    assert CliRunner().invoke(main, ["slove"]).exit_code == 2


def test_solving_leaves_the_libraries_of_other_commands_alone():
    heavy = "{'flask', 'sqlalchemy', 'pint', 'faker', 'scipy', 'jsonschema'}"
    code = f"import sys; from trainer.cli.solve import solve; print(sorted({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_the_whole_command_runs_as_a_process(tmp_path):
    (tmp_path / "set_up.json").write_text(json.dumps(document()))
    command = [sys.executable, "-m", "trainer", "solve", str(tmp_path / "set_up.json")]
    done = subprocess.run(command, capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
    assert json.loads(done.stdout.decode("utf-8"))["purge"]["trace"]


def test_the_list_of_commands_names_them_all():
    listed = CliRunner().invoke(main, ["--help"]).output
    assert all(name in listed for name in main.list_commands(None))
    assert "demo" in main.list_commands(None)


def test_the_list_of_commands_imports_none_of_them():
    code = "import sys; from trainer.cli import main; main(['--help'], standalone_mode=False); print('numpy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "solve" in done.stdout
    assert done.stdout.strip().endswith("False")


def test_each_command_has_help():
    result = CliRunner().invoke(main, ["solve", "--help"])
    assert result.exit_code == 0
    assert "15C-1bar" in result.output
    assert "10 ppm" in result.output
