"""What the parts of a procedure and the contents of events are called on paper and in the office."""

from collections.abc import Iterator, Mapping
from typing import Any

from checks.messages import VERDICTS, sentence
from webapp.certificate import figures

TONES = {
    "pass": "good",
    "conditional_pass": "guarded",
    "not_measured": "open",
    "pending": "open",
    "not_applicable": "open",
}

OWNERS = {"plate": "Data plate", "site": "Site", "baseline": "As accepted last time"}

DECISIONS = {
    None: ("Signed, not yet decided", "open"),
    "accepted": ("Accepted", "good"),
    "accepted_with_conditions": ("Accepted with conditions", "guarded"),
    "returned": ("Returned", "bad"),
}

ROLES = {
    "installer": "Installer",
    "supervisor": "Supervisor",
    "quality": "Quality manager",
    "administrator": "Administrator",
}

REASON_CODES = {
    "typing_error": "Typing error",
    "re_measured": "Measured again",
    "wrong_instrument": "Wrong instrument",
    "wrong_unit": "Wrong unit",
    "wrong_point": "Wrong point",
    "read_at_unit": "It said otherwise at the unit",
    "other": "Other reason",
    "conflict": "Chosen between two entries",
    "not_given": "No reason given",
}


def verdict(name: str) -> dict[str, str]:
    """A verdict as word and tone, beside its name. What is not named in ``TONES`` is bad."""
    return {"name": name, "word": VERDICTS[name]["word"], "tone": TONES.get(name, "bad")}


class Wording:
    """The labels of one procedure, by the dotted names of quantities."""

    def __init__(self, procedure: dict[str, Any]):
        self.procedure = procedure
        self.steps = {step["id"]: step for step in procedure["steps"]}
        self.entries = {
            f"{owner}.{entry['id']}": entry for owner, entries in self._owners() for entry in entries
        }
        self.rules = {
            f"{step['id']}.{rule['id']}": rule["label"]
            for step in procedure["steps"]
            for rule in step["rules"]
        }
        self.derived = {
            f"{step['id']}.{one['id']}": one for step in procedure["steps"] for one in step["derived"]
        }

    def _owners(self) -> Iterator[tuple[str, list[dict[str, Any]]]]:
        yield "plate", self.procedure["plate"]
        yield "site", self.procedure["site"]
        yield "baseline", self.procedure.get("baseline", [])
        for step in self.procedure["steps"]:
            yield step["id"], step["entries"]

    def label(self, name: str) -> str:
        """The label of an entry or derived quantity; its name where the procedure does not know it."""
        known = self.entries.get(name) or self.derived.get(name)
        return known["label"] if known else name

    def step_title(self, name: str) -> str:
        """The title of the step that a quantity belongs to."""
        owner = name.replace("#", ".").split(".")[0]
        if owner in OWNERS:
            return OWNERS[owner]
        return self.steps[owner]["title"] if owner in self.steps else owner

    def place(self, reason: Mapping[str, Any]) -> str:
        """Where a reason belongs: the step, and the requirement if it names one."""
        rule = self.rules.get(reason.get("rule", ""))
        return ": ".join(filter(None, [self.step_title(reason.get("step", "")), rule]))

    def reason(self, reason: Mapping[str, Any]) -> str:
        """The sentence of a reason, with labels in the place of names."""
        named = dict(reason)
        for part in ("quantity", "entry", "input"):
            if isinstance(named.get(part), str):
                named[part] = self.label(named[part])
        for part in ("step", "needs"):
            if isinstance(named.get(part), str):
                named[part] = self.step_title(named[part])
        return sentence(named)

    def content(self, name: str, content: dict[str, Any] | None) -> str:
        """What an event or a cell says, for a reader. A number stands as it was typed."""
        if content is None or all(content.get(part) is None for part in ("value", "typed", "sha256")):
            return figures.NO_VALUE
        entry = self.entries.get(name, {})
        return describe(entry, content)


def describe(entry: dict[str, Any], content: dict[str, Any]) -> str:
    """The value of an entry in words, by its kind."""
    kind = entry.get("kind", "text")
    if kind in {"reading", "series"}:
        return measured(entry, content)
    if kind == "photo":
        return f"Photo {content['sha256'][:12]}"
    return spoken(entry, kind, content["value"])


def spoken(entry: dict[str, Any], kind: str, value: Any) -> str:
    if kind == "choice":
        labels = {option["value"]: option["label"] for option in entry["options"]}
        return labels.get(value, str(value))
    if kind == "yes_no":
        return {True: "Yes", False: "No", "yes": "Yes", "no": "No"}.get(value, str(value))
    if kind == "date":
        return figures.day(value)
    if kind == "instant":
        return figures.clock_time(value)
    return str(value)


def measured(entry: dict[str, Any], content: dict[str, Any]) -> str:
    """A number with its unit: as typed where somebody typed it, rounded where it was computed."""
    unit = figures.symbol(content.get("unit") or entry.get("unit") or "")
    typed = content.get("typed")
    if typed is None:
        return figures.with_unit(figures.rounded(content["value"]), unit)
    text = figures.with_unit(str(typed).strip(), unit)
    return text if content.get("value") is not None else f"{text} (could not be read as a number)"
