"""The forms of accounts."""

from typing import Any

from flask_wtf import FlaskForm
from wtforms import PasswordField, SelectField, StringField, ValidationError
from wtforms.fields import SelectChoice
from wtforms.validators import InputRequired, Length

from webapp import current
from webapp.passwords import weakness

ROLE_LABELS = {
    "installer": "Installer: fills in and signs records",
    "supervisor": "Supervisor: countersigns or returns records, fills in own ones",
    "quality": "Quality: reads and exports",
    "administrator": "Administrator: people, devices, sites, units, instruments",
}
ROLE_CHOICES = [SelectChoice(role, label) for role, label in ROLE_LABELS.items()]


def needed(thing: str) -> list[Any]:
    return [InputRequired(f"Enter {thing}."), Length(max=200, message=f"Shorten {thing} to 200 characters.")]


class SignInForm(FlaskForm):
    login = StringField("Login", needed("your login"))
    password = PasswordField("Password", [InputRequired("Enter your password.")])


class NewPasswordForm(FlaskForm):
    present = PasswordField("Present password", [InputRequired("Enter your present password.")])
    new = PasswordField(
        "New password",
        [InputRequired("Enter a new password.")],
        description="At least 12 characters. Several words are easy to remember and hard to guess.",
    )
    again = PasswordField("New password again", [InputRequired("Enter the new password again.")])

    def validate_new(self, field: PasswordField) -> None:
        problem = weakness(field.data or "", current.person(), current.settings().base_url)
        if problem:
            raise ValidationError(problem)

    def validate_again(self, field: PasswordField) -> None:
        if field.data != self.new.data:
            raise ValidationError("The two new passwords differ. Enter the same one twice.")


class PhoneForm(FlaskForm):
    name = StringField(
        "Name of this phone",
        needed("a name for this phone"),
        description="So that you recognise it in your list, for example: blue work phone.",
    )
    password = PasswordField(
        "Your password",
        [InputRequired("Enter your password.")],
        description="The phone asks for it when you sign a record, also without signal.",
    )


class PasskeyForm(FlaskForm):
    """Sent by its script, which asks the browser for a new passkey in between."""

    name = StringField(
        "Name of the passkey",
        needed("a name for the passkey"),
        description="So that you recognise it in your list, for example: work phone.",
    )
    password = PasswordField("Your password", [InputRequired("Enter your password.")])


class NameForm(FlaskForm):
    name = StringField("Name", needed("a name"))


class RemoveForm(FlaskForm):
    password = PasswordField("Your password", [InputRequired("Enter your password.")])


class PersonForm(FlaskForm):
    login = StringField("Login", needed("a login"), description="What the person signs in with.")
    name = StringField(
        "Name", needed("the person's name"), description="As it is printed beside a signature."
    )
    role = SelectField("Role", choices=ROLE_CHOICES)


class ChangePersonForm(FlaskForm):
    name = StringField("Name", needed("the person's name"))
    role = SelectField("Role", choices=ROLE_CHOICES)
