"""What the parts of a procedure and the contents of events are called on paper and in the office."""

from collections.abc import Iterator, Mapping
from typing import Any

from checks.messages import VERDICTS
from webapp.certificate import figures
from webapp.language import _, noop, say, sentence
from webapp.language import procedure as translated

TONES = {
    "pass": "good",
    "conditional_pass": "guarded",
    "not_measured": "open",
    "pending": "open",
    "not_applicable": "open",
}

OWNERS = {"plate": noop("Data plate"), "site": noop("Site"), "baseline": noop("As accepted")}

DECISIONS = {
    None: (noop("Signed, not yet decided"), "open"),
    "accepted": (noop("Accepted"), "good"),
    "accepted_with_conditions": (noop("Accepted with conditions"), "guarded"),
    "returned": (noop("Returned"), "bad"),
}

ROLES = {
    "installer": noop("Installer"),
    "supervisor": noop("Supervisor"),
    "quality": noop("Quality manager"),
    "administrator": noop("Administrator"),
}

REASON_CODES = {
    "typing_error": noop("Typing error"),
    "re_measured": noop("Measured again"),
    "wrong_instrument": noop("Wrong instrument"),
    "wrong_unit": noop("Wrong unit"),
    "wrong_point": noop("Wrong point"),
    "read_at_unit": noop("It said otherwise at the unit"),
    "other": noop("Other reason"),
    "conflict": noop("Chosen between two entries"),
    "not_given": noop("No reason given"),
}


def verdict(name: str) -> dict[str, str]:
    """A verdict as word and tone, beside its name. What is not named in ``TONES`` is bad."""
    return {"name": name, "word": say(VERDICTS[name]["word"]), "tone": TONES.get(name, "bad")}


class Wording:
    """The labels of one procedure in the reader's language, by the dotted names of quantities."""

    def __init__(self, procedure: dict[str, Any]):
        self.procedure = procedure = translated(procedure)
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
            return say(OWNERS[owner])
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
        return _("Photo {sha256}", sha256=content["sha256"][:12])
    if kind == "drawing":
        return signed(content)
    return spoken(entry, kind, content["value"])


def signed(content: dict[str, Any]) -> str:
    """Who signed in a drawing, and how where nothing was drawn."""
    who = ", ".join(filter(None, [str(content["value"]), content.get("role")]))
    return who if content.get("strokes") else _("{who} (signed by the typed name)", who=who)


def spoken(entry: dict[str, Any], kind: str, value: Any) -> str:
    if kind == "choice":
        labels = {option["value"]: option["label"] for option in entry["options"]}
        return labels.get(value, str(value))
    if kind == "yes_no":
        return {True: _("Yes"), False: _("No"), "yes": _("Yes"), "no": _("No")}.get(value, str(value))
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
    text = figures.as_typed(str(typed), unit)
    return (
        text if content.get("value") is not None else _("{text} (could not be read as a number)", text=text)
    )
