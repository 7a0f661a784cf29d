"""What the processes of a pool need, imported once by the process they are forked from."""

import contextlib

import schematics.checks.evaluation
import schematics.document.typeset
import schematics.document.word
import schematics.drawing.sheets
import schematics.drawing.templates.templates
import schematics.fitting.page.fit_page
import schematics.garment.constructions
import schematics.pattern
import schematics.pattern.pattern_files
import schematics.reading.design_file  # noqa: F401 - imported to be there
from schematics.drawing.ink.cairo_pen import cairo
from schematics.errors import MissingLibraryError

with contextlib.suppress(MissingLibraryError):  # whoever needs it says so
    cairo()
