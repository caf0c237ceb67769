"""A clock for tests, given to a site as its `now`."""

from datetime import datetime, timedelta


class Clock:
    """Stands still until it is told to go on."""

    def __init__(self, at: datetime) -> None:
        self.at = at

    def __call__(self) -> datetime:
        return self.at

    def go_on(self, **by: float) -> None:
        self.at += timedelta(**by)
