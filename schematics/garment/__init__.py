"""Counts to flat pieces, seams, rings and openings, and what the fabric lets the arms do."""
