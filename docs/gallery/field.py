"""The screens of the phone, from the empty one to the signed record."""

from checks import procedure as procedures
from docs.gallery import moments, situations
from docs.gallery.camera import Camera
from docs.gallery.stage import Person, Stage
from webapp.demo.seed import key_of

START, VISIT, STEP = "Phone", "A visit", "Steps of the commissioning"


def slug(name: str) -> str:
    procedure = procedures.load(name)
    return f"{procedure['id']}-{procedure['version']}"


def photograph(camera: Camera, stage: Stage, phone: Person) -> None:
    phone.sign_in("tamsin")
    start(camera, phone)
    phone.prepare("tamsin")
    in_work = key_of("visit", "commissioning_in_work")
    overview(camera, phone, in_work)
    for step in procedures.load("commissioning")["steps"]:
        camera.attempt(one_step, camera, phone, step, in_work)
    camera.attempt(signature, camera, stage, phone)
    moments.photograph(camera, stage, phone, slug("commissioning"), in_work)
    situations.photograph(camera, stage, phone, slug("commissioning"), in_work)


def start(camera: Camera, phone: Person) -> None:
    if camera.wants("phone-not-prepared"):
        camera.take(
            START,
            "phone-not-prepared",
            "Signed in, the phone not prepared yet",
            phone.open(f"/field?lang={phone.language}"),
        )
    if camera.wants("phone-prepare"):
        camera.take(START, "phone-prepare", "Prepare this phone", phone.open(f"/phone?lang={phone.language}"))


def one_step(camera: Camera, phone: Person, step: dict, visit: str) -> None:
    name = f"step-{step['id'].replace('_', '-')}"
    if camera.wants(name):
        page = phone.open(f"/field/{slug('commissioning')}/{step['id']}?visit={visit}")
        camera.take(STEP, name, step["title"], page)


def signature(camera: Camera, stage: Stage, phone: Person) -> None:
    """A whole record, from the review to the signature."""
    if not camera.wants_some("review"):
        return
    visit = stage.full_visits[phone.language]
    page = phone.open(f"/field/{slug('service')}/review?visit={visit}")
    camera.take(VISIT, "review", "The review of a visit that is complete", page)
    phone.look_at("[data-part=signature]")
    camera.take(VISIT, "review-signature", "The signature", page)
    page.locator("[data-part=signature] [name=password]").fill(stage.passwords["tamsin"])
    page.locator("[data-part=sign]").click()
    page.locator("[data-part=after] h2").wait_for()
    page.wait_for_timeout(1_500)
    phone.look_at("[data-part=after]")
    camera.take(VISIT, "review-signed", "Signed", page)


def overview(camera: Camera, phone: Person, visit: str) -> None:
    commissioning = slug("commissioning")
    for name, caption, place in (
        ("home", "My visits", "/field"),
        ("home-search", "Start a visit: a unit is found", "/field?unit=wash"),
        ("visit", "A visit in work", f"/field/visit?visit={visit}"),
        ("kit", "My instruments", f"/field/kit?visit={visit}"),
        (
            "plate",
            "The data plate and the site, as the visit uses them",
            f"/field/{commissioning}/plate?visit={visit}",
        ),
        (
            "review-incomplete",
            "The review of a visit in work",
            f"/field/{commissioning}/review?visit={visit}",
        ),
        ("waiting", "Nothing waits on this phone", "/field/waiting"),
        ("offline", "A page that is not kept, without signal", "/field/offline"),
    ):
        if camera.wants(name):
            camera.take(START if "field?" in place + "?" else VISIT, name, caption, phone.open(place))
