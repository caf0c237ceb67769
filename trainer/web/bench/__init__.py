"""The bench: pages on which anybody may put questions to the core."""
