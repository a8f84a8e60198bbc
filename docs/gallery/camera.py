"""Takes each screen twice, light and dark, as a small picture, and knows which group it belongs to."""

import io
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from PIL import Image
from playwright.sync_api import Error as PlaywrightError
from playwright.sync_api import Page

SCHEMES = ("light", "dark")
QUALITY = 40
SMALLEST_QUALITY = 20
LARGEST_PICTURE = 24_000
"""Bytes; a picture that is larger is pressed harder."""
README_COLOURS = 64
IN_GERMAN = {
    *("sign-in", "label-accepted", "not-found", "formulas", "formula", "queue", "record", "decide"),
    *("quarantined", "records", "units", "unit", "unit-change", "label", "instruments", "account"),
    *("prepare", "trail", "certificate", "home", "visit", "kit", "plate", "review-incomplete", "review"),
    *("review-signature", "review-signed", "waiting", "step-survey", "step-isolation", "step-flush"),
    *("step-quality", "moment-pass", "moment-working", "moment-fail", "moment-instrument"),
    *(
        "moment-missing",
        "moment-reason",
        "moment-conditional",
        "moment-no-setting",
        "moment-undone",
        "moment-undone-list",
    ),
    *("moment-undone-review", "moment-defect", "situation-unsent", "situation-update"),
    *("situation-conflict-attention", "situation-alone-attention", "situation-revoked"),
}
"""What is shown in German, too."""


@dataclass
class Camera:
    """Writes ``NAME-SCHEME.webp`` into the folder; ``whole`` takes whole pages, to look closely."""

    folder: Path
    language: str
    wanted: str = ""
    whole: bool = False
    readme: Path | None = None
    taken: list[tuple[str, str, str]] = field(default_factory=list)
    missed: list[str] = field(default_factory=list)

    def wants(self, name: str) -> bool:
        """Whether this picture was asked for; of the pages in German a part stands for the rest."""
        shown = self.whole or self.language == "en" or name in IN_GERMAN
        return shown and self.wanted in self.named(name)

    def wants_some(self, beginning: str) -> bool:
        """Whether pictures whose names begin so may have been asked for."""
        return self.wanted.startswith(beginning) or not self.wanted

    def attempt(self, scene: Callable[..., None], *about: object) -> None:
        """Play a scene; one that does not come about is told at the end, and the others are still taken."""
        try:
            scene(*about)
        except (AssertionError, PlaywrightError) as error:
            self.missed.append(f"{scene.__name__} ({self.language}): {str(error).splitlines()[0]}")

    def named(self, name: str) -> str:
        return name if self.language == "en" else f"{name}-{self.language}"

    def take(self, group: str, name: str, caption: str, page: Page) -> None:
        """The screen as it is now."""
        if not self.wants(name):
            return
        for scheme in SCHEMES:
            page.emulate_media(color_scheme=scheme)
            shot = page.screenshot(full_page=self.whole, scale="css", animations="disabled", caret="hide")
            self.keep(shot, f"{self.named(name)}-{scheme}")
        self.note(group, name, caption)

    def note(self, group: str, name: str, caption: str) -> None:
        self.taken.append((group, self.named(name), caption))

    def keep_for_readme(self, page: Page) -> None:
        """One picture more, at the phone's own resolution."""
        if self.readme and self.language == "en":
            page.emulate_media(color_scheme="light")
            shot = Image.open(io.BytesIO(page.screenshot(animations="disabled", caret="hide")))
            shot.convert("RGB").quantize(README_COLOURS).save(self.readme, optimize=True)

    def keep(self, shot: bytes, name: str) -> None:
        picture = Image.open(io.BytesIO(shot)).convert("RGB")
        if self.whole:
            picture.save(self.folder / f"{name}.png")
            return
        for quality in range(QUALITY, SMALLEST_QUALITY, -8):
            pressed = io.BytesIO()
            picture.save(pressed, "WEBP", quality=quality, method=6)
            if pressed.tell() <= LARGEST_PICTURE:
                break
        (self.folder / f"{name}.webp").write_bytes(pressed.getvalue())
