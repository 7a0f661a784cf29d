"""Reading a design from YAML: every problem at once, each with its file and line."""

from schematics.reading.design_file import parse_draft, read_design, read_draft, refuse_name
from schematics.reading.json_schema import design_schema
from schematics.reading.problems import Problem, SpecError

__all__ = ["Problem", "SpecError", "design_schema", "parse_draft", "read_design", "read_draft", "refuse_name"]
