"""The commands that come before anybody can sign in: database, organisations, people, passwords."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from trainer.cli import main
from trainer.services import accounts
from trainer.services.passwords import Passwords
from trainer.services.site import Site
from trainer.storage.database import Database

PASSWORD = "straw to violet to blue"


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A site's folder with an empty database, and a password in a file."""
    (tmp_path / "password").write_text(f"{PASSWORD}\nnot this line\n", encoding="utf-8")
    assert run(tmp_path, "upgrade").exit_code == 0
    return tmp_path


def run(data: Path, *arguments: str, **more: object) -> Result:
    command = [*arguments, "--data", str(data)]
    return CliRunner().invoke(main, command, env={"BRIGHTROOT_DATABASE_URL": None}, **more)


def add_organisation(data: Path, name: str = "Quay Training", **changes: str) -> Result:
    given = {
        "--kind": "training-provider",
        "--name": "Ida Berg",
        "--email": "ida@example.org",
        "--password-file": str(data / "password"),
    } | changes
    return run(data, "add-organisation", name, *(part for pair in given.items() for part in pair))


def add_person(data: Path, organisation: str = "Quay Training", **changes: str) -> Result:
    given = {
        "--role": "apprentice",
        "--name": "Ada Berg",
        "--email": "ada@example.org",
        "--password-file": str(data / "password"),
    } | changes
    return run(data, "add-person", organisation, *(part for pair in given.items() for part in pair))


def signs_in(data: Path, email: str, password: str = PASSWORD) -> accounts.SignedIn:
    from datetime import UTC, datetime

    from trainer.scenario_files import load_content

    database = Database(f"sqlite:///{data / 'brightroot.sqlite3'}")
    site = Site(
        database=database,
        content=load_content(),
        now=lambda: datetime.now(UTC),
        new_seed=lambda: 1,
        passwords=Passwords(),
    )
    token = accounts.sign_in(site, email=email, password=password, address="192.0.2.7")
    found = accounts.acting_for(site, session_token=token)
    database.dispose()
    assert found is not None
    return found


def test_upgrade_makes_the_database_once(tmp_path: Path) -> None:
    assert "brought up to date" in run(tmp_path, "upgrade").output
    assert run(tmp_path, "upgrade").output == "The database is up to date.\n"


@pytest.mark.parametrize("command", ["verify", "reset-password"])
def test_without_a_database_the_command_says_what_makes_one(tmp_path: Path, command: str) -> None:
    more = [] if command == "verify" else ["--email", "ada@example.org"]
    found = run(tmp_path, command, *more)
    assert found.exit_code == 2
    assert "`trainer upgrade` makes one" in found.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_database_of_another_version_is_not_touched(data: Path) -> None:
    database = Database(f"sqlite:///{data / 'brightroot.sqlite3'}")
    database.migrate_back("001_people")
    database.dispose()
    found = run(data, "verify")
    assert found.exit_code == 2
    assert "`trainer upgrade` brings it up to date" in found.stderr


def test_an_organisation_begins_with_somebody_who_can_sign_in(data: Path) -> None:
    assert add_organisation(data).exit_code == 0
    signed_in = signs_in(data, "ida@example.org")
    assert signed_in.display_name == "Ida Berg"
    assert signed_in.organisation.name == "Quay Training"
    assert len(signed_in.acting.roles) == 2
    assert run(data, "verify").exit_code == 0


def test_a_person_is_added_with_units_and_language(data: Path) -> None:
    add_organisation(data)
    found = add_person(data, **{"--units": "inch-pound", "--language": "es"})
    assert found.output == "ada@example.org is apprentice of Quay Training from today.\n"
    person = signs_in(data, "ada@example.org").person
    assert (person.units.value, person.language.value) == ("inch-pound", "es")


def test_a_password_left_out_is_asked_for_twice(data: Path) -> None:
    add_organisation(data)
    given = ["--role", "apprentice", "--name", "Ada", "--email", "ada@example.org"]
    typed = "typed by hand\ntyped by hand\n"
    found = run(data, "add-person", "Quay Training", *given, input=typed)
    assert found.exit_code == 0
    assert "typed" not in found.output
    assert signs_in(data, "ada@example.org", "typed by hand")


def test_a_known_person_keeps_their_password(data: Path) -> None:
    add_organisation(data)
    add_organisation(data, "Dock Training", **{"--email": "other@example.org"})
    (data / "password").write_text("another long password")
    found = add_person(data, "Dock Training", **{"--email": "IDA@example.org"})
    assert "its password stays" in found.output
    assert signs_in(data, "ida@example.org")


def test_a_forgotten_password_is_set_anew(data: Path) -> None:
    add_organisation(data)
    (data / "password").write_text("another long password")
    found = run(
        data, "reset-password", "--email", "ida@example.org", "--password-file", str(data / "password")
    )
    assert found.exit_code == 0
    assert signs_in(data, "ida@example.org", "another long password")


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({"--email": "ada"}, "'ada' is no e-mail address"),
        ({"--role": "employer"}, "an organisation of this kind has no such role"),
        ({"--name": "  "}, "the name is empty"),
    ],
)
def test_what_the_rules_refuse_ends_with_a_line_and_stores_nothing(
    data: Path, changes: dict[str, str], line: str
) -> None:
    add_organisation(data)
    found = add_person(data, **changes)
    assert found.exit_code == 2
    assert found.stderr == f"{line}\n"
    assert add_person(data).exit_code == 0


def test_an_unknown_organisation_is_named(data: Path) -> None:
    found = add_person(data, "Dock Training")
    assert found.exit_code == 2
    assert "no such organisation: Dock Training" in found.stderr


def test_a_weak_password_stores_nothing(data: Path) -> None:
    (data / "password").write_text("short")
    found = add_organisation(data)
    assert found.exit_code == 2
    assert "at least 10 characters" in found.stderr
    (data / "password").write_text(PASSWORD)
    assert add_organisation(data).exit_code == 0


def test_a_settings_file_that_cannot_be_read_is_named(data: Path) -> None:
    (data / "settings.toml").write_text("colour = 'blue'")
    found = run(data, "verify")
    assert found.exit_code == 2
    assert "unknown setting 'colour'" in found.stderr


def test_a_database_url_that_is_none_is_refused(tmp_path: Path) -> None:
    found = CliRunner().invoke(
        main, ["verify", "--data", str(tmp_path)], env={"BRIGHTROOT_DATABASE_URL": "nonsense"}
    )
    assert found.exit_code == 2
    assert "database URL must be" in found.stderr
