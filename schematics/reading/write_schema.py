"""Writes the JSON Schema that the package ships."""

from schematics.reading.json_schema import write_schema

if __name__ == "__main__":
    write_schema()
