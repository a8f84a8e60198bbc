"""One visit by the smallest procedure, from the sign-in to the record on the server, no server in between."""

from tests.static.cellar import LOGIN, PASSWORD

STEP = "/field/trial-1/test"
SIGNATURE = "[data-part=signature]:not([hidden])"
PICTURE = "return (document.querySelector('figure img')?.naturalWidth ?? 0) > 0"


def prepare(engine, server):
    engine.open(f"{server.url}/sign-in")
    engine.type("[name=login]", LOGIN)
    engine.type("[name=password]", PASSWORD)
    engine.press("form button")
    engine.until(lambda: "Sign in" not in engine.script("return document.title"), "the session")
    engine.open(f"{server.url}/phone")
    engine.element("[data-module=prepare-phone] [role=status]")
    engine.type("[name=name]", "test phone")
    engine.type("[name=password]", PASSWORD)
    engine.press("[data-module=prepare-phone] button.button")
    engine.shows("This phone is ready for offline work.", 60)


def fill(engine, address, picture):
    """Everything of the step, without signal."""
    engine.open(address)
    engine.element("[data-part=state] .tag")
    engine.type("[data-entry='test.pressure'] input", "6,5")
    engine.shows("Read as 6.5 bar")  # which moves what is below it
    engine.press("[data-entry='test.tight'] label.choice")
    engine.element("[data-entry='test.picture'] input[type=file]").send_keys(picture)
    engine.until(lambda: engine.script(PICTURE), "the picture")
    engine.shows("3 entries, 1 photo only here")
    engine.shows("No server in reach")


def is_still_there(engine, address):
    engine.open(address)
    engine.until(lambda: engine.value("[data-entry='test.pressure'] input") == "6,5", "the reading")
    engine.until(lambda: engine.script(PICTURE), "the picture")


def sign(engine, server, visit):
    engine.press("[data-part=done]", effect=lambda: "Done" in engine.text)
    engine.open(f"{server.url}/field/trial-1/review?visit={visit}")
    engine.type(f"{SIGNATURE} [name=password]", PASSWORD)
    engine.press(f"{SIGNATURE} [data-part=sign]")
    engine.shows("Signed and stored on this phone.")


def walk(engine, server, visit, picture):
    """Walk it; gives the times of its parts in seconds."""
    address = f"{server.url}{STEP}?visit={visit}"
    with engine.measured("prepare"):
        prepare(engine, server)
    server.stop()
    with engine.measured("fill"):
        fill(engine, address, picture)
    with engine.measured("reload"):
        is_still_there(engine, address)
    with engine.measured("sign"):
        sign(engine, server, visit)
    server.start()
    with engine.measured("send"):
        engine.press("[data-module=saved-status] button")
        engine.shows("Signed, and received by the server.")
    return engine.seconds
