"""A design as the rest of the program sees it, its limits and its cautions. No files."""
