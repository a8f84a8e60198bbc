"""A browser that is not Chromium, used as a person uses it: open, type, press, read.

Both drivers answer to the same names for elements and scripts; what differs is in `webkit` and `firefox`.
Neither offers waiting for what a page shows, so it is here.
"""

import time
from contextlib import contextmanager

PATIENCE = 30  # seconds, for a machine that runs other tests at the same time
PLACE = """const element = document.querySelector(arguments[0]);
element?.scrollIntoView({ block: "center" });
return element && !element.disabled ? JSON.stringify(element.getBoundingClientRect()) : null;"""
TEXT = "return (document.body?.innerText ?? '').replaceAll('\\u00a0', ' ')"


class Engine:
    """One browser with a storage of its own; ``not_yet`` are the errors for an element that is not ready."""

    def __init__(self, driver, navigate, not_yet):
        self.driver = driver
        self.navigate = navigate
        self.not_yet = not_yet
        self.seconds = {}

    def open(self, address):
        self.navigate(address)

    def script(self, body):
        return self.driver.execute_script(body)

    @property
    def text(self):
        return self.script(TEXT)

    def until(self, look, wanted, patience=PATIENCE):
        """What ``look`` gives as soon as it is true; the page's text is told when it never is."""
        limit = time.monotonic() + patience
        while True:
            try:
                if found := look():
                    return found
            except self.not_yet:
                pass
            assert time.monotonic() < limit, f"{wanted} did not come; the page says:\n{self.text}"
            time.sleep(0.05)

    def shows(self, text, patience=PATIENCE):
        self.until(lambda: text in self.text, repr(text), patience)

    def element(self, css):
        return self.until(lambda: self.driver.find_element("css selector", css), css)

    def type(self, css, text):
        self.until(lambda: self.element(css).send_keys(text) or True, f"typing into {css}")

    def press(self, css, effect=None):
        """Press it; again while there is no ``effect``, because what moves under a finger is missed."""
        self.until(lambda: self.is_at_rest(css), f"{css} at rest")
        self.until(lambda: self.element(css).click() or True, f"pressing {css}")
        if effect:
            self.until(lambda: effect() or self.element(css).click(), f"the effect of pressing {css}")

    def is_at_rest(self, css):
        """In the middle of the screen, not disabled, and still in the same place a moment later."""
        before = self.driver.execute_script(PLACE, css)
        time.sleep(0.1)
        return before is not None and before == self.driver.execute_script(PLACE, css)

    def value(self, css):
        return self.script(f"return document.querySelector({css!r})?.value ?? null")

    @contextmanager
    def measured(self, part):
        began = time.monotonic()
        yield
        self.seconds[part] = round(time.monotonic() - began, 1)
