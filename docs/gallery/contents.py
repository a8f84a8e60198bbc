"""The page that shows the pictures, in groups, light beside dark."""

import json
from pathlib import Path

from docs.gallery.camera import SCHEMES

WIDTH = 240
GROUPS = (
    *("Everybody", "Phone", "A visit", "Steps of the commissioning", "Moments of a step"),
    *("Out of the ordinary", "Calculator", "Office", "Units", "Account", "Administration"),
)
HEAD = """# Gallery

Screens of the demonstration on a phone of 390 by 844 pixels, light and dark, on a day that stands still.
This page and its pictures are made, never edited: `.venv/bin/python -m docs.gallery.make` takes them again.
"""

Taken = list[tuple[str, str, str]]


def write(page: Path, pictures: Path, taken: Taken) -> None:
    """``taken`` are (group, name, caption); what earlier runs took and is still there stays on the page."""
    listing = pictures / "captions.json"
    known = json.loads(listing.read_text(encoding="utf-8")) if listing.exists() else []
    by_name = {name: [group, name, caption] for group, name, caption in [*known, *taken]}
    shown = [one for one in by_name.values() if list(pictures.glob(f"{one[1]}-{SCHEMES[0]}.webp"))]
    shown.sort(key=lambda one: (one[1].endswith("-de"), GROUPS.index(one[0])))
    listing.write_text(json.dumps(shown, indent=0, ensure_ascii=False) + "\n", encoding="utf-8")
    parts, heading = [HEAD], ""
    for group, name, caption in shown:
        title = f"{group} (German)" if name.endswith("-de") else group
        if title != heading:
            parts.append(f"## {title}\n")
        heading = title
        parts.append(row(pictures, name, caption))
    page.write_text("\n".join(parts), encoding="utf-8")


def row(pictures: Path, name: str, caption: str) -> str:
    there = [scheme for scheme in SCHEMES if (pictures / f"{name}-{scheme}.webp").exists()]
    shown = [
        f'<img src="{pictures.name}/{name}-{scheme}.webp" width="{WIDTH}" alt="{caption}, {scheme}">'
        for scheme in there
    ]
    return f"{caption}\n\n{' '.join(shown)}\n"
