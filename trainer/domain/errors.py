"""Named errors of the domain; storage raises the same, the web maps each to a page and a status."""


class DomainError(Exception):
    """Something that the rules of training do not allow, in words that a person can act on."""


class NotAllowed(DomainError):
    """The acting person may not do this."""


class WrongState(DomainError):
    """The thing exists but is in a state in which this cannot be done."""


class Missing(DomainError):
    """No such thing, or none that the acting person may know of; the two are never told apart."""

    def __init__(self, what: str, key: object = "") -> None:
        super().__init__(f"no such {what}: {key}" if key != "" else f"no such {what}")
        self.what = what
        self.key = key


class Duplicate(DomainError):
    """The same thing is already there; `constraint` names the rule, so that a form finds its field."""

    def __init__(self, message: str, *, constraint: str = "") -> None:
        super().__init__(message)
        self.constraint = constraint


class Conflict(DomainError):
    """Somebody else changed it first, or the database refused what would break a rule."""

    def __init__(self, message: str, *, constraint: str = "") -> None:
        super().__init__(message)
        self.constraint = constraint


class Refused(DomainError):
    """Asked for in good form but refused by a rule; `reasons` are codes with their facts, one per rule."""

    def __init__(self, reasons: tuple[str, ...]) -> None:
        super().__init__("; ".join(reasons))
        self.reasons = reasons
