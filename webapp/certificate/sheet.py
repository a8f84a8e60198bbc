"""A signed record as plain data for a reader: what the certificate prints and the office shows.

Everything here is derived from the record, its decision and the procedure. Nothing is judged again but a
record of other formulas than today's, whose verdicts stand as they were signed.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from checks.entries import fits
from checks.instrument import kind_in_words
from webapp.certificate import changes, defects, figures, formulas, steps
from webapp.certificate.wording import DECISIONS, ROLES, Wording, verdict
from webapp.language import ENGLISH, _, language, ngettext, noop, say
from webapp.read_at_unit import values_read

LEGEND = noop(
    "U is the expanded uncertainty of the reading, k = 2, or more where few repeats stand behind it. "
    "“Accepted” is the limit narrowed by U "
    "(guard band w = U, ILAC-G8:09/2019). Inside the guard band: only a reading inside “accepted” passes. "
    "Four words: a reading between “accepted” and the limit is a conditional pass, one as far outside the "
    "limit a conditional fail. Ends are rounded towards the safe side. Readings stand as they were typed."
)

CONFIRMED = noop("Confirmed with a passkey")


@dataclass(frozen=True)
class Papers:
    """What a sheet is made from: payloads, not verified again here.

    ``decisions`` are in order: none while nobody has decided, then an acceptance or a return, and perhaps
    the return of an accepted record; ``names`` are those of people by id; ``late`` are events that came
    after signing; ``next_service`` is the date that the server set at acceptance; ``replaced_by`` is the
    identity of the accepted record that corrects this one; ``confirmed`` says of the record and of each
    decision, in this order, whether a passkey confirmed the signature.
    """

    record: dict[str, Any]
    identity: str
    procedure: dict[str, Any]
    decisions: tuple[dict[str, Any], ...] = ()
    names: Mapping[str, str] = field(default_factory=dict)
    late: tuple[dict[str, Any], ...] = ()
    next_service: str | None = None
    replaced_by: str | None = None
    confirmed: tuple[bool, ...] = ()

    @property
    def decision(self) -> dict[str, Any] | None:
        """The acceptance or the return of a record that waited."""
        return self.decisions[0] if self.decisions else None

    @property
    def reopening(self) -> dict[str, Any] | None:
        """The return of a record that had been accepted."""
        return self.decisions[1] if len(self.decisions) > 1 else None


def build(papers: Papers) -> dict[str, Any]:
    """The whole record for a reader, conditions first."""
    record, wording = papers.record, Wording(papers.procedure)
    reading = read_case(papers, wording)
    return {
        "title": title(papers),
        "unit": {"name": record["unit"]["name"], "serial": record["unit"]["serial"]},
        "site": site(record, wording),
        "identity": papers.identity,
        "outcome": outcome(papers),
        "conditions": conditions(papers, wording),
        "signatures": signatures(papers),
        "identity_rows": identity_rows(papers),
        "plate": plate(record, wording),
        "instruments": [instrument_row(one, record["signed_at"]) for one in used_instruments(record)],
        "legend": _(LEGEND),
        "stages": steps.stages(reading),
        "left_out": steps.left_out(reading),
        "defects": defects.rows(reading.case, wording),
        "changes": changes.changed_values(record["events"], wording, reading.names),
        "late": [late_row(event, wording, reading.names) for event in papers.late],
    }


def read_case(papers: Papers, wording: Wording) -> steps.Reading:
    from checks.fold import fold

    record = papers.record
    people = {record["signer"]["id"]: record["signer"]["name"], **papers.names}
    case = {**fold(papers.procedure, record["events"]), "instruments": record["instruments"]}
    office = owned("plate", record["unit"]["plate"]) | owned("site", record["site"]["values"])
    case["entries"] = office | case["entries"]
    changed = changes.changed_fields(record["events"])
    return steps.Reading(case, record["judgement"], wording, people, changed)


def owned(owner: str, cells: Mapping[str, Any]) -> dict[str, Any]:
    return {f"{owner}.{name}": cell for name, cell in cells.items()}


# ---- the first page


def title(papers: Papers) -> str:
    kind = say(papers.procedure["title"])
    if papers.decision is None:
        return _("{kind} record, not yet decided", kind=kind)
    if papers.decision["decision"] == "returned":
        return _("{kind} record, returned", kind=kind)
    if papers.reopening:
        return _("{kind} certificate, re-opened", kind=kind)
    return _("{kind} certificate", kind=kind)


def outcome(papers: Papers) -> dict[str, str]:
    """The decision as word and tone, and a sentence that counts the verdicts of the steps."""
    word, tone = DECISIONS[papers.decision["decision"] if papers.decision else None]
    word = say(word)
    if papers.reopening:
        word, tone = _("{word}, then re-opened", word=word), "guarded"
    judged = papers.record["judgement"]
    counts = Counter(step["verdict"] for step in judged["steps"].values() if step.get("applies", True))
    parts = ", ".join(
        f"{number} {in_sentence(verdict(name)['word'])}" for name, number in counts.most_common()
    )
    said = in_sentence(verdict(judged["record"]["verdict"])["word"])
    return {
        "word": word,
        "tone": tone,
        "sentence": _("Verdict of the record: {verdict}. Steps: {counts}.", verdict=said, counts=parts),
    }


def in_sentence(word: str) -> str:
    """A word inside a sentence: small in English; elsewhere it may be a noun and stays as it is."""
    return word.lower() if language() == ENGLISH else word


def conditions(papers: Papers, wording: Wording) -> list[dict[str, str]]:
    """What acceptance depends on: the supervisor's words first, then what the judgement says."""
    rows = []
    if papers.decision and papers.decision["decision"] == "accepted_with_conditions":
        rows.append({"text": papers.decision["reasons"], "where": _("the supervisor's condition")})
    for one in papers.record["judgement"]["record"]["conditions"]:
        rows.append({"text": wording.reason(one), "where": wording.place(one)})
    return rows


