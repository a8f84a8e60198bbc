"""The interface for phones as OpenAPI 3.1, made from the shapes that the server checks with."""

from webapp.description.document import description, text

__all__ = ["description", "text"]
