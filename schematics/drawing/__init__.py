"""Sheets: marks in millimetres, placed, then written as SVG and PNG."""
