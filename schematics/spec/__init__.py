"""Reading a design from YAML: every problem at once, each with its file and line."""

from schematics.spec.problems import Problem, SpecError
from schematics.spec.reading import parse_draft, read_design, read_draft, refuse_name
from schematics.spec.schema import design_schema

__all__ = ["Problem", "SpecError", "design_schema", "parse_draft", "read_design", "read_draft", "refuse_name"]
