"""The joined garment laid flat, and how it goes together."""
