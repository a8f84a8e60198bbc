"""Takes the pictures of the gallery: python -m docs.gallery.make

``--to FOLDER --whole --width 320`` takes whole pages into another folder instead, to look at them closely.
"""

import argparse
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from docs.gallery import contents, field, office
from docs.gallery.camera import Camera
from docs.gallery.stage import Person, Stage
from tests.browser import launch

HERE = Path(__file__).parent
PICTURES = HERE / "pictures"
HEIGHT = 844


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--to", type=Path, default=PICTURES)
    parser.add_argument("--only", default="", help="part of the names that are taken")
    parser.add_argument("--parts", default="office,field")
    parser.add_argument("--language", choices=("en", "de"), action="append")
    parser.add_argument("--width", type=int, default=390)
    parser.add_argument("--whole", action="store_true")
    wanted = parser.parse_args()
    wanted.to.mkdir(parents=True, exist_ok=True)
    screen = {"viewport": {"width": wanted.width, "height": HEIGHT}, "is_mobile": True, "has_touch": True}
    screen["device_scale_factor"] = 2  # for the picture of README.md
    readme = HERE.parent / "screenshots" / "step.png" if wanted.to == PICTURES else None
    parts = {"office": office, "field": field}
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = launch(playwright)
        stage = Stage(Path(folder))
        taken: list[tuple[str, str, str]] = []
        for language in wanted.language or ("en", "de"):
            camera = Camera(wanted.to, language, wanted.only, wanted.whole, readme)
            for part in wanted.parts.split(","):
                person = Person(stage, browser, language, screen)
                parts[part].photograph(camera, stage, person)
                person.close()
            print(language, len(camera.taken), "screens", *camera.missed, sep="\n")
            taken += camera.taken
        browser.close()
        stage.close()
    if wanted.to == PICTURES:
        contents.write(HERE / "index.md", PICTURES, taken)


if __name__ == "__main__":
    main()
