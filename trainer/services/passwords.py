"""Hashing and checking passwords with argon2id; an unknown account costs the same time as a known one."""

import unicodedata

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerifyMismatchError


class Passwords:
    """One way of hashing, with the parameters of its time; older hashes are told apart by `is_outdated`."""

    def __init__(self, hasher: PasswordHasher | None = None) -> None:
        self._hasher = hasher or PasswordHasher()  # RFC 9106's second recommended choice
        # What an unknown e-mail is checked against, so that the time taken does not tell who has an account.
        self._nobody = self._hasher.hash("nobody's password")

    def hash(self, password: str) -> str:
        """The hash to store, with its own salt and parameters in it."""
        return self._hasher.hash(_one_form(password))

    def matches(self, stored: str | None, *, password: str) -> bool:
        """Whether the password is the one; nothing stored takes as long and never matches."""
        try:
            self._hasher.verify(stored or self._nobody, _one_form(password))
        except (VerifyMismatchError, InvalidHashError):
            return False
        return stored is not None

    def is_outdated(self, stored: str) -> bool:
        """Whether the hash was made with other parameters than today's and should be made again."""
        return self._hasher.check_needs_rehash(stored)


def cheap_passwords() -> Passwords:
    """For tests alone, by explicit settings: a real check costs a tenth of a second."""
    return Passwords(PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))


def _one_form(password: str) -> str:
    """Phones and desktops compose accents differently; both must open the same account."""
    return unicodedata.normalize("NFC", password)
