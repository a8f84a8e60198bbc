"""Values that were changed after they were first entered: what stood there, what came, who and why."""

from collections.abc import Iterator, Mapping
from typing import Any

from webapp.certificate import figures
from webapp.certificate.wording import REASON_CODES, Wording
from webapp.language import _, say

Event = dict[str, Any]


def changed_values(events: list[Event], wording: Wording, names: Mapping[str, str]) -> list[dict[str, str]]:
    """One row for each value that another value replaced, in the order in which it happened."""
    return [row(before, after, wording, names) for before, after in replacements(events)]


def changed_fields(events: list[Event]) -> set[str]:
    """The names of the entries whose value is not the first one."""
    return {after["field"] for _, after in replacements(events)}


def replacements(events: list[Event]) -> Iterator[tuple[Event, Event]]:
    """Pairs of replaced and replacing event whose contents differ; what a step says of itself is no value."""
    by_id = {event["id"]: event for event in events}
    for after in sorted(events, key=lambda event: event["hlc"]):
        for before in map(by_id.get, after["replaces"]):
            if before and "#" not in after["field"] and before["content"] != after["content"]:
                yield before, after


def row(before: Event, after: Event, wording: Wording, names: Mapping[str, str]) -> dict[str, str]:
    return {
        "label": wording.label(after["field"]),
        "step": wording.step_title(after["field"]),
        "before": wording.content(after["field"], before["content"]),
        "after": _("removed")
        if after["content"] is None
        else wording.content(after["field"], after["content"]),
        "reason": reason_text(after["reason"]),
        "who": who_and_when(after, names),
    }


def reason_text(reason: dict[str, str] | None) -> str:
    """A reason's word, and what was written to it."""
    if not reason:
        return _("No reason given")
    word = say(REASON_CODES.get(reason["code"], reason["code"]))
    return f"{word}: {reason['text']}" if reason.get("text") else word


def who_and_when(event: Event, names: Mapping[str, str]) -> str:
    """Who made an event and when, on the clock of the place."""
    return f"{names.get(event['by'], event['by'])}, {figures.local_time(event['at'], event['offset'])}"
