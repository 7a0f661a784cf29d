"""Pages made from templates: every text in them escaped, no name left open."""

from __future__ import annotations

from jinja2 import Environment, PackageLoader, StrictUndefined


def page_environment(package: str) -> Environment:
    """An environment that finds the templates of a package such as ``schematics.fitting.page``."""
    return Environment(
        loader=PackageLoader(package),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
