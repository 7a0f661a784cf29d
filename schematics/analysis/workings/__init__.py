"""Every figure of a size, worked out by hand: see `schematics.analysis.workings.workings`."""
