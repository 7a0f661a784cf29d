"""The flat pieces, of one size and of all."""
