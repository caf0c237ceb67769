"""The JSON contract: set-ups in, purge runs out, and the schemas of both."""

from trainer.set_up_files.faults import Fault, SetUpFaults
from trainer.set_up_files.json_text import LARGEST_BYTES, read_json
from trainer.set_up_files.reading import read_set_up, written_fault
from trainer.set_up_files.run_writing import write_run
from trainer.set_up_files.writing import write_set_up, written_value

__all__ = [
    "LARGEST_BYTES",
    "Fault",
    "SetUpFaults",
    "read_json",
    "read_set_up",
    "write_run",
    "write_set_up",
    "written_fault",
    "written_value",
]
