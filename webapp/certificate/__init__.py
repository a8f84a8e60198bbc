"""The certificate for the unit's owner, and the record as a reader sees it."""

from webapp.certificate.render import render
from webapp.certificate.sheet import Papers

__all__ = ["Papers", "render"]
