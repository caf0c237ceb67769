"""Own jobs as family files: what an instructor typed, in the form that the library's families have."""

from trainer.scenario_files.own_jobs.document import job_document, job_text, questions_of
from trainer.scenario_files.own_jobs.reading import AMOUNTS, read_sheet

__all__ = ["AMOUNTS", "job_document", "job_text", "questions_of", "read_sheet"]
