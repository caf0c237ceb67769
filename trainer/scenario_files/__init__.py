"""Content files in, scenarios and responses out and in as JSON: the edge between files and the domain."""

from trainer.scenario_files.content import FOLDER, Content, load_content, load_one_family
from trainer.scenario_files.documents import (
    marked_document,
    public_document,
    response_document,
    scenario_document,
    scenario_from_document,
)
from trainer.scenario_files.faults import ContentFault
from trainer.scenario_files.response_faults import ResponseFault
from trainer.scenario_files.responses import parse_response, parse_responses

__all__ = [
    "FOLDER",
    "Content",
    "ContentFault",
    "ResponseFault",
    "load_content",
    "load_one_family",
    "marked_document",
    "parse_response",
    "parse_responses",
    "public_document",
    "response_document",
    "scenario_document",
    "scenario_from_document",
]
