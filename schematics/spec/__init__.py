"""Reading a design from YAML."""
