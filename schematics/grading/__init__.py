"""Grading: from one sample, its swatches and how it should fit to whole counts for every size.

Only `schematics.grading.draft` may be imported when a spec is read; the rest loads the solver.
"""
