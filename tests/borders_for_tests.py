"""Borders of bodies and charts of bands, for the tests: parts of specs."""

from __future__ import annotations

EDGING = """\
borders:
  hem edging:
    at: hem
    stitch: shells
    rows: 6
    multiple: {of: 8}
    row_repeat: {rows: 2, setup: 1, closing: 1}
    chart:
      setup: [sc across]
      repeat:
        - (sk 2, 5 dc in next st, sk 2, 3 sc) across
        - dc across
      closing: [sc across]
"""
YOKE = """\
  yoke:
    at: 3
    stitch: crossed cables
    rows: 6
    multiple: {of: 8, plus: 1}
    row_repeat: {rows: 2, setup: 2}
    chart:
      setup: [hdc across, hdc across]
      repeat:
        - (2 hdc, 2 FPdc round posts 5 and 6, 2 FPdc round posts 3 and 4 in front, 2 hdc) across, hdc
        - hdc, (2 hdc, 4 BPdc, 2 hdc) across
"""
"""Goes on where ``EDGING`` ends."""
