"""Procedures: versioned data that say what is done in which order, what is entered, and what is judged how.

`load(name)` gives the plain data that the engine, the phone and the record use; `procedure_hash` names it.
"""

from checks.procedure.errors import ProcedureError
from checks.procedure.load import canonical_text, load, names, own_hash, procedure_hash, read
from checks.procedure.model import Procedure, plain

__all__ = [
    "Procedure",
    "ProcedureError",
    "canonical_text",
    "load",
    "names",
    "own_hash",
    "plain",
    "procedure_hash",
    "read",
]
