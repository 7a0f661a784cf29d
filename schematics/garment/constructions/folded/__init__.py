"""Folded: one rectangle over the shoulders, with a neck hole and a slot for the panel."""
