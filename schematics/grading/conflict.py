"""stub"""
from __future__ import annotations
from schematics.errors import SchematicsError
class ConflictError(SchematicsError):
    pass
def conflict(search, index, draft):
    return ConflictError(f"size {draft.sizes[index].name} infeasible")
