"""What is wrong with content files: every fault with its file, its key and what is accepted there."""

from dataclasses import dataclass, field


class ContentFault(ValueError):
    """Content files that cannot be used; `lines` holds one line for each fault."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        super().__init__("\n".join(lines))
        self.lines = lines


@dataclass
class Findings:
    """Collects the faults of one load."""

    lines: list[str] = field(default_factory=list)

    def add(self, file: str, key: str, message: str) -> None:
        """One more fault, as one line."""
        self.lines.append(f"{file}: {key}: {message}")
