"""``python -m schematics``."""

from schematics.cli import main

if __name__ == "__main__":
    main()