def signatures(papers: Papers) -> list[dict[str, str]]:
    rows = [signature(papers.record), *(signature(one, one["reasons"]) for one in papers.decisions)]
    for row, is_confirmed in zip(rows, papers.confirmed, strict=False):
        row["confirmed"] = _(CONFIRMED) if is_confirmed else ""
    return rows


def signature(paper: dict[str, Any], reasons: str = "") -> dict[str, str]:
    """Printed name, meaning, date and time with zone, as 21 CFR 11.50 asks."""
    signer = paper["signer"]
    return {
        "name": signer["name"],
        "role": say(ROLES.get(signer["role"], signer["role"])),
        "meaning": say(paper["meaning"]),
        "reasons": reasons or "",
        "when": figures.local_time(paper["signed_at"], paper["offset"]),
        "utc": figures.utc_time(paper["signed_at"]),
        "key": paper["device"],
        "confirmed": "",
    }


def identity_rows(papers: Papers) -> list[dict[str, str]]:
    record, procedure = papers.record, papers.record["procedure"]
    rows = {
        _("Unit"): record["unit"]["name"],
        _("Serial number"): record["unit"]["serial"],
        _("Site"): record["site"]["name"],
        _("Procedure"): _(
            "{title}, version {version}", title=say(papers.procedure["title"]), version=procedure["version"]
        ),
        _("Formulas"): formulas.sentence(record, papers.procedure),
        _("Visit"): record["visit"],
        _("Record before this one"): record["previous"] or _("none: the first of this unit"),
    }
    if papers.next_service:
        rows[_("Next service due")] = figures.day(papers.next_service)
    if record["corrects"]:
        rows[_("Corrects the record")] = record["corrects"]
    if papers.replaced_by:
        rows[_("Corrected by the record")] = papers.replaced_by
    return [{"label": label, "value": value} for label, value in rows.items()]


# ---- what the limits rest on


def plate(record: dict[str, Any], wording: Wording) -> list[dict[str, str]]:
    return cell_rows("plate", record["unit"]["plate"], wording, read_at_unit(record, wording))


def site(record: dict[str, Any], wording: Wording) -> dict[str, Any]:
    name = record["site"]["name"]
    rows = cell_rows("site", record["site"]["values"], wording, read_at_unit(record, wording))
    return {"name": name, "line": name, "rows": rows}


