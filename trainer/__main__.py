"""Lets ``python -m trainer`` start the command line."""

from trainer.cli import main

main()
