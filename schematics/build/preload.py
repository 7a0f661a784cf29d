"""What the processes of a pool need, imported once by the process they are forked from."""

import contextlib

import schematics.constructions
import schematics.drawing.sheets
import schematics.evaluate
import schematics.figures
import schematics.page.page
import schematics.spec  # noqa: F401 - imported to be there

with contextlib.suppress(OSError):  # without the cairo library whoever needs it says so
    import cairosvg  # noqa: F401
