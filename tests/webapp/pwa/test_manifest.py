"""The web app manifest can be installed, and its icons are what it says."""

from pathlib import Path

import pytest
from PIL import Image

from webapp.pwa.routes import MANIFEST

ROOT = Path(__file__).parents[3]
PICTURES = [icon for icon in MANIFEST["icons"] if icon["type"] == "image/png"]
WATER = (10, 85, 102)


def picture(src):
    with Image.open(ROOT / src.lstrip("/")) as image:
        image.load()
        return image


def test_what_an_installation_needs_is_there():
    """Web App Manifest (W3C): name, start address within the scope, display, icons of 192 and 512 pixels."""
    assert MANIFEST["name"]
    assert MANIFEST["start_url"].startswith(MANIFEST["scope"])
    assert MANIFEST["display"] == "standalone"
    assert MANIFEST["id"] == "/field"
    assert {"192x192", "512x512"} <= {icon["sizes"] for icon in PICTURES}
    assert any(icon.get("purpose") == "maskable" for icon in PICTURES)


@pytest.mark.parametrize("icon", PICTURES, ids=lambda icon: icon["src"])
def test_an_icon_has_the_size_it_claims(icon):
    assert "x".join(map(str, picture(icon["src"]).size)) == icon["sizes"]


def test_the_maskable_icon_survives_the_smallest_mask():
    """Everything drawn lies in the safe zone, a circle of 40 % of the size around the centre (W3C, Web App
    Manifest, icon masks), and the ground fills the whole square."""
    image = picture("/static/icons/icon-maskable-512.png").convert("RGB")
    centre, radius = image.width / 2, 0.4 * image.width
    for x in range(0, image.width, 2):
        for y in range(0, image.height, 2):
            if (x - centre) ** 2 + (y - centre) ** 2 > radius**2:
                assert image.getpixel((x, y)) == WATER


def test_the_home_screen_icon_of_ios_is_opaque():
    image = picture("/static/icons/apple-touch-180.png")
    assert image.size == (180, 180)
    assert image.mode == "RGB"
