"""Brightroot: training and competency for pipe back purging."""

__version__ = "0.1.0"
