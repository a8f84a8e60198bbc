"""What comes in from phones and desks: verified, kept byte for byte, or quarantined with the reasons.

Stands between the blueprints, which may not import one another, and the store.
"""

from webapp.receiving.answer import Answer
from webapp.receiving.decisions import receive_decision
from webapp.receiving.events import receive_events
from webapp.receiving.photos import receive_photo
from webapp.receiving.records import receive_record, reopen_quarantined
from webapp.receiving.visits import receive_visit

__all__ = [
    "Answer",
    "receive_decision",
    "receive_events",
    "receive_photo",
    "receive_record",
    "receive_visit",
    "reopen_quarantined",
]
