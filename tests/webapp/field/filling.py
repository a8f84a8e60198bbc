"""Entries as an installer makes them, and what the phone has stored of them."""

EVENTS_OF = """async ([visit, field]) => {
  const { eventsOf } = await import("/static/record/events.js");
  return (await eventsOf(visit)).filter((event) => event.field === field);
}"""


def events(page, visit, field):
    return page.evaluate(EVENTS_OF, [visit, field])


def values(page, visit, field):
    """What was stored, without what was typed on the way."""
    return [event["content"] and event["content"].get("typed") for event in events(page, visit, field)]


def until_stored(page, visit, field, typed):
    """Storing takes true time, which a page's own clock does not show."""
    for _ in range(200):
        if values(page, visit, field) == typed:
            return
        page.wait_for_timeout(50)
    assert values(page, visit, field) == typed


def fill_earthing(installer, continuity="0,17"):
    installer.open_step("Protective earth")
    installer.fill("Length of the conductor, one way", "12")
    installer.fill("Cross-section", "1.5")
    installer.fill("Kind of conductor", "Flexible cord (class 5)")
    installer.fill("Test leads nulled", "Yes")
    installer.fill("Measured resistance", continuity, instrument="Continuity tester 4")


def fill_access(installer):
    """A step that needs no other one first."""
    installer.open_step("Keys and access levels")
    for label in (
        "Each level opens only what it should",
        "Delivered codes changed",
        "Final settings written down or saved",
    ):
        installer.fill(label, "Yes")
    installer.fill("Operator's level handed to", "Shift leader, pathology")
    installer.fill("Service level handed to", "stays with the service")
    installer.fill("Keys handed over", "2")
