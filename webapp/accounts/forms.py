"""The forms of accounts."""

from typing import Any

from wtforms import PasswordField, SelectField, StringField, ValidationError
from wtforms.fields import SelectChoice
from wtforms.validators import InputRequired, Length

from webapp import current
from webapp.forms import OwnForm
from webapp.language import _, lazy, noop
from webapp.passwords import weakness

ROLE_LABELS = {
    "installer": noop("Installer: fills in and signs records"),
    "supervisor": noop("Supervisor: countersigns or returns records, fills in own ones"),
    "quality": noop("Quality: reads and exports"),
    "administrator": noop("Administrator: people, devices, sites, units, instruments"),
}
ROLE_WORDS = {
    "installer": noop("Installer"),
    "supervisor": noop("Supervisor"),
    "quality": noop("Quality"),
    "administrator": noop("Administrator"),
}
ROLE_CHOICES = [SelectChoice(role, lazy(label)) for role, label in ROLE_LABELS.items()]


def role_word(role: str) -> str:
    """What a role is called, in English; whoever shows it says it."""
    return ROLE_WORDS[role]


def needed(sentence: str) -> list[Any]:
    """A text is asked for by this sentence, and may not be longer than anybody needs."""
    return [InputRequired(lazy(sentence)), Length(max=200, message=lazy("Write at most 200 characters."))]


class SignInForm(OwnForm):
    login = StringField(lazy("Login"), needed(noop("Enter your login.")))
    password = PasswordField(lazy("Password"), [InputRequired(lazy("Enter your password."))])


class NewPasswordForm(OwnForm):
    present = PasswordField(lazy("Present password"), [InputRequired(lazy("Enter your present password."))])
    new = PasswordField(
        lazy("New password"),
        [InputRequired(lazy("Enter a new password."))],
        description=lazy("At least 12 characters. Several words are easy to remember and hard to guess."),
    )
    again = PasswordField(lazy("New password again"), [InputRequired(lazy("Enter the new password again."))])

    def validate_new(self, field: PasswordField) -> None:
        problem = weakness(field.data or "", current.person(), current.settings().base_url)
        if problem:
            raise ValidationError(problem)

    def validate_again(self, field: PasswordField) -> None:
        if field.data != self.new.data:
            raise ValidationError(_("The two new passwords differ. Enter the same one twice."))


class PhoneForm(OwnForm):
    name = StringField(
        lazy("Name of this phone"),
        needed(noop("Enter a name for this phone.")),
        description=lazy("So that you recognise it in your list, for example: blue work phone."),
    )
    password = PasswordField(
        lazy("Your password"),
        [InputRequired(lazy("Enter your password."))],
        description=lazy("The phone asks for it when you sign a record, also without signal."),
    )


class PasskeyForm(OwnForm):
    """Sent by its script, which asks the browser for a new passkey in between."""

    name = StringField(
        lazy("Name of the passkey"),
        needed(noop("Enter a name for the passkey.")),
        description=lazy("So that you recognise it in your list, for example: work phone."),
    )
    password = PasswordField(lazy("Your password"), [InputRequired(lazy("Enter your password."))])


class NameForm(OwnForm):
    name = StringField(lazy("Name"), needed(noop("Enter a name.")))


class RemoveForm(OwnForm):
    password = PasswordField(lazy("Your password"), [InputRequired(lazy("Enter your password."))])


class PersonForm(OwnForm):
    login = StringField(
        lazy("Login"), needed(noop("Enter a login.")), description=lazy("What the person signs in with.")
    )
    name = StringField(
        lazy("Name"),
        needed(noop("Enter the person's name.")),
        description=lazy("As it is printed beside a signature."),
    )
    role = SelectField(lazy("Role"), choices=ROLE_CHOICES)


class ChangePersonForm(OwnForm):
    name = StringField(lazy("Name"), needed(noop("Enter the person's name.")))
    role = SelectField(lazy("Role"), choices=ROLE_CHOICES)
