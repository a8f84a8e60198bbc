"""The app in other engines: installed, used without a server, signed, and sent when the server is back."""

import io

import pytest
from PIL import Image

from tests.engines import firefox, webkit
from tests.engines.walk import walk
from tests.phone import Phone
from tests.static.cellar import LOGIN

pytestmark = [
    pytest.mark.browser,
    # Browsers hang up in the midst of files, and the driver leaves things to the garbage collector.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
    pytest.mark.filterwarnings("ignore:setting remote_server_addr:DeprecationWarning:selenium"),
]


@pytest.fixture
def visit(cellar):
    """A visit of the installer by the smallest procedure, begun before the phone is prepared."""
    store = cellar.store
    (unit,) = store.units.all()
    return Phone(store, store.people.by_login(LOGIN), "desk").start(unit).id


@pytest.fixture
def picture(tmp_path):
    """As a camera gives it: turned on its side, with the place where it was taken."""
    path = tmp_path / "valve.jpg"
    exif = Image.Exif()
    exif[0x0112] = 6
    exif[0x010F] = "Camera of nobody"
    Image.effect_mandelbrot((640, 480), (-2, -1.2, 1, 1.2), 60).save(path, exif=exif)
    return str(path)


def is_whole_on_the_server(store, visit):
    (record,) = store.records.of_visit(visit)
    assert record.content()["judgement"]["record"]["state"] == "complete"
    contents = {one["field"]: one["content"] for one in record.content()["events"]}
    assert contents["test.pressure"]["typed"] == "6,5"
    assert contents["test.pressure"]["value"] == 6.5
    kept = Image.open(io.BytesIO(store.photos.read_bytes(contents["test.picture"]["sha256"])))
    assert (kept.format, kept.size, dict(kept.getexif())) == ("JPEG", (480, 640), {})


@pytest.mark.parametrize("engine", [webkit, firefox], ids=["webkit", "firefox"])
def test_a_visit_without_a_server(engine, cellar, visit, picture):
    if reason := engine.missing():
        pytest.skip(reason)
    with engine.started() as started:
        print(walk(started, cellar, visit, picture))
    is_whole_on_the_server(cellar.store, visit)
