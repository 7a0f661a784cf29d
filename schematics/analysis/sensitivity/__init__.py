"""What a swatch counted a stitch or a row differently would do to a design."""
