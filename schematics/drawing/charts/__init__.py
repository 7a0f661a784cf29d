"""Stitch charts and their key."""
