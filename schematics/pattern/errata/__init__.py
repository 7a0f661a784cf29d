"""Errata: what reads otherwise in two versions of a written pattern, line by line."""
