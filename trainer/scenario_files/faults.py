"""What is wrong with content files: every fault with its file, its key and what is accepted there."""

from dataclasses import dataclass, field

from trainer.scenario_files.key_lines import line_of


class ContentFault(ValueError):
    """Content files that cannot be used; `lines` holds one line for each fault."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        super().__init__("\n".join(lines))
        self.lines = lines


@dataclass
class Findings:
    """Collects the faults of one load."""

    lines: list[str] = field(default_factory=list)
    texts: dict[str, str] = field(default_factory=dict)  # what the files hold, to tell the line of a key

    def add(self, file: str, key: str, message: str) -> None:
        """One more fault, as one line with the file, the line where it is known, and the key."""
        number = line_of(self.texts.get(file, ""), key)
        where = f"{file}: " if number is None else f"{file}: line {number}: "
        self.lines.append(f"{where}{key}: {message}")
