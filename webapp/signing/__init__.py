"""Signed documents: canonical bytes, signatures, chain, verification. JOSE lives here and nowhere else."""

from webapp.signing.findings import Finding, Verification
from webapp.signing.verify import Key, order_findings, verify_decision, verify_record

__all__ = ["Finding", "Key", "Verification", "order_findings", "verify_decision", "verify_record"]
