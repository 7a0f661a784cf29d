"""A chart in words: each row in all sizes, in the trade's words and in US or UK terms."""
