"""`trainer words`: brings the catalogues in step with code and content, keeping what is translated."""

from collections.abc import Iterator
from pathlib import Path

import click
from babel.messages.catalog import Catalog

from trainer.catalogues import (
    LANGUAGES,
    catalogue_bytes,
    forms_of,
    interface_file,
    is_translated,
    read_catalogue,
)
from trainer.cli.exits import refuse
from trainer.cli.interface_words import interface_messages
from trainer.scenario_files import FOLDER, load_content
from trainer.scenario_files.human_texts import texts_of_family, texts_of_hazards
from trainer.scenario_files.own_jobs.told import OWN_JOBS, texts_of_own_jobs
from trainer.scenario_files.said import HAZARDS, catalogue_of


@click.command()
@click.option("--check", is_flag=True, help="Write nothing; exit 2 where a catalogue is out of step.")
def words(*, check: bool) -> None:
    """Bring the catalogues in step with code and content.

    What is translated stays. A message that changed a little keeps its translation, marked fuzzy, to be
    looked at again. Prints how much of each catalogue is translated.
    """
    behind = []
    for path, wanted in wanted_catalogues():
        written = catalogue_bytes(wanted)
        if not path.exists() or path.read_bytes() != written:
            behind.append(path)
            if not check:
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(written)
        click.echo(_line(path, wanted))
    if check and behind:
        refuse(f"{each.name}: out of step with what is said today; run `trainer words`" for each in behind)


def wanted_catalogues() -> Iterator[tuple[Path, Catalog]]:
    """Every catalogue as it has to be, and where it stands: today's messages, with what was translated."""
    content, interface = load_content(), interface_messages()
    for language in LANGUAGES:
        path = interface_file(language)
        yield path, _brought_up(path, language, interface, flags={"fuzzy", "python-format"})
        texts = {HAZARDS: texts_of_hazards(content.hazards), OWN_JOBS: texts_of_own_jobs()}
        texts |= {name: texts_of_family(family) for name, family in content.families.items()}
        for name, found in texts.items():
            path, template = catalogue_of(name, language=language, folder=FOLDER), Catalog()
            for each in found:
                template.add(each)
            # a percent sign stands for itself in a scenario, beside a place of an own job's sentence too
            yield path, _brought_up(path, language, template, flags={"fuzzy"})


def _brought_up(path: Path, language: str, template: Catalog, *, flags: set[str]) -> Catalog:
    """The messages of today with the translations of the file; what is gone from today goes from the file."""
    found = Catalog(locale=language)
    if path.exists():
        for message in read_catalogue(path):
            if message.id:
                # one that is empty, in all plural forms, is no candidate for what changed a little
                if not any(forms_of(message)):
                    message.string = () if isinstance(message.id, tuple) else ""
                found[message.id] = message
    found.update(template)
    found.obsolete.clear()
    for message in found:
        message.flags &= flags if any(forms_of(message)) else flags - {"fuzzy"}
    return found


def _line(path: Path, catalogue: Catalog) -> str:
    messages = [each for each in catalogue if each.id]
    done = sum(is_translated(each) for each in messages)
    fuzzy = sum(each.fuzzy for each in messages)
    looked_at = f", {fuzzy} to be looked at again" if fuzzy else ""
    return (
        f"{path.parent.name if path.stem == 'messages' else path.stem}: {done} of {len(messages)}{looked_at}"
    )
