"""The command line: `trainer COMMAND`. Each command's module is imported only when the command is called."""

import importlib

import click

from trainer import __version__

# Command → module and function, and its line in the list of commands. A command has to start before another
# one's libraries could be imported, and so has the list itself.
_COMMANDS = {
    "solve": ("trainer.cli.solve:solve", "Say what would happen with a set-up."),
    "families": ("trainer.cli.scenarios:families", "List the scenario families."),
    "draw": ("trainer.cli.scenarios:draw", "Draw a scenario from a family and a seed."),
    "mark": ("trainer.cli.scenarios:mark", "Mark the responses to a drawn scenario."),
    "check": ("trainer.cli.checking:check", "Check all content files."),
    "words": ("trainer.cli.words:words", "Bring the translations in step with code and content."),
    "verify": ("trainer.cli.verify:verify", "Prove the ledger, or name its first broken entry."),
    "upgrade": ("trainer.cli.database:upgrade", "Bring the database up to this version."),
    "add-organisation": (
        "trainer.cli.people:add_organisation",
        "Make an organisation with its first person.",
    ),
    "add-person": ("trainer.cli.people:add_person", "Add a person with a role in an organisation."),
    "reset-password": ("trainer.cli.people:reset_password", "Set a new password for somebody."),
    "demo": ("trainer.cli.demo:demo", "Serve a filled demo site."),
    "serve": ("trainer.cli.serve:serve", "Serve the site."),
}


class LazyGroup(click.Group):
    """A group whose commands are imported by name."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 (click's signature)
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in _COMMANDS:
            return None
        module, _, function = _COMMANDS[cmd_name][0].partition(":")
        command: click.Command = getattr(importlib.import_module(module), function)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, line) in _COMMANDS.items()])


@click.command(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="trainer")
def main() -> None:
    """Training and competency for pipe back purging.

    Exits 0 when the command did its job, 2 for input that cannot be used, 1 when the tool itself failed.
    """
