"""The certificate as PDF/A-3b: a copy for reading, with the signed record inside it.

The same papers give the same bytes: the dates are those of the signatures, the fonts those of the typesetter.
"""

import json
import re
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import typst

from webapp.certificate import figures, sheet
from webapp.certificate.printable import fonts, printable_tree
from webapp.language import _, date, language, noop

LAYOUT = Path(__file__).with_name("layout.typ")
SAID = re.compile(r'#?\bsay\("([^"]+)"\)')
DATE_PARTS = ("year", "month", "day", "hour", "minute", "second")
DECISION_FILES = ("decision.jws", "reopening.jws")
HOW_CONFIRMED = noop(
    "The attachment confirmations.json holds what passkeys answered when they confirmed signatures (W3C Web "
    "Authentication), and the public keys that verify it. The challenge of each answer is the SHA-256 of the "
    "payload of the document that it confirms, in bytes."
)


def render(
    papers: sheet.Papers,
    record_jws: str,
    decisions: Sequence[str],
    keys: list[dict[str, Any]],
    evidence: Mapping[str, Any] | None = None,
) -> bytes:
    """The certificate of a record.

    ``decisions`` are the JWS of ``papers.decisions``. ``keys`` are the public keys (JWK) of the
    signers; they travel inside the PDF so that any JOSE library can verify it. ``evidence`` are the
    confirmations by passkeys and what verifies them, as in a bundle. Texts reach the page as data only.
    Raises no error for a text that the fonts cannot set: such a character is printed as its code point.
    """
    data = printable_tree({**sheet.build(papers), **closing(papers)})
    data["language"], data["words"] = language(), printable_tree(layout_words())
    data["record_jws"] = record_jws
    data["decisions"] = [[name, text] for name, text in zip(DECISION_FILES, decisions, strict=False)]
    data["keys"] = json.dumps({"keys": keys}, indent=1, sort_keys=True)
    if evidence and evidence["confirmations"]:
        data["confirmations"] = json.dumps(evidence, indent=1, sort_keys=True)
        data["verify"].insert(-1, printable_tree(_(HOW_CONFIRMED)))
    last = [papers.record, *papers.decisions][-1]
    signed = figures.read_instant(last["signed_at"])
    data["date"] = {part: getattr(signed, part) for part in DATE_PARTS}
    return typst.compile(
        LAYOUT,
        font_paths=fonts(),
        ignore_system_fonts=True,
        pdf_standards=["a-3b"],
        sys_inputs={"sheet": json.dumps(data)},
    )


@cache
def english_words() -> tuple[str, ...]:
    """The words of the layout itself."""
    return tuple(dict.fromkeys(SAID.findall(LAYOUT.read_text(encoding="utf-8"))))


def layout_words() -> dict[str, str]:
    return {text: _(text) for text in english_words()}


def closing(papers: sheet.Papers) -> dict[str, Any]:
    """Remarks on this copy, the hashes, and how to verify them."""
    return {"remarks": remarks(papers), "hashes": hashes(papers), "verify": how_to_verify(papers)}


def remarks(papers: sheet.Papers) -> list[str]:
    lines = []
    if papers.decision is None:
        lines.append(_("No supervisor has decided on this record. It is not an acceptance."))
    elif papers.decision["decision"] == "returned":
        lines.append(_("The supervisor returned this record. It is not an acceptance."))
    if papers.reopening:
        day = figures.day(papers.reopening["signed_at"][:10])
        lines.append(
            _("This record was re-opened on {day}. It holds until a corrected record is accepted.", day=day)
        )
    if papers.late:
        lines.append(
            _("Entries that arrived after signing stand at the end. They are no part of the record.")
        )
    lines.append(
        _("The limits and cautions of the maker's manual and of local codes stand beside this record.")
    )
    return lines


def hashes(papers: sheet.Papers) -> list[dict[str, str]]:
    record = papers.record
    rows = {
        _("Record identity (SHA-256 of the payload)"): papers.identity,
        _("Procedure (SHA-256)"): record["procedure"]["hash"],
        **formulas_hash(record),
        _("Key of {name} (RFC 7638)", name=record["signer"]["name"]): record["device"],
    }
    # Two decisions may come from two devices of one person: the dates tell them apart.
    for one in papers.decisions:
        name, day = one["signer"]["name"], date(one["signed_at"])
        rows[_("Key of {name}, {day} (RFC 7638)", name=name, day=day)] = one["device"]
    return [{"label": label, "value": value} for label, value in rows.items()]


def formulas_hash(record: Mapping[str, Any]) -> dict[str, str]:
    return {_("Formulas (SHA-256)"): record["formulas"]} if record.get("formulas") else {}


def how_to_verify(papers: sheet.Papers) -> list[str]:
    names = ["record.jws", *DECISION_FILES[: len(papers.decisions)]]
    same = "".join("; " + _("the payload of {name} names the same identity", name=name) for name in names[1:])
    return [
        _("Save the attachments {names} and keys.json of this PDF.", names=", ".join(names)),
        _(
            "Verify each .jws with any JOSE library: compact JWS (RFC 7515), algorithm ES256 only, with the "
            "key of keys.json whose thumbprint is the header's “kid”. Compare the thumbprints with those "
            "below, and ask the organisation that issued the certificate whether they are its people's keys."
        ),
        _("The SHA-256 of the payload of record.jws must be the record identity below{same}.", same=same),
        _(
            "The command “firstwater verify FILE” does this for the whole PDF without a server and "
            "recomputes every limit and verdict from the readings."
        ),
    ]
