"""The craft: fabric, stitches, joins, charts, yarn. It knows no garment."""
