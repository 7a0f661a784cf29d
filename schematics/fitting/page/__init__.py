"""The page for the maker: one self-contained file that says whether a size fits a child, and why."""
