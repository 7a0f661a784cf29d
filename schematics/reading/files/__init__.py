"""Reading and writing whole files, whoever else writes them."""
