"""The garment on a plain figure."""
