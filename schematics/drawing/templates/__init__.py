"""Pieces at full size on pages of paper, to be joined and blocked on."""
