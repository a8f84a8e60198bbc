"""A browser that is not Chromium, used as a person uses it: open, type, press, read.

Both drivers answer to the same names for elements and scripts; what differs is in `webkit` and `firefox`.
Neither offers waiting for what a page shows, so it is here.
"""

import time
from contextlib import contextmanager

PATIENCE = 30  # seconds, for a machine that runs other tests at the same time
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

    def press(self, css):
        self.until(lambda: self.element(css).click() or True, f"pressing {css}")

    def value(self, css):
        return self.script(f"return document.querySelector({css!r})?.value ?? null")

    @contextmanager
    def measured(self, part):
        began = time.monotonic()
        yield
        self.seconds[part] = round(time.monotonic() - began, 1)
