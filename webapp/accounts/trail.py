"""The audit trail, as people read it: who did what, the newest first."""

from flask import Blueprint, render_template, request

from webapp import current
from webapp.rights import has_right, right
from webapp.store import AuditEntry

PAGE = 100

# Where somebody was when they signed in concerns those who look after accounts.
FOR_ADMINISTRATORS = {"address"}

WORDS = {
    "signed_in": "signed in",
    "signed_out": "signed out",
    "sign_in_failed": "somebody failed to sign in",
    "password_wrong": "entered a wrong password",
    "password_changed": "changed the password",
    "password_set": "gave a password by command",
    "one_time_password_given": "gave a one-time password",
    "session_ended": "ended a session",
    "signed_out_everywhere": "signed out everywhere",
    "person_added": "added a person",
    "person_changed": "changed name or role",
    "person_disabled": "disabled an account",
    "person_enabled": "enabled an account",
    "device_enrolled": "enrolled a device",
    "device_renamed": "renamed a device",
    "device_revoked": "revoked a device",
    "passkey_added": "added a passkey",
    "passkey_removed": "removed a passkey",
    "unit_added": "added a unit",
    "unit_changed": "changed a unit",
    "values_taken_over": "took over values that were read at a unit",
    "site_added": "added a site",
    "site_changed": "changed a site",
    "instrument_added": "added an instrument",
    "instrument_changed": "changed an instrument",
    "label_replaced": "replaced a label",
    "record_received": "sent a record",
    "record_quarantined": "sent a record that was set aside",
    "decision_quarantined": "sent a decision that was set aside",
    "event_quarantined": "sent an entry that was set aside",
    "unsent_file_taken_in": "took in a file of unsent entries",
    "quarantine_seen": "looked at something set aside",
    "record_accepted": "accepted a record",
    "record_accepted_with_conditions": "accepted a record with conditions",
    "record_returned": "returned a record",
    "record_reopened": "re-opened a record",
    "lists_rebuilt": "made the lists anew from the documents",
}


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/trail", view_func=trail)


@right("read")
def trail() -> str:
    store = current.store()
    before = request.args.get("before", type=int)
    found = store.audit.newest(PAGE, before)
    names = {person.id: person.name for person in store.people.all()}
    rows = [(entry, who(entry, names), words(entry), about(entry, names)) for entry in found]
    older = found[-1].sequence if len(found) == PAGE else None
    return render_template("accounts/trail.html", rows=rows, older=older, names=names)


def who(entry: AuditEntry, names: dict[str, str]) -> str:
    return names.get(
        entry.person or "", "-" if entry.action == "sign_in_failed" else "A command on the server"
    )


def words(entry: AuditEntry) -> str:
    return WORDS.get(entry.action, entry.action.replace("_", " "))


def about(entry: AuditEntry, names: dict[str, str]) -> str:
    """Whom or what the action was about, with its details."""
    subject = names.get(entry.subject or "", (entry.subject or "")[:16])
    sees_all = has_right(current.person(), "administer")
    shown = [
        f"{name.replace('_', ' ')}: {value}"
        for name, value in entry.details.items()
        if sees_all or name not in FOR_ADMINISTRATORS
    ]
    return "; ".join([subject, *shown] if subject else shown)
