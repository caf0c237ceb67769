"""`trainer add-organisation`, `add-person`, `reset-password`: what has to work before anybody can sign in."""

import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import click

from trainer.cli.database import data_option, opened_current
from trainer.cli.exits import refuse
from trainer.domain.errors import DomainError, Refused
from trainer.domain.people import Language, NewPerson, OrganisationKind, Role, UnitSystem
from trainer.scenario_files import load_content
from trainer.services import accounts, administration
from trainer.services.accounts import WeakPassword
from trainer.services.administration import NewOrganisation
from trainer.services.passwords import Passwords
from trainer.services.site import Site

_KINDS = {each.value.replace(" ", "-"): each for each in OrganisationKind}
_WEAK = {
    "too-short": f"the password needs at least {accounts.SHORTEST_PASSWORD} characters",
    "too-long": f"the password may have {accounts.LONGEST_PASSWORD} characters at the most",
    "is-email": "the password is the e-mail address",
    "is-name": "the password is the name",
}
_REFUSED = {
    "name-missing": "the name is empty",
    "role-does-not-fit": "an organisation of this kind has no such role",
}

_password_option = click.option(
    "--password-file",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="File whose first line is the password; asked for if left out.",
)
_email_option = click.option("--email", required=True, help="Address that the person signs in with.")
_name_option = click.option("--name", required=True, help="Name of the person, as on a certificate.")
_units_option = click.option(
    "--units", type=click.Choice([each.value for each in UnitSystem]), default=UnitSystem.METRIC.value
)
_language_option = click.option(
    "--language", type=click.Choice([each.value for each in Language]), default=Language.ENGLISH.value
)


@click.command("add-organisation")
@click.argument("organisation")
@click.option("--kind", type=click.Choice(list(_KINDS)), required=True)
@_name_option
@_email_option
@_password_option
@data_option
def add_organisation(
    *, organisation: str, password_file: Path | None, data: Path | None, **first: str
) -> None:
    """Make ORGANISATION with its first person, who administers it and teaches or hires there."""
    new = NewOrganisation(
        name=organisation,
        kind=_KINDS[first["kind"]],
        first=NewPerson(name=first["name"], email=first["email"]),
    )
    with _site(data) as site:
        password = _password(password_file, name=new.first.name, email=new.first.email)
        founded = administration.found_organisation(site, new=new)
        _set_password(site, founded.first.invitation, password)
    click.echo(f"{organisation} was made; {new.first.email} administers it.")


@click.command("add-person")
@click.argument("organisation")
@click.option("--role", type=click.Choice([each.value for each in Role]), required=True)
@_name_option
@_email_option
@_units_option
@_language_option
@_password_option
@data_option
def add_person(*, organisation: str, password_file: Path | None, data: Path | None, **new: str) -> None:
    """Give a person a role in ORGANISATION from today; a known e-mail means the same person."""
    person = NewPerson(
        name=new["name"],
        email=new["email"],
        units=UnitSystem(new["units"]),
        language=Language(new["language"]),
    )
    role = Role(new["role"])
    with _site(data) as site:
        password = _password(password_file, name=person.name, email=person.email)
        added = administration.set_up_person(site, organisation=organisation, new=person, role=role)
        _set_password(site, added.invitation, password)
    click.echo(f"{person.email} is {role.value} of {organisation} from today.")


@click.command("reset-password")
@_email_option
@_password_option
@data_option
def reset_password(*, email: str, password_file: Path | None, data: Path | None) -> None:
    """Set a new password for somebody who cannot sign in any more, and end all their sessions."""
    with _site(data) as site:
        password = _password(password_file, name="", email=email)
        _set_password(site, administration.new_password_for(site, email=email), password)
    click.echo(f"{email} has a new password.")


@contextmanager
def _site(data: Path | None) -> Iterator[Site]:
    """The site of the folder; what its rules refuse ends the command with a line."""
    with opened_current(data) as database:
        site = Site(
            database=database,
            content=load_content(),
            now=lambda: datetime.now(UTC),
            new_seed=lambda: secrets.randbits(53),
            passwords=Passwords(),
        )
        try:
            yield site
        except WeakPassword as fault:
            refuse([_WEAK[fault.why]])
        except Refused as fault:
            refuse(_REFUSED[reason] for reason in fault.reasons)
        except DomainError as fault:
            refuse([str(fault)])


def _password(file: Path | None, *, name: str, email: str) -> str:
    """The password from the file or asked for, checked before anything is stored."""
    if file is None:
        given: str = click.prompt("Password", hide_input=True, confirmation_prompt=True)
    else:
        given = file.read_text(encoding="utf-8").split("\n", 1)[0].rstrip("\r")
    accounts.check_password(given, name=name, email=email)
    return given


def _set_password(site: Site, invitation: str | None, password: str) -> None:
    if invitation is None:
        click.echo("This person has an account already; its password stays.")
        return
    accounts.take_up_invitation(site, token=invitation, password=password)
