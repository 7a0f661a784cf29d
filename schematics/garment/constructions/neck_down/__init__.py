"""Bodies worked from the neck down, arm bands on the hem: what they share."""
