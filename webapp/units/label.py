"""The QR label of a unit: one drawing, as SVG for the screen and the printer, as PNG at 300 dpi."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from math import ceil
from pathlib import Path
from typing import Literal
from urllib.parse import urlsplit

import qrcode
import typst

from webapp.certificate.printable import fonts, printable_tree

DOTS_PER_INCH = 300
QUIET_ZONE = 4  # modules on each side, ISO/IEC 18004
LEAST_MODULE = 0.75  # mm: read by a phone at arm's length
LEAST_SIDE = 30  # mm, with the quiet zone
TEXT_WIDTH = 156  # pt; a whole number of dots at 300 dpi
LAYOUT = Path(__file__).with_name("label.typ")
ALPHANUMERIC = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")


@dataclass(frozen=True)
class Label:
    """What a label says. `link` is what the symbol holds."""

    name: str
    serial: str
    short_code: str
    link: str

    @property
    def host(self) -> str:
        return urlsplit(self.link).netloc.lower()


def link_for(base_url: str, token: str) -> str:
    """The link behind the label, in capitals where that means the same: such a symbol is smaller.

    Scheme and host do not tell small letters from capitals; the route answers to /U/ as to /u/.
    A base address with a path of its own is left as it is.
    """
    parts = urlsplit(base_url)
    if parts.path.strip("/"):
        return f"{base_url.rstrip('/')}/u/{token}"
    capitals = f"{parts.scheme}://{parts.netloc}/U/".upper() + token
    return capitals if set(capitals) <= ALPHANUMERIC else f"{base_url.rstrip('/')}/u/{token}"


def symbol(link: str) -> list[list[bool]]:
    """The modules, dark is true, without the quiet zone; error correction Q."""
    code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_Q, border=0)
    code.add_data(link, optimize=0)
    code.make(fit=True)
    return code.get_matrix()


def module_dots(modules: int) -> int:
    """Whole printer dots per module, so that module and side are large enough."""
    least = max(LEAST_MODULE, LEAST_SIDE / (modules + 2 * QUIET_ZONE))
    return ceil(least / 25.4 * DOTS_PER_INCH)


def svg(label: Label) -> bytes:
    """The label as SVG, its text as outlines: it prints alike everywhere."""
    return _draw(label, "svg")


def png(label: Label) -> bytes:
    """The label as PNG at 300 dpi, each module a whole number of dots."""
    return _draw(label, "png")


def _draw(label: Label, form: Literal["svg", "png"]) -> bytes:
    rows = symbol(label.link)
    text = {"name": label.name, "serial": label.serial, "short_code": label.short_code, "host": label.host}
    data = {
        **printable_tree(text),
        "rows": [list(_runs(row)) for row in rows],
        "quiet": QUIET_ZONE,
        "module": module_dots(len(rows)) * 72 / DOTS_PER_INCH,
        "text_width": TEXT_WIDTH,
    }
    drawn = typst.compile(
        LAYOUT,
        format=form,
        ppi=DOTS_PER_INCH,
        font_paths=fonts(),
        ignore_system_fonts=True,
        sys_inputs={"label": json.dumps(data)},
    )
    return drawn if isinstance(drawn, bytes) else drawn[0]


def _runs(row: list[bool]) -> Iterator[tuple[int, int]]:
    at = 0
    for dark, group in groupby(row):
        end = at + len(list(group))
        if dark:
            yield at, end
        at = end
