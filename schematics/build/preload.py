"""What the processes of a pool need, imported once by the process they are forked from."""

import contextlib

import schematics.constructions
import schematics.drawing.sheets
import schematics.evaluate
import schematics.figures
import schematics.page.page
import schematics.spec  # noqa: F401 - imported to be there
from schematics.drawing.raster import cairo
from schematics.errors import MissingLibraryError

with contextlib.suppress(MissingLibraryError):  # whoever needs it says so
    cairo()
