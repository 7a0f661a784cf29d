"""How much yarn a size takes, and what a stash is good for."""
