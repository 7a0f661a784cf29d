"""The public functions, which `schematics` names and loads when asked for, and their arguments."""