def read_at_unit(record: dict[str, Any], wording: Wording) -> dict[str, Any]:
    """The cells of plate and site that the visit gave or corrected, by the names of their quantities."""
    return {one.name: one.read for one in values_read(record, wording.procedure)}


def cell_rows(
    owner: str, cells: dict[str, Any], wording: Wording, read: Mapping[str, Any] | None = None
) -> list[dict[str, str]]:
    """Label and value in the order of the procedure; what the procedure does not know comes last.

    A value that was ``read`` at the unit counted instead of the office's, which stands beside it.
    """
    order = list(wording.entries)
    office = owned(owner, cells)
    given = {name: cell for name, cell in (read or {}).items() if name.startswith(f"{owner}.")}
    named = office | given
    known = sorted(named, key=lambda name: order.index(name) if name in order else len(order))
    rows = [
        {"label": wording.label(name), "value": wording.content(name, named[name])}
        | ({"note": read_note(name, office.get(name), given[name], wording)} if name in given else {})
        for name in known
    ]
    return rows + usual_rows(owner, named, wording)


def read_note(name: str, office: dict[str, Any] | None, read: dict[str, Any], wording: Wording) -> str:
    if office is None:
        return _("Read at the unit; the office had no value")
    if office.get("value") == read.get("value"):
        return _("Read at the unit, as the office had it")
    return _("Read at the unit; the office had {value}", value=wording.content(name, office))


def usual_rows(owner: str, named: Mapping[str, Any], wording: Wording) -> list[dict[str, str]]:
    """The entries left empty whose default held: the limits rest on them, too."""
    return [
        {
            "label": entry["label"],
            "value": _("{value} (usual value)", value=wording.content(name, {"value": entry["default"]})),
        }
        for name, entry in wording.entries.items()
        if name.startswith(f"{owner}.") and name not in named and entry["default"] is not None
        if all(fits(one, (named.get(one["quantity"]) or {}).get("value")) for one in entry["when"] or ())
    ]


def used_instruments(record: dict[str, Any]) -> list[dict[str, Any]]:
    """The instruments that some reading names, by kind."""
    used = {(event["content"] or {}).get("instrument") for event in record["events"]}
    known = [one for key, one in record["instruments"].items() if key in used]
    return sorted(known, key=lambda one: (one["kind"], one["name"]))


def instrument_row(one: dict[str, Any], signed_at: str) -> dict[str, Any]:
    due = one.get("calibration_due")
    return {
        "name": one["name"],
        "kind": say(kind_in_words(one["kind"])),
        "serial": one["serial"],
        "due": figures.day(due) or _("not stated"),
        "overdue": due is not None and due < signed_at[:10],
        "accuracy": accuracy(one),
    }


def accuracy(one: dict[str, Any]) -> str:
    """The accuracy specification in one line."""
    unit = figures.symbol(one["unit"])
    parts = [
        (
            one.get("accuracy_of_reading"),
            lambda x: _("{number} % of reading", number=figures.rounded(100 * x)),
        ),
        (one.get("accuracy_of_range"), lambda x: _("{number} % of range", number=figures.rounded(100 * x))),
        (
            one.get("digits"),
            lambda x: ngettext("{number} digit", "{number} digits", x, number=figures.rounded(x)),
        ),
    ]
    named = " + ".join(words(value) for value, words in parts if value)
    more = []
    if one.get("resolution"):
        more.append(
            _("resolution {amount}", amount=figures.with_unit(figures.rounded(one["resolution"]), unit))
        )
    if expanded := one.get("calibration_uncertainty"):
        more.append(_("calibration U = {amount}", amount=figures.with_unit(figures.rounded(expanded), unit)))
    return "; ".join([f"±({named})"] * bool(named) + more) or _("not stated")


def late_row(event: dict[str, Any], wording: Wording, names: Mapping[str, str]) -> dict[str, str]:
    return {
        "label": f"{wording.step_title(event['field'])}: {wording.label(event['field'])}",
        "value": wording.content(event["field"], event["content"]),
        "note": changes.who_and_when(event, names),
    }
