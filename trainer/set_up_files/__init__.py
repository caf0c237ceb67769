"""The JSON contract: set-ups in, purge runs out, and the schemas of both."""

from trainer.set_up_files.exact import exact_text, exact_value, set_up_from_document, value_from_document
from trainer.set_up_files.faults import Fault, SetUpFaults
from trainer.set_up_files.json_text import LARGEST_BYTES, read_json
from trainer.set_up_files.reading import read_set_up, written_fault
from trainer.set_up_files.run_writing import write_run
from trainer.set_up_files.writing import write_set_up, written_value

__all__ = [
    "LARGEST_BYTES",
    "Fault",
    "SetUpFaults",
    "exact_text",
    "exact_value",
    "read_json",
    "read_set_up",
    "set_up_from_document",
    "value_from_document",
    "write_run",
    "write_set_up",
    "written_fault",
    "written_value",
]
