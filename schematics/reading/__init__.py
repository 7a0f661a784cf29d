"""Reading a design from YAML: every problem at once, each with its file and line."""
