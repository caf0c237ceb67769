"""Every route × every role × signed out × strangers from other organisations, against one explicit table.

What a route answers to those whom it is for depends on what is sent: an empty form is a fault (422). To all
others it is one of three: sign in first (303), not a page for this role (403), no such thing (404).
"""

VISITORS = (
    "apprentice", "second_apprentice", "instructor", "employer", "admin",
    "other_apprentice", "other_instructor", "other_employer", "other_admin",
)  # fmt: skip

# Status by visitor in the order above; signed out, every page that is not public leads to the sign-in.
EVERYBODY, NOBODY_ELSE = "everybody", "nobody else"
TABLE: dict[str, tuple[int, ...] | str] = {}
