"""`trainer demo`: the history is whole, comes from real scoring, and its ledger holds."""

import os
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text

from trainer.cli.demo_site.cast import APPRENTICES, EMPLOYER, PASSWORD, SCHOOL
from trainer.cli.demo_site.history import DAYS

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("demo")]


def _trainer(*words: str) -> subprocess.CompletedProcess[str]:
    environ = {**os.environ, "PYTHONWARNINGS": ""}
    return subprocess.run(
        [sys.executable, "-m", "trainer", *words], capture_output=True, text=True, check=False, env=environ
    )


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    built = _trainer("demo", "--build-only", "--data", str(folder))
    assert built.returncode == 0, built.stderr
    (folder / "built-output").write_text(built.stdout)
    return folder


@pytest.fixture(scope="module")
def rows(folder: Path) -> Iterator["_Rows"]:
    engine = create_engine(f"sqlite:///{folder / 'brightroot.sqlite3'}")
    with engine.connect() as connection:
        yield _Rows(connection)
    engine.dispose()


class _Rows:
    def __init__(self, connection) -> None:
        self._connection = connection

    def __call__(self, query: str) -> list[tuple]:
        return [tuple(row) for row in self._connection.execute(text(query))]


def test_it_prints_an_account_of_each_role_and_the_password(folder: Path) -> None:
    printed = (folder / "built-output").read_text()
    roles = Counter(line.split()[0] for line in printed.splitlines() if "@" in line)
    assert roles == {"apprentice": 2, "instructor": 2, "administrator": 1, "employer": 1}
    assert PASSWORD in printed
    assert SCHOOL in printed
    assert EMPLOYER in printed


def test_the_school_is_as_large_as_promised(rows: _Rows) -> None:
    members = dict(rows("select role, count(distinct person_id) from membership group by role"))
    assert members["apprentice"] == APPRENTICES == 24
    assert members["instructor"] == 2
    assert members["employer"] == 1
    assert rows("select count(*) from module") == [(3,)]


def test_the_history_covers_two_months_up_to_today(rows: _Rows) -> None:
    ((first, last),) = rows("select min(started_at), max(started_at) from attempt")
    first_day, last_day = (datetime.fromisoformat(str(each)).replace(tzinfo=UTC) for each in (first, last))
    assert last_day - first_day > timedelta(days=DAYS - 15)
    assert timedelta(0) < datetime.now(UTC) - last_day < timedelta(days=10)


def test_wrong_answers_carry_beliefs_and_fade_with_training(rows: _Rows) -> None:
    beliefs = rows("select misconceptions from outcome where misconceptions not in ('[]', '')")
    assert len(beliefs) > 50
    share_by_stretch = rows(
        "select cast((julianday(a.started_at) - (select min(julianday(started_at)) from attempt)) / 20 as int),"
        " avg(o.misconceptions not in ('[]', '')) from outcome o join marking m using (marking_id)"
        " join attempt a using (attempt_id) group by 1 order by 1"
    )
    early, late = share_by_stretch[0][1], share_by_stretch[-1][1]
    assert late < early / 2


def test_what_was_read_off_a_scale_is_typed_as_people_type_it(rows: _Rows) -> None:
    pressures = [raw for (raw,) in rows("select raw from response where raw like '%bar\"'")]
    assert pressures
    assert all(len(each) <= len('"39.9 bar"') for each in pressures)
    # a gauge's pressure would have eight figures in pascals; what lies under the bead has a few of them
    assert rows("select raw from response where raw like '% Pa\"' and length(raw) > 12") == []


def test_some_pass_some_fail_and_some_are_qualified(rows: _Rows) -> None:
    verdicts = dict(
        rows(
            "select m.passed, count(*) from marking m join attempt a using (attempt_id)"
            " where a.kind = 'assessed' group by 1"
        )
    )
    assert verdicts[0] > 10
    assert verdicts[1] > 10
    ((qualified,),) = rows("select count(*) from qualification")
    assert 5 <= qualified <= 20
    assert rows("select count(*) from share")[0][0] >= 3


def test_most_explanations_are_graded_and_a_few_wait(rows: _Rows) -> None:
    standing = "not exists (select 1 from marking n where n.supersedes = m.marking_id)"
    ((waiting,),) = rows(
        "select count(*) from outcome o join marking m using (marking_id) join attempt a using (attempt_id)"
        f" where a.kind = 'assessed' and o.score is null and {standing}"
    )
    ((graded,),) = rows("select count(*) from grade")
    assert 1 <= waiting < graded


def test_one_own_job_is_practised_and_another_is_a_draft(rows: _Rows) -> None:
    assert rows(
        "select title, state, published_version from own_job join own_job_version using (job_id)"
    ) == [
        ("Wash line", "published", 1),
        ("Steam spool", "draft", None),
    ]
    tried = rows(
        "select a.kind, m.passed is not null from attempt a join attempt_scenario s using (attempt_id)"
        " join own_job j on j.family = s.family join marking m on m.attempt_id = a.attempt_id"
    )
    assert tried == [("practice", 1)]


def test_of_the_sheets_some_are_keyed_in_one_by_half_and_some_not_begun(rows: _Rows) -> None:
    sheets = rows(
        "select s.sat_on, s.person_id is not null, s.attempt_id is not null,"
        " (select count(*) from paper_answer a where a.sheet_id = s.sheet_id) from paper_sheet s"
    )
    whole = [answers for _, _, handed_in, answers in sheets if handed_in]
    waiting = sorted(answers for _, _, handed_in, answers in sheets if not handed_in)
    assert len(whole) == 2
    assert 0 == waiting[0] < waiting[-1] < min(whole)
    assert waiting.count(0) == len(waiting) - 1
    assert any(not is_named for _, is_named, _, _ in sheets)
    # printed, then sat, then keyed in; all of it in the two months
    for printed, sat, keyed in rows(
        "select p.made_at, s.sat_on, s.keyed_at from paper_sheet s join paper_set p using (paper_set_id)"
        " where s.attempt_id is not null"
    ):
        assert printed[:10] < sat < keyed[:10] < f"{datetime.now(UTC):%Y-%m-%d}"


def test_its_ledger_holds(folder: Path) -> None:
    proof = _trainer("verify", "--data", str(folder))
    assert proof.returncode == 0, proof.stderr
    assert proof.stdout.count("holds") == 2


def test_a_demo_that_was_built_is_used_again(folder: Path, rows: _Rows) -> None:
    before = rows("select count(*) from attempt")
    again = _trainer("demo", "--build-only", "--data", str(folder))
    assert again.returncode == 0, again.stderr
    assert rows("select count(*) from attempt") == before


def test_a_folder_with_other_files_is_refused_and_left_alone(tmp_path: Path) -> None:
    precious = tmp_path / "letters.txt"
    precious.write_text("keep me")
    refused = _trainer("demo", "--build-only", "--data", str(tmp_path))
    assert refused.returncode == 2
    assert "letters.txt" in refused.stderr
    assert precious.read_text() == "keep me"
