"""Whom a size is for, in words for its maker."""

from __future__ import annotations

import re

_CHART_ROW = re.compile(r"chart row ([^/\s]+)/([^\s,]+)")


def whom_for(label: str) -> str:
    """A wearer's label without the names of tables.

    >>> whom_for("chart row child/4, own measurements")
    'a child, size 4, own measurements'
    """
    return _CHART_ROW.sub(r"a \1, size \2", label)
