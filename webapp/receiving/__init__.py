"""What comes in from phones and desks: verified, kept byte for byte, or quarantined with the reasons.

Stands between the blueprints, which may not import one another, and the store.
"""

from webapp.receiving.answer import Answer
from webapp.receiving.decisions import receive_decision
from webapp.receiving.events import receive_events
from webapp.receiving.examined import Examining
from webapp.receiving.judges import Judges
from webapp.receiving.photos import receive_photo
from webapp.receiving.records import Sent, examining_here, receive_record, receive_records, reopen_quarantined
from webapp.receiving.visits import receive_visit

__all__ = [
    "Answer",
    "Examining",
    "Judges",
    "Sent",
    "examining_here",
    "receive_decision",
    "receive_events",
    "receive_photo",
    "receive_record",
    "receive_records",
    "receive_visit",
    "reopen_quarantined",
]
