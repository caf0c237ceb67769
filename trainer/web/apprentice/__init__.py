"""Practice, assignments, attempts and results."""
