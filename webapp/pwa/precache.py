"""Which files a phone keeps, each with the hash of its bytes, and the build that they make together.

Every part of the application that has pages for work without signal appends a callable to
``app.extensions["precache_urls"]``; it gives the addresses of these pages.
"""

import hashlib
from base64 import b64encode
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from threading import Lock

from flask import Flask
from werkzeug.wrappers import Response

from webapp.language import ENGLISH, LANGUAGES, PARAMETER
from webapp.pwa.parcel import Parcel, parcel_of

NAME = "precache"
WORKER = "sw.js"
BUILD_SCRIPT = "/build.js"
PARCEL = "/parcels/{}"
MAKING = Lock()
NOT_ON_THE_PHONE = {WORKER, "LICENSE", "package.json", ".DS_Store", "icon-512.png", "icon-maskable-512.png"}
"""The large icons are asked for by the system that installs the app, which keeps them itself."""

OPTIONAL = ("vendor/zxing-wasm/index.js", "vendor/zxing-wasm/zxing_reader.wasm")
"""What reads codes where the browser cannot: a megabyte, for which no installation waits."""


class KeptPageError(RuntimeError):
    """A page that phones should keep does not answer 200 to somebody who is not signed in."""

    code = "page_not_kept"

    def __init__(self, url: str, status: int) -> None:
        self.url = url
        self.status = status
        super().__init__(
            f"{url} answers {status} instead of 200 to somebody who is not signed in, "
            "so phones cannot keep it. Mend the page, or take it out of precache_urls."
        )


@dataclass(frozen=True)
class Precache:
    """``build`` names the release and its content; ``files`` are (address, integrity, parcel) in order.

    ``optional`` are (address, integrity) of what a phone keeps beside them, once it was fetched.
    """

    build: str
    files: tuple[tuple[str, str, str], ...]
    optional: tuple[tuple[str, str], ...]
    parcels: dict[str, Parcel] = field(compare=False)


def of(app: Flask, language: str = ENGLISH) -> Precache:
    """The kept files in a language; made at the first call, then the same as long as the process lives."""
    with MAKING:
        made = app.extensions.setdefault(NAME, {})
        if language not in made:
            made[language] = make(app, language)
        return made[language]


def make(app: Flask, language: str) -> Precache:
    files, parcels = [], defaultdict[str, Parcel](Parcel)
    for url, response in answers(app, language):
        parcel = parcel_of(url, response.mimetype)
        files.append((url, integrity(response.data), PARCEL.format(parcel) if parcel else ""))
        if parcel:
            parcels[parcel].add(url, response)
    optional = tuple(optional_files(app))
    # The worker counts too: two workers of one build would share a cache.
    everything = [*(one[:2] for one in files), *optional, (WORKER, integrity(worker_body(app)))]
    listing = "".join(f"{url} {value}\n" for url, value in everything)
    build = f"{release()}-{hashlib.sha256(listing.encode()).hexdigest()[:10]}"
    # The script that names the build is kept too, but cannot be part of what the name is made from.
    kept = (*files, (BUILD_SCRIPT, integrity(build_script(build)), ""))
    return Precache(build, kept, optional, dict(parcels))


def optional_files(app: Flask) -> Iterator[tuple[str, str]]:
    for name in OPTIONAL:
        yield f"{app.static_url_path}/{name}", integrity(Path(str(app.static_folder), name).read_bytes())


def answers(app: Flask, language: str) -> Iterator[tuple[str, Response]]:
    """Address and answer of everything that is kept, as anybody gets it who is not signed in.

    The language is asked for in the query, and is no part of the address under which a page is kept.
    """
    client = app.test_client(use_cookies=False)
    for url in addresses(app, language):
        asked = url if url.startswith(f"{app.static_url_path}/") else url + query_of(language)
        with client.get(asked) as response:
            if response.status_code != 200:
                raise KeptPageError(url, response.status_code)
            yield url, response


def query_of(language: str) -> str:
    """What asks for a page in a language; nothing for English, so that its addresses stay as they were."""
    return "" if language == ENGLISH else f"?{PARAMETER}={language}"


def addresses(app: Flask, language: str) -> Iterator[str]:
    static = Path(str(app.static_folder))
    for path in sorted(static.rglob("*")):
        name = path.relative_to(static).as_posix()
        if is_kept(path) and name not in OPTIONAL and is_said(static, name, language):
            yield f"{app.static_url_path}/{name}"
    # What is kept may depend on what the store holds.
    with app.app_context():
        for give_urls in app.extensions["precache_urls"]:
            yield from list(give_urls())


def is_kept(path: Path) -> bool:
    return path.is_file() and path.name not in NOT_ON_THE_PHONE and not path.name.endswith(".d.ts")


def is_said(static: Path, name: str, language: str) -> bool:
    """Whether a phone of this language needs a file: not the words of another one."""
    stem, _, ending = name.rpartition(".")
    own = stem.rpartition(".")[2]
    if own in LANGUAGES:
        return own == language
    return ending != "json" or language == ENGLISH or not Path(static, f"{stem}.{language}.json").exists()


def worker_body(app: Flask) -> bytes:
    """The worker as it lies in the static folder, before its constants are written."""
    return Path(str(app.static_folder), WORKER).read_bytes()


def integrity(content: bytes) -> str:
    """In the form of Subresource Integrity, which the browser checks while it fetches."""
    return "sha256-" + b64encode(hashlib.sha256(content).digest()).decode()


def build_script(build: str) -> bytes:
    return f'export const BUILD = "{build}";\n'.encode()


def release() -> str:
    try:
        return version("firstwater")
    except PackageNotFoundError:
        return "0"
