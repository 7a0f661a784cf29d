"""A small spec as text, and ways to bend it, for the tests of what stands above the spec reader."""

from __future__ import annotations

from pathlib import Path

from schematics.design.design import Design

SPEC = """\
title: Lake poncho
date: 2024-03-01
unit: cm
construction: flared
yarn: {name: plain wool}
hook: 6
fabrics:
  half double:
    stitch: half double crochet
    swatch: {stitches: 14, rows: 10, width: 10, height: 10}
    stretch: {across: 0.25, along: 0.15}
    turning_chains: 2
  cable:
    stitch: cables on half double crochet
    swatch: {stitches: 16, rows: 10, width: 10, height: 10}
    stretch: {across: 0.15, along: 0.1}
    turning_chains: 2
  ribbing:
    stitch: half double crochet in the back loop
    swatch: {stitches: 14, rows: 14, width: 10, height: 10}
    stretch: {across: 0.2, along: 0.6}
    turning_chains: 1
parts:
  body: half double
  centre_panel: cable
  neck_band: ribbing
  arm_bands: ribbing
sizes:
  "4":
    wearer: child/4
    body: {neck: 60, hem: 176, rows: 30}
    arms: {from_front: 40, stitches: 20}
    panel: {stitches: 12, rows: 30}
    neck_band: {stitches: 6}
    arm_bands: {stitches: 8}
  "6 years":
    wearer: child/6
    body: {neck: 64, hem: 192, rows: 34}
    arms: {from_front: 44, stitches: 22}
    panel: {stitches: 12, rows: 34}
    neck_band: {stitches: 6}
    arm_bands: {stitches: 8}
"""
"""Two sizes, neither of them stopped."""

TIGHT_NECK = SPEC.replace("body: {neck: 60,", "body: {neck: 14,")
"""The same with a neck edge of 14 stitches in size 4: 10 cm and the panel, which no head passes."""


def write(folder: Path, text: str = SPEC, name: str = "lake.yaml") -> Path:
    """The text as a file in the folder."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def read(folder: Path, text: str = SPEC) -> Design:
    """The text read as a design."""
    from schematics.reading.design_file import read_design

    return read_design(write(folder, text))
