"""Marks in millimetres, placed, and written as SVG, PNG and PDF. It knows no garment."""
