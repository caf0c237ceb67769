"""Settings: from the environment before the file, and no start without a secret."""

import stat
from pathlib import Path

import pytest

from trainer import config
from trainer.config import SettingsFault, database_url_from, make_secret, settings_from

KEY = "k" * 32


def test_defaults_lie_in_the_folder_of_the_site(tmp_path: Path) -> None:
    settings = settings_from({"BRIGHTROOT_SECRET_KEY": KEY}, data=tmp_path)
    assert settings.database_url == f"sqlite:///{tmp_path / 'brightroot.sqlite3'}"
    assert (settings.scenarios / "families").is_dir()
    assert settings.static.is_dir()
    assert (settings.over_https, settings.rate_limits, settings.password_cost) == (False, True, "full")


def test_the_environment_comes_before_the_file(tmp_path: Path) -> None:
    (tmp_path / "settings.toml").write_text('database_url = "postgresql://file/x"\nover_https = true\n')
    environ = {"BRIGHTROOT_SECRET_KEY": KEY}
    from_file = settings_from(environ, data=tmp_path)
    assert (from_file.database_url, from_file.over_https) == ("postgresql://file/x", True)
    environ |= {"BRIGHTROOT_DATABASE_URL": "postgresql://environment/x", "BRIGHTROOT_OVER_HTTPS": "false"}
    from_environment = settings_from(environ, data=tmp_path)
    assert from_environment.database_url == "postgresql://environment/x"
    assert from_environment.over_https is False
    assert database_url_from(environ, data=tmp_path) == "postgresql://environment/x"


def test_there_is_no_start_without_a_secret(tmp_path: Path) -> None:
    with pytest.raises(SettingsFault, match="no secret key"):
        settings_from({}, data=tmp_path)
    with pytest.raises(SettingsFault, match="at least 32"):
        settings_from({"BRIGHTROOT_SECRET_KEY": "short"}, data=tmp_path)


def test_a_secret_is_made_once_for_its_owner_alone(tmp_path: Path) -> None:
    folder = tmp_path / "site"
    make_secret(folder)
    first = settings_from({}, data=folder).secret_key
    make_secret(folder)
    assert settings_from({}, data=folder).secret_key == first
    assert stat.S_IMODE((folder / "secret_key").stat().st_mode) == 0o600
    make_secret(tmp_path / "other")
    assert settings_from({}, data=tmp_path / "other").secret_key != first


@pytest.mark.parametrize(
    ("content", "message"),
    [
        ("secret_key = 'x'", "unknown setting 'secret_key'"),
        ("password_cost = 'test'", "unknown setting 'password_cost'"),
        ("over_https", "settings.toml"),
        ("over_https = 'perhaps'", "accepted: true, false"),
    ],
)
def test_a_settings_file_with_a_fault_is_refused(tmp_path: Path, content: str, message: str) -> None:
    (tmp_path / "settings.toml").write_text(content)
    with pytest.raises(SettingsFault, match=message):
        settings_from({"BRIGHTROOT_SECRET_KEY": KEY}, data=tmp_path)


def test_the_cheap_password_hash_cannot_be_asked_for_from_outside(tmp_path: Path) -> None:
    environ = {
        "BRIGHTROOT_SECRET_KEY": KEY,
        "BRIGHTROOT_PASSWORD_COST": "test",
        "BRIGHTROOT_RATE_LIMITS": "no",
    }
    settings = settings_from(environ, data=tmp_path)
    assert (settings.password_cost, settings.rate_limits) == ("full", True)


def test_the_folder_is_that_of_the_variable_or_of_the_clone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert config.data_folder({"BRIGHTROOT_DATA": str(tmp_path)}) == tmp_path
    assert config.data_folder({}) == config.PROJECT / "instance"
    monkeypatch.setattr(config, "PROJECT", tmp_path)
    monkeypatch.chdir(tmp_path)
    assert config.data_folder({}) == tmp_path / "instance"
