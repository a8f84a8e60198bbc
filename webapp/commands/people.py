"""firstwater user and firstwater device: accounts and phones, without a browser."""

from datetime import timedelta

import click

from webapp import current
from webapp.commands.group import BadInput, json_option, near, print_json, print_table
from webapp.commands.opened import opened_store
from webapp.passwords import ONE_TIME_DAYS, hash_password, one_time_password, weakness
from webapp.rights import ROLES
from webapp.store import Device, Person, Store
from webapp.store.table import written

one_time_option = click.option(
    "--one-time",
    is_flag=True,
    help=f"Make a password, valid for {ONE_TIME_DAYS} days, to be replaced at the first sign-in.",
)


@click.group(short_help="Accounts: add, list, disable, new password.")
def user() -> None:
    """Accounts: add, list, disable, new password. The first administrator is made here.

    A password is asked for without echo; it never stands on a command line.
    """


@user.command()
@click.argument("login")
@click.option("--name", required=True, help="The person's name, as it is signed into records.")
@click.option("--role", required=True, type=click.Choice(ROLES), help="What the person may do.")
@one_time_option
def add(login: str, name: str, role: str, one_time: bool) -> None:
    """Add a person who signs in as LOGIN."""
    login, name = login.strip(), name.strip()
    if not login or not name:
        raise BadInput(f"{'--name' if login else 'LOGIN'}: write at least one character.")
    with opened_store(must_exist=False) as store:
        if store.people.by_login(login):
            raise BadInput(f"LOGIN: another person signs in as {login!r}. Choose a different one.")
        password, until = new_password(one_time, Person("", login, name, role))
        with store.transaction():
            made = store.people.add(login, name, role, hash_password(password), one_time_until=until)
            store.audit.add("person_added", person=None, subject=made.id, role=role)
    click.echo(f"{name} ({role}) can sign in as {login}.")
    show_one_time(password, until)


def new_password(one_time: bool, person: Person) -> tuple[str, str | None]:
    """The password, and until when it may be used if it is a one-time one."""
    if one_time:
        return one_time_password(), written(current.utc_now() + timedelta(days=ONE_TIME_DAYS))
    password = click.prompt("Password", hide_input=True, confirmation_prompt=True, err=True)
    wrong = weakness(password, person)
    if wrong:
        raise BadInput(f"Password: {wrong}")
    return password, None


def show_one_time(password: str, until: str | None) -> None:
    if until is not None:
        click.echo(f"One-time password, shown only now: {password}")


@user.command("list")
@json_option
def list_people(as_json: bool) -> None:
    """List everybody, with role and state."""
    with opened_store() as store:
        people = sorted(store.people.all(), key=lambda one: (not one.active, one.login))
    if as_json:
        print_json([person.__dict__ for person in people])
    else:
        rows = [(one.login, one.role, "active" if one.active else "disabled", one.name) for one in people]
        print_table(rows, ("login", "role", "state", "name"))


@user.command()
@click.argument("login")
def disable(login: str) -> None:
    """Sign LOGIN out everywhere and let them sign in no more. What they signed stays valid."""
    set_active(login, False)


@user.command()
@click.argument("login")
def enable(login: str) -> None:
    """Let a disabled LOGIN sign in again."""
    set_active(login, True)


def set_active(login: str, active: bool) -> None:
    with opened_store() as store:
        person = person_named(store, login)
        with store.transaction():
            store.people.set_active(person.id, active)
            store.audit.add("person_enabled" if active else "person_disabled", person=None, subject=person.id)
    click.echo(f"{person.name} {'may sign in again' if active else 'is disabled and signed out everywhere'}.")


@user.command()
@click.argument("login")
@one_time_option
def password(login: str, one_time: bool) -> None:
    """Give LOGIN a new password, and sign them out everywhere."""
    with opened_store() as store:
        person = person_named(store, login)
        chosen, until = new_password(one_time, person)
        with store.transaction():
            store.people.set_password(person.id, hash_password(chosen), until)
            store.sessions.end_all(person.id)
            store.audit.add("password_set", person=None, subject=person.id, one_time=until is not None)
    click.echo(f"{person.name} has a new password.")
    show_one_time(chosen, until)


def person_named(store: Store, login: str) -> Person:
    person = store.people.by_login(login)
    if person is None:
        logins = [one.login for one in store.people.all()]
        raise BadInput(f"LOGIN: nobody signs in as {login!r}{near(login, logins)}")
    return person


@click.group(short_help="Phones: list, revoke.")
def device() -> None:
    """The phones and desks whose signatures are accepted."""


@device.command("list")
@json_option
def list_devices(as_json: bool) -> None:
    """List every enrolled key, with its owner."""
    with opened_store() as store:
        devices = store.devices.all()
        owners = {person.id: person.login for person in store.people.all()}
    if as_json:
        print_json([{**one.__dict__, "login": owners[one.person]} for one in devices])
        return
    rows = [
        (one.thumbprint, owners[one.person], one.enrolled_at[:10], ended(one), one.name) for one in devices
    ]
    print_table(rows, ("thumbprint", "owner", "enrolled", "state", "name"))


def ended(one: Device) -> str:
    return f"revoked {one.revoked_at[:10]}" if one.revoked_at else "accepted"


@device.command()
@click.argument("thumbprint")
def revoke(thumbprint: str) -> None:
    """Accept nothing more that the key THUMBPRINT signs from now on; its first letters are enough."""
    with opened_store() as store:
        found = [one for one in store.devices.all() if one.thumbprint.startswith(thumbprint)]
        if len(found) != 1:
            problem = "no key begins" if not found else f"{len(found)} keys begin"
            raise BadInput(
                f"THUMBPRINT: {problem} with {thumbprint!r}. Look it up with: firstwater device list"
            )
        with store.transaction():
            store.devices.revoke(found[0].thumbprint)
            store.audit.add("device_revoked", person=None, subject=found[0].thumbprint, owner=found[0].person)
    click.echo(f"{found[0].name} is revoked. Nothing that it signs from now on is accepted.")
