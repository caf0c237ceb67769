"""`trainer solve` as people and scripts call it."""

import json
import subprocess
import sys

import pytest
from click.testing import CliRunner
from set_up_examples import A_RISER_WITHOUT_VENT, OVER_THE_TOP, POLICY, document, set_up

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


_LEANING = {
    "section__slope": "-5 deg", "section__left_end": "3 m", "joint__left_open": "10 mm",
    "joint__pool_depth": "3 mm", "arc__passes": 3, "arc__between_passes": "10 min",
    "dams": [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "new", "rope": "2.5 m"}],
    "near_heat": [{"what": "draw rope", "material": "polypropylene", "distance": "60 mm"}],
}  # fmt: skip


def test_a_sloping_section_its_bead_and_the_heat_at_ropes_are_answered():
    result = _solve(document(**_LEANING))
    assert result.exit_code == 0
    answer = json.loads(result.stdout)
    assert answer["section"]["pocket_beyond_vent_fraction"] > 0.1
    # Worked by hand, 5 L/min of argon: 58.27 mm2 of vent and root let it out at 4.57 Pa; 3 mm of liquid steel weigh
    # 203 Pa (flow_checks.csv O-06).
    assert answer["vent"]["pressure_at_last_of_joint_pa"] == pytest.approx(4.57, rel=3e-3)
    assert answer["vent"]["pool_head_pa"] == pytest.approx(202.997655, rel=1e-4)
    assert answer["vent"]["pressure_while_welding_pa"] > answer["vent"]["pressure_at_last_of_joint_pa"]
    assert set(answer["dams"]) == {
        "temperature_c", "limit_c", "steady_c", "safe_distance_m", "rope_long_enough",
    }  # fmt: skip
    assert answer["dams"]["rope_long_enough"] == [False]
    assert set(answer["near_heat"][0]) == {"what", "temperature_c", "limit_c", "safe_distance_mm"}
    raised = {each["code"] for each in answer["cautions"]}
    assert {"vent-beyond-pool", "rope-too-short", "burns-near-weld"} <= raised


def test_a_blocked_vent_has_null_for_never_and_the_moment_until_the_pool_lifts():
    shut = {"vent__blocked": True, "joint__left_open": "0 mm", "joint__pool_depth": "3 mm"}
    answer = json.loads(_solve(document(**shut)).stdout)
    assert answer["purge"]["time_to_target_s"] is None
    assert answer["purge"]["never_because"].startswith("the vent is blocked")
    assert set(answer["vent"]) == {"pool_head_pa", "bridging_pressure_pa", "reaches_pool_head_s"}


def test_every_fault_of_weld_and_pipe_ends_is_told_at_once():
    wrong = {
        "section__left_end": "0.1 m", "joint__left_open": "1 m", "joint__pool_depth": "5 mm",
        "arc__between_passes": "10 min", "near_heat": [{"material": "gum"}], "section__slope": "95 deg",
    }  # fmt: skip
    result = _solve(document(**wrong))
    assert (result.exit_code, result.stdout) == (2, "")
    assert sorted(line.partition(":")[0] for line in result.stderr.splitlines()) == [
        "arc.between_passes", "joint.left_open", "joint.pool_depth", "near_heat.0.material", "section.left_end",
        "section.slope",
    ]  # fmt: skip


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


def test_a_spool_is_answered_with_its_dead_leg_and_its_worst_place():
    result = _solve(document(**A_RISER_WITHOUT_VENT))
    assert result.exit_code == 0
    answer = json.loads(result.stdout)
    assert answer["section"]["parts"] == 5
    # By hand: 1286 mm from end to end along the path.
    assert answer["section"]["length_mm"] == pytest.approx(1286.0)
    (leg,) = answer["purge"]["dead_legs"]
    assert set(leg) == {
        "place", "mouth", "volume_l", "length_mm", "crossed", "time_to_target_s", "oxygen_after_wait_ppm",
    }  # fmt: skip
    assert leg["crossed"] is False
    assert answer["purge"]["worst_place"] == leg["place"] == "cap"
    assert any(each["code"] == "dead-leg" and "'cap'" in each["text"] for each in answer["cautions"])


def test_a_spool_whose_gas_goes_over_the_top_says_what_a_vent_there_saves():
    result = _solve(document(**OVER_THE_TOP))
    assert result.exit_code == 0
    answer = json.loads(result.stdout)
    (high,) = answer["purge"]["dead_legs"]
    assert (high["place"], high["mouth"], high["crossed"]) == ("top", "shoulder", True)
    time_s = answer["purge"]["time_to_target_s"]["expected"]
    # Hours by hand: 100 L at 15 L/min, one change in 6.6 min, and not the week that diffusion alone takes.
    assert 400.0 < high["time_with_vent_there_s"] < time_s < 3 * 3600.0
    (said,) = (each for each in answer["cautions"] if each["code"] == "high-point-crossed")
    assert said["text"].startswith("Air lingers at 'top': with the vent there the purge takes ")


def test_a_spool_that_cannot_be_prints_one_line_per_fault():
    riser = document(**A_RISER_WITHOUT_VENT)
    riser["section"]["path"][1]["branch"][1]["length"] = "1 m"
    riser["section"]["left_dam"] = "300 mm"
    riser["vent"]["at"] = "nowhere"
    result = _solve(riser)
    assert (result.exit_code, result.stdout) == (2, "")
    assert {line.partition(":")[0] for line in result.stderr.splitlines()} == {
        "section.left_dam",
        "section.path.1.branch.1.length",
        "vent.at",
    }
