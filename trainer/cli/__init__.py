"""The command line: `trainer COMMAND`. Each command's module is imported only when the command is called."""

import importlib

import click

from trainer import __version__

# Command → module and function. A command has to start before another one's libraries could be imported.
_COMMANDS = {
    "solve": "trainer.cli.solve:solve",
    "families": "trainer.cli.scenarios:families",
    "draw": "trainer.cli.scenarios:draw",
    "mark": "trainer.cli.scenarios:mark",
    "check": "trainer.cli.scenarios:check",
    "verify": "trainer.cli.verify:verify",
    "upgrade": "trainer.cli.database:upgrade",
    "add-organisation": "trainer.cli.people:add_organisation",
    "add-person": "trainer.cli.people:add_person",
    "reset-password": "trainer.cli.people:reset_password",
    "demo": "trainer.cli.demo:demo",
    "serve": "trainer.cli.serve:serve",
}


class LazyGroup(click.Group):
    """A group whose commands are imported by name."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 (click's signature)
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in _COMMANDS:
            return None
        module, _, function = _COMMANDS[cmd_name].partition(":")
        command: click.Command = getattr(importlib.import_module(module), function)
        return command


@click.command(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="trainer")
def main() -> None:
    """Training and competency for pipe back purging.

    Exits 0 when the command did its job, 2 for input that cannot be used, 1 when the tool itself failed.
    """
