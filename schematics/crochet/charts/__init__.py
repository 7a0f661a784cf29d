"""Stitch charts: what one holds, how a row is read, what counts ask of it."""
