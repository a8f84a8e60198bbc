"""What the office asks for: search words, a decision, a note on something quarantined."""

from collections.abc import Mapping
from typing import Any

from wtforms import (
    DateField,
    HiddenField,
    PasswordField,
    RadioField,
    SearchField,
    SelectField,
    TextAreaField,
    ValidationError,
)
from wtforms.fields.choices import SelectChoice
from wtforms.validators import DataRequired, InputRequired, Length, Optional

from webapp.forms import OwnForm, QueryForm
from webapp.language import _, lazy, noop
from webapp.store import Site

STATES = {
    "": noop("Any"),
    "signed": noop("Waiting for a decision"),
    "accepted": noop("Accepted"),
    "accepted_with_conditions": noop("Accepted with conditions"),
    "returned": noop("Returned"),
    "reopened": noop("Re-opened"),
}

SEEN: dict[str, bool | None] = {"": None, "no": False, "yes": True}
SEEN_WORDS = {"": lazy("Any"), "no": lazy("Not yet"), "yes": lazy("Yes")}


class SearchForm(QueryForm):
    """Sent by GET; what cannot be read is left out of the search."""

    q = SearchField(lazy("Unit, serial number, site or signer"), default="")
    site = SelectField(lazy("Site"), default="")
    state = SelectField(
        lazy("State"), default="", choices=[SelectChoice(key, lazy(word)) for key, word in STATES.items()]
    )
    since = DateField(lazy("Signed from"), validators=[Optional()])
    until = DateField(lazy("Signed until"), validators=[Optional()])

    def __init__(self, query: Any, sites: list[Site]):
        super().__init__(query)
        self.site.choices = [
            SelectChoice("", _("Any")),
            *(SelectChoice(site.id, site.name) for site in sites),
        ]
        self.q.data = self.q.data or ""
        self.site.data = self.site.data or ""
        if self.state.data not in STATES:
            self.state.data = ""


class QuarantineForm(QueryForm):
    """Sent by GET; what cannot be read is left out of the search."""

    q = SearchField(lazy("Unit, site or sender"), default="")
    seen = SelectField(
        lazy("Looked at"), choices=[SelectChoice(key, word) for key, word in SEEN_WORDS.items()]
    )

    def __init__(self, query: Any):
        super().__init__(query)
        self.q.data = self.q.data or ""
        if self.seen.data not in SEEN:
            self.seen.data = ""


class DecisionForm(OwnForm):
    """A supervisor's decision. ``jws`` is signed in the browser over what stands in the other fields.

    It is confirmed by the password, or by ``assertion``: a passkey's confirmation of the signed content.
    """

    decision = RadioField(lazy("Decision"), validators=[InputRequired(lazy("Choose a decision."))])
    reasons = TextAreaField(
        lazy("Reasons or conditions"),
        description=lazy(
            "Needed for a return and for conditions. "
            "Conditions stand on the certificate and behind the label."
        ),
        validators=[Length(max=4000, message=lazy("Write at most 4000 characters."))],
    )
    password = PasswordField(
        lazy("Your password"),
        description=lazy("Asked for again: the signature is yours."),
        render_kw={"autocomplete": "current-password"},
    )
    jws = HiddenField()
    assertion = HiddenField()
    reasons_missing = noop("Write the reasons for the return, or the conditions of the acceptance.")

    def validate_password(self, field: PasswordField) -> None:
        if not field.data and not self.assertion.data:
            raise ValidationError(_("Enter your password."))

    def ask_why_reopened(self) -> None:
        """The reasons are those for which an accepted record is re-opened."""
        self.reasons.label.text = _("Reasons")
        self.reasons.render_kw = {"rows": 6}
        self.reasons.description = _("The installer sees them with the visit.")
        self.reasons_missing = noop("Write why the record is re-opened.")

    def offer(self, choices: Mapping[str, str]) -> None:
        """Offer these decisions, with their words."""
        self.decision.choices = [SelectChoice(key, _(word)) for key, word in choices.items()]

    def validate_reasons(self, field: TextAreaField) -> None:
        if self.decision.data in {"returned", "accepted_with_conditions"} and not (field.data or "").strip():
            raise ValidationError(_(self.reasons_missing))


class SeenForm(OwnForm):
    note = TextAreaField(
        lazy("What was found and done"),
        description=lazy("For those who look later. The document itself stays as it came."),
        validators=[
            DataRequired(lazy("Write what you found and what was done.")),
            Length(max=4000, message=lazy("Write at most 4000 characters.")),
        ],
    )
