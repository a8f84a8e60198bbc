"""The certificate as PDF/A-3b: a copy for reading, with the signed record inside it.

The same papers give the same bytes: the dates are those of the signatures, the fonts those of the typesetter.
"""

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import typst

from webapp.certificate import figures, sheet
from webapp.certificate.printable import fonts, printable_tree

LAYOUT = Path(__file__).with_name("layout.typ")
DATE_PARTS = ("year", "month", "day", "hour", "minute", "second")
DECISION_FILES = ("decision.jws", "reopening.jws")
HOW_CONFIRMED = (
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
    data["record_jws"] = record_jws
    data["decisions"] = [[name, text] for name, text in zip(DECISION_FILES, decisions, strict=False)]
    data["keys"] = json.dumps({"keys": keys}, indent=1, sort_keys=True)
    if evidence and evidence["confirmations"]:
        data["confirmations"] = json.dumps(evidence, indent=1, sort_keys=True)
        data["verify"].insert(-1, printable_tree(HOW_CONFIRMED))
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


def closing(papers: sheet.Papers) -> dict[str, Any]:
    """Remarks on this copy, the hashes, and how to verify them."""
    return {"remarks": remarks(papers), "hashes": hashes(papers), "verify": how_to_verify(papers)}


def remarks(papers: sheet.Papers) -> list[str]:
    lines = []
    if papers.decision is None:
        lines.append("No supervisor has decided on this record. It is not an acceptance.")
    elif papers.decision["decision"] == "returned":
        lines.append("The supervisor returned this record. It is not an acceptance.")
    if papers.reopening:
        day = figures.day(papers.reopening["signed_at"][:10])
        lines.append(f"This record was re-opened on {day}. It holds until a corrected record is accepted.")
    if papers.late:
        lines.append("Entries that arrived after signing stand at the end. They are no part of the record.")
    lines.append("The limits and cautions of the maker's manual and of local codes stand beside this record.")
    return lines


def hashes(papers: sheet.Papers) -> list[dict[str, str]]:
    record = papers.record
    rows = {
        "Record identity (SHA-256 of the payload)": papers.identity,
        "Procedure (SHA-256)": record["procedure"]["hash"],
        f"Key of {record['signer']['name']} (RFC 7638)": record["device"],
    }
    # Two decisions may come from two devices of one person: the dates tell them apart.
    for one in papers.decisions:
        rows[f"Key of {one['signer']['name']}, {one['signed_at'][:10]} (RFC 7638)"] = one["device"]
    return [{"label": label, "value": value} for label, value in rows.items()]


def how_to_verify(papers: sheet.Papers) -> list[str]:
    names = ["record.jws", *DECISION_FILES[: len(papers.decisions)]]
    return [
        f"Save the attachments {', '.join(names)} and keys.json of this PDF.",
        "Verify each .jws with any JOSE library: compact JWS (RFC 7515), algorithm ES256 only, with the key "
        "of keys.json whose thumbprint is the header's “kid”. Compare the thumbprints with those below, and "
        "ask the organisation that issued the certificate whether they are its people's keys.",
        "The SHA-256 of the payload of record.jws must be the record identity below"
        + ("".join(f"; the payload of {name} names the same identity" for name in names[1:]) + "."),
        "The command “firstwater verify FILE” does this for the whole PDF without a server and recomputes "
        "every limit and verdict from the readings.",
    ]
