"""A shape as JSON Schema (2020-12, which OpenAPI 3.1 uses)."""

from typing import Any

from webapp.signing.canonical import LARGEST_WHOLE_NUMBER
from webapp.signing.shapes import DRAWING, Content, Instant, Map, Optional, Strokes, Text, Words

TYPES: dict[Any, dict[str, Any]] = {
    str: {"type": "string"},
    bool: {"type": "boolean"},
    int: {"type": "integer", "minimum": -LARGEST_WHOLE_NUMBER, "maximum": LARGEST_WHOLE_NUMBER},
    float: {"type": "number"},
    dict: {"type": "object"},
    list: {"type": "array"},
    type(None): {"type": "null"},
    object: {},
}


def schema_of(shape: Any) -> dict[str, Any]:
    """The schema of what ``wrong_places(shape, value)`` has nothing against."""
    if isinstance(shape, Text):
        return text_schema(shape)
    if isinstance(shape, Words):
        return {"enum": list(shape.words)}
    if isinstance(shape, Strokes):
        return strokes_schema(shape)
    if isinstance(shape, Content):
        return content_schema()
    if isinstance(shape, tuple):
        return {"anyOf": [schema_of(one) for one in shape]}
    if isinstance(shape, list):
        return {"type": "array", "items": schema_of(shape[0])}
    if isinstance(shape, Map):
        return {"type": "object", "additionalProperties": schema_of(shape.value)}
    if isinstance(shape, dict):
        return object_schema(shape)
    return TYPES[shape]


def text_schema(shape: Text) -> dict[str, Any]:
    schema: dict[str, Any] = {"type": "string", "maxLength": shape.longest, "description": shape.what}
    if shape.shortest:
        schema["minLength"] = shape.shortest
    if shape.pattern:
        schema["pattern"] = f"^(?:{shape.pattern})$"
    if isinstance(shape, Instant):
        schema["format"] = "date-time"
    return schema


def strokes_schema(shape: Strokes) -> dict[str, Any]:
    """The bounds of each number depend on its place, which a schema cannot say: the description does."""
    number = {"type": "integer", "minimum": 0, "maximum": shape.longest}
    return {
        "type": "array",
        "maxItems": shape.strokes,
        "items": {"type": "array", "items": number, "minItems": 3, "maxItems": 3 * shape.points},
        "description": f"x (to {shape.wide}), y (to {shape.high}) and milliseconds of each point in turn",
    }


def content_schema() -> dict[str, Any]:
    """Any object; with strokes, a drawing."""
    return {"if": {"required": ["strokes"]}, "then": schema_of(DRAWING), "else": {"type": "object"}}


def object_schema(shape: dict[str, Any]) -> dict[str, Any]:
    needed = [name for name, one in shape.items() if not isinstance(one, Optional)]
    members = {
        name: schema_of(one.shape if isinstance(one, Optional) else one) for name, one in shape.items()
    }
    return {
        "type": "object",
        "properties": members,
        "additionalProperties": False,
        **({"required": needed} if needed else {}),
    }
