"""Which photos the events of a record name: entries that are photos, and photos of defects."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

PHOTO = {"sha256", "type", "size"}


def photos_named(events: Iterable[Mapping[str, Any]]) -> list[str]:
    """Their hashes, each once, sorted."""
    return sorted(set(_named(events)))


def _named(events: Iterable[Mapping[str, Any]]) -> Iterator[str]:
    for event in events:
        content = event["content"] or {}
        if set(content) == PHOTO:
            yield content["sha256"]
        elif event["field"].endswith("#defect") and isinstance(content.get("photo"), str):
            yield content["photo"]
