"""The label's symbol is read back by an independent reader (zxing-cpp), from both forms."""

import io
import json

import pytest
import zxingcpp
from PIL import Image

from webapp.units import label

TOKEN = "0123456789ABCDEFGHJKMNPQRS"


def make_label(base_url="https://records.example", **changes):
    values = {"name": "Ward block unit", "serial": "W-17", "short_code": "7K2M9QXP"}
    return label.Label(**{**values, **changes}, link=label.link_for(base_url, TOKEN))


def read(image):
    found = zxingcpp.read_barcodes(image)
    assert len(found) == 1
    return found[0]


def dark_box(image):
    dark = image.convert("L").point(lambda value: 255 if value < 128 else 0)
    return dark.crop((0, 0, image.height, image.height)).getbbox()


@pytest.mark.parametrize(
    "base_url", ["https://records.example", "http://127.0.0.1:8043", "https://a.example/water"]
)
def test_the_png_is_read_as_the_link_with_error_correction_q(base_url):
    one = make_label(base_url)
    symbol = read(Image.open(io.BytesIO(label.png(one))))
    assert symbol.text == one.link
    assert symbol.ec_level == "Q"


@pytest.mark.browser
def test_the_svg_drawn_by_a_browser_is_read_as_the_link(chromium, tmp_path):
    one = make_label()
    (tmp_path / "label.svg").write_bytes(label.svg(one))
    page = chromium.new_page(viewport={"width": 400, "height": 200})
    page.goto((tmp_path / "label.svg").as_uri())
    shot = page.screenshot()
    page.close()
    assert read(Image.open(io.BytesIO(shot))).text == one.link


def test_capitals_are_used_where_scheme_and_host_do_not_tell_them_apart():
    assert label.link_for("https://records.example/", TOKEN) == f"HTTPS://RECORDS.EXAMPLE/U/{TOKEN}"


def test_a_base_address_with_a_path_keeps_its_letters():
    assert label.link_for("https://a.example/Water", TOKEN) == f"https://a.example/Water/u/{TOKEN}"


def test_capitals_save_a_version():
    small, large = label.symbol(f"https://records.example/u/{TOKEN}"), label.symbol(make_label().link)
    assert len(large) < len(small)


@pytest.mark.parametrize(
    "base_url", ["https://w.example", "https://commissioning.records.county.example/water"]
)
def test_modules_are_whole_dots_of_at_least_three_quarters_of_a_millimetre_in_a_quiet_zone_of_four(base_url):
    """ISO/IEC 18004 asks for four light modules on each side."""
    one = make_label(base_url)
    modules = len(label.symbol(one.link))
    image = Image.open(io.BytesIO(label.png(one)))
    left, top, right, bottom = dark_box(image.crop((0, 0, image.height, image.height)))
    dots = (right - left) / modules
    assert dots == (bottom - top) / modules == int(dots)
    assert dots / 300 * 25.4 >= 0.75
    assert left == top == 4 * dots
    assert image.height == (modules + 8) * dots
    assert image.height / 300 * 25.4 >= 30


def test_short_code_and_host_are_set_smaller_rather_than_cut():
    """The right margin stays free of ink, however long the host is."""
    one = make_label("https://a-very-long-name-of-a-department.records.county-services.example")
    image = Image.open(io.BytesIO(label.png(one))).convert("L")
    margin = image.crop((image.width - 20, 0, image.width, image.height))
    assert margin.getextrema() == (255, 255)


def test_text_of_any_kind_is_drawn_and_never_read_as_markup():
    nasty = make_label(name='#panic("x") $ \\ "quoted" 😀 שלום', serial="<script>&")
    assert label.svg(nasty).startswith(b"<svg")
    assert b"<script" not in label.svg(nasty)
    assert read(Image.open(io.BytesIO(label.png(nasty)))).text == nasty.link


def test_the_runs_of_a_row_are_its_dark_modules():
    assert json.dumps(list(label._runs([True, True, False, True]))) == "[[0, 2], [3, 4]]"
