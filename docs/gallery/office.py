"""The pages of the office, of everybody's account, and those that a stranger sees."""

import shutil
import subprocess
import tempfile
from pathlib import Path

from docs.gallery.camera import Camera
from docs.gallery.stage import Person, Stage

# group, name, caption, address
STRANGER = [
    ("Everybody", "sign-in", "Sign in", "/sign-in"),
    ("Everybody", "label-accepted", "Behind a unit's label: accepted", "/u/{analyser_feed_label}"),
    (
        "Everybody",
        "label-not-commissioned",
        "Behind a unit's label: not commissioned yet",
        "/u/{low_pressure_label}",
    ),
    ("Everybody", "not-found", "An address that leads nowhere", "/units/nothing/at/all"),
    ("Calculator", "formulas", "Calculator: all formulas", "/calculator"),
    ("Calculator", "formulas-found", "Calculator: formulas found by a word", "/calculator?search=relief"),
    (
        "Calculator",
        "formula-empty",
        "A formula before anything is given",
        "/calculator/formula?formula=loop_impedance_hot",
    ),
    (
        "Calculator",
        "formula",
        "A formula with its result and working",
        "/calculator/formula?formula=static_head&height=12",
    ),
    (
        "Calculator",
        "formula-refused",
        "A value outside a formula's validity",
        "/calculator/formula?formula=static_head&height=12&temperature=400",
    ),
]
SUPERVISOR = [
    ("Office", "queue", "What waits for the supervisor", "/office/"),
    ("Office", "record", "A record that waits for a decision", "/office/records/{waiting}"),
    ("Office", "record-accepted", "An accepted record", "/office/records/{accepted}"),
    ("Office", "reopen", "Enter a later result", "/office/records/{serviced}/reopen"),
    ("Office", "records", "Records, found by any word", "/office/records"),
    ("Office", "quarantine", "What was not accepted", "/office/quarantine"),
    ("Office", "quarantined", "A record that was not accepted, with its reasons", "/office/quarantine/1"),
    ("Office", "import", "Take in a file of unsent entries", "/office/import"),
    ("Units", "units", "Units", "/units"),
    ("Units", "unit", "A unit with its records", "/units/{analyser_feed}"),
    ("Units", "label", "The label to print", "/units/{analyser_feed}/label"),
    ("Units", "sites", "Sites", "/units/sites"),
    ("Units", "instruments", "Instruments", "/units/instruments"),
    ("Account", "account", "My account", "/account"),
    ("Account", "account-password", "A new password", "/account/password"),
    ("Account", "account-devices", "My phones and browsers", "/account/devices"),
    ("Account", "account-device", "One of my phones", "/account/devices/{device}"),
    ("Account", "account-passkeys", "My passkeys", "/account/passkeys"),
    ("Account", "account-sessions", "Where I am signed in", "/account/sessions"),
    ("Account", "prepare", "Prepare this phone or browser", "/phone"),
    ("Everybody", "forbidden", "A page that is not this person's", "/people"),
]
ADMINISTRATOR = [
    ("Units", "unit-new", "A new unit", "/units/new"),
    ("Units", "unit-change", "A unit's data plate", "/units/{analyser_feed}/change"),
    ("Units", "site-change", "A site", "/units/sites/{site}/change"),
    ("Units", "instrument-change", "An instrument", "/units/instruments/{instrument}/change"),
    ("Administration", "people", "People", "/people"),
    ("Administration", "person", "A person", "/people/{installer}"),
    ("Administration", "person-new", "A new person", "/people/new"),
    ("Administration", "devices", "All phones and browsers", "/devices"),
    ("Administration", "trail", "The audit trail", "/trail"),
]
WRONG_PASSWORDS = 12


def photograph(camera: Camera, stage: Stage, person: Person) -> None:
    pages(camera, person, STRANGER)
    refusals(camera, stage, person)
    person.sign_in("ines")
    pages(camera, person, SUPERVISOR)
    certificate(camera, stage, person)
    decision(camera, stage, person)
    person.sign_in("odile")
    pages(camera, person, ADMINISTRATOR)


def pages(camera: Camera, person: Person, screens: list[tuple[str, str, str, str]]) -> None:
    for group, name, caption, place in screens:
        if camera.wants(name):
            mark = "&" if "?" in place else "?"
            camera.take(group, name, caption, person.open(f"{place}{mark}lang={person.language}"))


def refusals(camera: Camera, stage: Stage, person: Person) -> None:
    """What is told to somebody who types a wrong password, and to who types wrong ones all the time."""
    if not camera.wants("sign-in-refused") and not camera.wants("too-many"):
        return
    page = person.open(f"/sign-in?lang={person.language}")
    for attempt in range(WRONG_PASSWORDS):
        page.locator("[name=login]").fill("nobody")
        page.locator("[name=password]").fill("guessed")
        with page.expect_navigation():
            page.locator("main form button").first.click()
        if attempt == 0:
            camera.take("Everybody", "sign-in-refused", "A wrong password", page)
        if not page.locator("[name=login]").count():
            break
    camera.take("Everybody", "too-many", "Too many wrong passwords", page)


def decision(camera: Camera, stage: Stage, person: Person) -> None:
    """The supervisor returns a record: what is missing, then the form filled in."""
    if not camera.wants("decide"):
        return
    page = person.open(f"/office/records/{{waiting}}?lang={person.language}")
    page.locator("input[name=decision][value=returned]").check()
    page.locator("textarea[name=reasons]").fill(
        "Please measure the loop impedance again, with the leads nulled."
    )
    page.locator("input[name=decision][value=returned]").scroll_into_view_if_needed()
    camera.take("Office", "decide", "A record is returned with a reason", page)


def certificate(camera: Camera, stage: Stage, person: Person) -> None:
    """The first page of the certificate, as paper: there is no dark one."""
    if not camera.wants("certificate"):
        return
    answer = person.context.request.get(
        stage.address(f"/office/records/{{accepted}}/certificate.pdf?lang={person.language}")
    )
    with tempfile.TemporaryDirectory() as folder:
        paper = Path(folder, "certificate.pdf")
        paper.write_bytes(answer.body())
        renderer = shutil.which("pdftoppm") or "pdftoppm"
        command = [
            renderer,
            "-png",
            "-r",
            "60",
            "-f",
            "1",
            "-l",
            "1",
            "-singlefile",
            paper,
            paper.with_suffix(""),
        ]
        subprocess.run(command, check=True)  # noqa: S603 - our own file
        camera.keep(paper.with_suffix(".png").read_bytes(), f"{camera.named('certificate')}-light")
    camera.note("Office", "certificate", "The certificate, first page")
