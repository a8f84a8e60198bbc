"""The form of a step, built from the procedure: one field per entry, in the procedure's order."""

from wtforms import PasswordField

from webapp.field.fields import FIELDS
from webapp.forms import OwnForm
from webapp.language import lazy


class OnThePhone(OwnForm):
    """A form that is read by the phone's own script and never sent, and so needs no token."""

    class Meta:
        csrf = False


class SignatureForm(OnThePhone):
    password = PasswordField(
        lazy("Your password"),
        description=lazy("The one you sign in with. It is checked on this phone, also without signal."),
        render_kw={"autocomplete": "current-password"},
    )


def step_form(step: dict) -> type[OnThePhone]:
    """The form class of ``step`` (a step of a normalised procedure, see docs/api.md)."""
    entries = {field_name(entry["id"]): FIELDS[entry["kind"]](entry) for entry in step["entries"]}
    return type("StepForm", (OnThePhone,), entries)


def plate_form(procedure: dict) -> type[OnThePhone]:
    """The values of plate and site in one form: an entry of both is named by its owner, too."""
    fields = {
        field_name(f"{owner}_{entry['id']}"): FIELDS[entry["kind"]](entry)
        for owner in ("plate", "site")
        for entry in procedure[owner]
    }
    return type("PlateForm", (OnThePhone,), fields)


def field_name(entry: str) -> str:
    """Prefixed, because an entry may be called what a form calls its own parts ("data", "errors")."""
    return f"entry_{entry}"
