"""The audit trail, as people read it: who did what, the newest first."""

from flask import Blueprint, render_template, request

from webapp import current
from webapp.language import _, noop, say
from webapp.rights import has_right, right
from webapp.store import AuditEntry

PAGE = 100

# Where somebody was when they signed in concerns those who look after accounts.
FOR_ADMINISTRATORS = {"address"}

WORDS = {
    "signed_in": noop("signed in"),
    "signed_out": noop("signed out"),
    "sign_in_failed": noop("somebody failed to sign in"),
    "password_wrong": noop("entered a wrong password"),
    "password_changed": noop("changed the password"),
    "password_set": noop("gave a password by command"),
    "one_time_password_given": noop("gave a one-time password"),
    "session_ended": noop("ended a session"),
    "signed_out_everywhere": noop("signed out everywhere"),
    "person_added": noop("added a person"),
    "person_changed": noop("changed name or role"),
    "person_disabled": noop("disabled an account"),
    "person_enabled": noop("enabled an account"),
    "device_enrolled": noop("enrolled a device"),
    "device_renamed": noop("renamed a device"),
    "device_revoked": noop("revoked a device"),
    "passkey_added": noop("added a passkey"),
    "passkey_removed": noop("removed a passkey"),
    "unit_added": noop("added a unit"),
    "unit_changed": noop("changed a unit"),
    "values_taken_over": noop("took over values that were read at a unit"),
    "site_added": noop("added a site"),
    "site_changed": noop("changed a site"),
    "instrument_added": noop("added an instrument"),
    "instrument_changed": noop("changed an instrument"),
    "label_replaced": noop("replaced a label"),
    "record_received": noop("sent a record"),
    "record_quarantined": noop("sent a record that was set aside"),
    "decision_quarantined": noop("sent a decision that was set aside"),
    "event_quarantined": noop("sent an entry that was set aside"),
    "unsent_file_taken_in": noop("took in a file of unsent entries"),
    "quarantine_seen": noop("looked at something set aside"),
    "record_accepted": noop("accepted a record"),
    "record_accepted_with_conditions": noop("accepted a record with conditions"),
    "record_returned": noop("returned a record"),
    "record_reopened": noop("re-opened a record"),
    "lists_rebuilt": noop("made the lists anew from the documents"),
}


DETAILS = {
    "address": noop("address"),
    "browser": noop("browser"),
    "codes": noop("reasons"),
    "how": noop("by"),
    "name": noop("name"),
    "owner": noop("owner"),
    "role": noop("role"),
    "why": noop("because"),
}
"""What the details of an action are called; another one is called as it is kept."""


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
        entry.person or "", "-" if entry.action == "sign_in_failed" else _("A command on the server")
    )


def words(entry: AuditEntry) -> str:
    return say(WORDS.get(entry.action, entry.action.replace("_", " ")))


def about(entry: AuditEntry, names: dict[str, str]) -> str:
    """Whom or what the action was about, with its details."""
    subject = names.get(entry.subject or "", (entry.subject or "")[:16])
    sees_all = has_right(current.person(), "administer")
    shown = [
        f"{say(DETAILS.get(name, name.replace('_', ' ')))}: {in_words(value, names)}"
        for name, value in entry.details.items()
        if sees_all or name not in FOR_ADMINISTRATORS
    ]
    return "; ".join([subject, *shown] if subject else shown)


def in_words(value: object, names: dict[str, str]) -> str:
    """A detail for a reader: people by their names, a list without its brackets."""
    if isinstance(value, list):
        return ", ".join(in_words(one, names) for one in value)
    return names.get(str(value), str(value))
