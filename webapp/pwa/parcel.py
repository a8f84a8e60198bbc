"""Many kept files in one answer.

Two hundred requests cost a weak signal more time than their bytes do, and the pages of the procedures differ
so little that together they shrink to a quarter. A parcel is only the way they travel: the phone stores each
file under its own address, with the headers that it has alone, after checking its bytes (``static/sw.js``).
"""

import gzip
import json
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Any

import brotli
from werkzeug.wrappers import Response

# Those that belong to one connection or one answer, or that a kept copy does not need.
NOT_KEPT_HEADERS = {"content-length", "date", "connection", "set-cookie", "vary", "content-disposition"}


def parcel_of(url: str, mimetype: str | None) -> str:
    """The name of the parcel that brings a file, "" where it comes alone: pictures are small already."""
    if url.startswith("/static/"):
        return "" if (mimetype or "").startswith("image/") else "files"
    return "pages" if mimetype == "text/html" else "documents"


SMALL = 2_000_000  # bytes


@lru_cache(maxsize=8)
def compressed(plain: bytes) -> bytes:
    """Quality 10 saves a twentieth of 9 for two seconds, once; 11 a little more where it is quick."""
    return brotli.compress(plain, mode=brotli.MODE_TEXT, quality=11 if len(plain) < SMALL else 10, lgwin=24)


@dataclass(frozen=True)
class Parcel:
    """``files`` are by address; the compressed forms are made once, as every phone gets the same."""

    files: dict[str, dict[str, Any]] = field(default_factory=dict)

    def add(self, url: str, response: Response) -> None:
        headers = {name: value for name, value in response.headers if name.lower() not in NOT_KEPT_HEADERS}
        self.files[url] = {"headers": headers, "text": response.get_data(as_text=True)}

    @cached_property
    def plain(self) -> bytes:
        return json.dumps({"files": self.files}, ensure_ascii=False, separators=(",", ":")).encode()

    @cached_property
    def brotli(self) -> bytes:
        return compressed(self.plain)

    @cached_property
    def gzip(self) -> bytes:
        return gzip.compress(self.plain, compresslevel=9, mtime=0)

    def encoded(self, accepted: Any) -> tuple[bytes, str | None]:
        """The bytes and the content coding for what a request accepts."""
        if "br" in accepted:
            return self.brotli, "br"
        return (self.gzip, "gzip") if "gzip" in accepted else (self.plain, None)
