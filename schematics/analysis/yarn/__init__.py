"""How much yarn a size takes, and what a stash is good for."""

from schematics.analysis.yarn.need import ColourYarn, PartYarn, Thread, YarnNeed, yarn_need

__all__ = ["ColourYarn", "PartYarn", "Thread", "YarnNeed", "yarn_need"]
