"""Codes on cartridges and labels: read from a photo, shown, and taken only when a person says so."""

import hashlib
import io
import json
import re

import pytest
import qrcode
import zxingcpp
from PIL import Image
from playwright.sync_api import expect

from tests.journeys.navigators import Installer
from tests.webapp.field.bench import set_unit
from tests.webapp.field.filling import events

pytestmark = [
    pytest.mark.browser,
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

GS1_READ = """async (codes) => {
  const { readGS1, elementsOf } = await import("/static/scanning/gs1.js");
  return codes.map(([text, isGS1]) => [readGS1(text, { isGS1 }), Object.fromEntries(elementsOf(text) ?? [])]);
}"""
DAYS = """async (days) => {
  const { dayOf } = await import("/static/scanning/gs1.js");
  return days.map(([digits, year]) => dayOf(digits, year));
}"""
COMPILE = """() =>
  WebAssembly.compile(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0])).then(() => "compiled", String)"""
LABEL_OF = """async (label) => {
  const { units } = await import("/static/record/work.js");
  const { transact } = await import("/static/record/database.js");
  const all = await units();
  all[1].label = label;
  await transact(["work"], "readwrite", (transaction) => transaction.objectStore("work").put(all, "units"));
}"""
CARTRIDGE = "(01)09521234543213(17)290131(10)LOT-7/A"


# Examples with a GTIN of GS1's own, as the documentation of Barcode Writer in Pure PostScript prints them
# ("GS1 Digital Link URIs"); the fifth from memory of the GS1 Digital Link Standard: URI Syntax; the last is
# ours, with a GTIN of 13 digits.
LINKS = {
    "https://id.gs1.org/01/09521234543213": {},
    "https://id.gs1.org/01/09521234543213/10/ABC123/21/12345": {"lot": "ABC123", "serial": "12345"},
    "https://id.gs1.org/01/09521234543213/10/ABC123?17=261231": {"lot": "ABC123", "expiry": "2026-12-31"},
    "https://example.com/products/01/09521234543213": {},
    "HTTPS://example.com/some/path/01/09506000134352/10/ABC/21/123456?17=180426": {
        "gtin": "09506000134352",
        "lot": "ABC",
        "serial": "123456",
        "expiry": "2018-04-26",
    },
    "https://example.com/01/9521234543213/10/A%2FB-1?linkType=all": {"lot": "A/B-1"},
}
NO_LINKS = [
    "https://records.example/u/ENDHNQ6TD7ZBHF6S5KDQPOLEIOMJYGLB",  # the label of a unit
    "https://id.gs1.org/01/09521234543214",  # wrong check digit
    "https://id.gs1.org/01/09521234543213/21/12345/10/ABC123",  # not in the order of the standard
    "https://id.gs1.org/01/09521234543213/10",
    "https://id.gs1.org/01/09521234543213/10/%E0%A4%A",
    "https://id.gs1.org/00/106141411234567897",  # a pallet
]
# The interface of the Barcode Detection API (WICG), which this engine lacks.
DETECTOR = """([formats, fault]) => {
  window.asked = [];
  window.BarcodeDetector = class {
    static async getSupportedFormats() {
      if (fault === "formats") throw new DOMException("no service", "NotSupportedError");
      return formats;
    }
    constructor(options) {
      asked.push(options.formats);
    }
    async detect(source) {
      asked.push(source.constructor.name);
      if (fault === "detect") throw new DOMException("no service", "NotSupportedError");
      const box = new DOMRectReadOnly(0, 0, 9, 9);
      return [{ rawValue: "OWN-1", format: "data_matrix", boundingBox: box, cornerPoints: [] }];
    }
  };
}"""
READ = """async (bytes) => {
  const { codesInPhoto, readsCodes } = await import("/static/parts/find-codes.js");
  const read = async () => (await codesInPhoto(new Blob([new Uint8Array(bytes)]))).map(({ text }) => text);
  return [await readsCodes(), await read(), await read(), window.asked];
}"""
WANTED = ["qr_code", "data_matrix", "code_128", "code_39", "ean_13"]


def photo_of(image: Image.Image) -> dict:
    """What the camera gives: the code on a larger grey sheet, as JPEG."""
    sheet = Image.new("RGB", (900, 700), (190, 190, 185))
    sheet.paste(image.convert("RGB").resize((340, 340), Image.Resampling.NEAREST), (260, 170))
    file = io.BytesIO()
    sheet.save(file, "JPEG", quality=80)
    return {"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": file.getvalue()}


def data_matrix(readable: str) -> Image.Image:
    options = {"gs1": True} if readable.startswith("(") else {}
    code = zxingcpp.create_barcode(readable, zxingcpp.BarcodeFormat.DataMatrix, **options)
    return Image.fromarray(zxingcpp.write_barcode_to_image(code, scale=8))


def scan(page, button: str, file: dict) -> None:
    page.get_by_role("button", name=button).click()
    page.get_by_label("Take a photo of the code").set_input_files(file)
    expect(page.get_by_role("dialog")).to_have_count(0)


def test_what_a_cartridge_says_is_offered_and_taken_into_lot_and_expiry(installer: Installer, visit: str):
    page = installer.page
    lots = lambda: [event["content"] for event in events(page, visit, "deioniser.lot")]  # noqa: E731 - read twice
    set_unit(page, plate={"deioniser_fitted": {"value": "yes"}})
    page.reload()
    installer.open_step("Deioniser")
    installer.fill("Cartridge or resin", "New, or just changed")
    installer.fill("Lot of the cartridge or resin", "LOT-6")
    scan(page, "Scan the code Lot of the cartridge or resin", photo_of(data_matrix(CARTRIDGE)))
    offered = page.get_by_role("group", name="What the code says")
    expect(offered).to_contain_text("It now says LOT-6.")
    expect(offered.get_by_label("Lot of the cartridge or resin: LOT-7/A")).not_to_be_checked()
    expect(offered.get_by_label("Expiry date printed: 2029-01-31")).to_be_checked()
    assert [one["value"] for one in lots()] == ["LOT-6"]
    offered.get_by_label("Lot of the cartridge or resin: LOT-7/A").check()
    offered.get_by_role("button", name="Take what is chosen").click()
    expect(offered).to_have_count(0)
    expect(installer.input("Expiry date printed")).to_have_value("2029-01-31")
    assert lots()[-1]["value"] == "LOT-7/A"
    assert lots()[-1]["scanned"] == {"text": "01095212345432131729013110LOT-7/A", "format": "DataMatrix"}
    assert events(page, visit, "deioniser.expires_on")[-1]["content"]["value"] == "2029-01-31"
    # The page itself may not compile what the worker does.
    assert "Content Security Policy" in page.evaluate(COMPILE)


def test_a_label_opens_its_unit_and_a_code_that_is_typed_does_the_same(installer: Installer, address: str):
    page = installer.page
    secret = "ENDHNQ6TD7ZBHF6S5KDQPOLEIOMJYGLB"
    page.evaluate(LABEL_OF, hashlib.sha256(secret.encode()).hexdigest())
    page.goto(f"{address}/field")
    scan(page, "Scan a label", photo_of(qrcode.make(f"HTTPS://RECORDS.EXAMPLE/U/{secret}").get_image()))
    expect(page.get_by_label("Unit", exact=True)).to_have_value("P3KN473J")
    expect(page.get_by_role("button", name="Trace analysis unit")).to_be_visible()
    page.get_by_role("button", name="Scan a label").click()
    page.get_by_label("Type what stands below the code").fill("n5yw 3969")
    page.get_by_role("button", name="Use what is typed").click()
    expect(page.get_by_role("heading", name="Visit", exact=True)).to_be_visible()


def test_gs1_element_strings_are_taken_apart_as_another_reader_does(page, address):
    """Against zxing-cpp, whose readable text puts each identifier in brackets."""
    page.goto(f"{address}/field/offline")
    codes = [
        CARTRIDGE,
        "(01)09521234543213(10)A1(17)280229(21)S/N-9",
        "(00)395212345432132107(3103)001250(15)270600",
        "(01)09521234543213(8005)001234(21)17(240)B2",
    ]
    read = [zxingcpp.read_barcodes(data_matrix(code))[0] for code in codes]
    plain = [one.bytes.decode() for one in read]
    expected = [dict(re.findall(r"\((\d+)\)([^(]+)", code)) for code in codes]
    assert [dict(re.findall(r"\((\d+)\)([^(]+)", one.text)) for one in read] == expected
    found = page.evaluate(GS1_READ, [[text, True] for text in plain])
    assert [elements for _, elements in found] == expected
    assert found[0][0] == {"gtin": "09521234543213", "expiry": "2029-01-31", "lot": "LOT-7/A"}
    assert found[2][0] == {"best": "2027-06-30"}
    # What is none stays what it is: a serial number of digits, a wrong check digit, an address.
    others = [["1712345678", False], ["0109521234543214172901311", False], ["https://a.example/u/X", False]]
    assert [read for read, _ in page.evaluate(GS1_READ, others)] == [None, None, None]


def test_addresses_of_gs1_digital_link_say_the_same_and_are_never_fetched(page, address):
    page.goto(f"{address}/field/offline")
    asked: list = []
    page.on("request", lambda request: asked.append(request.url))
    found = page.evaluate(GS1_READ, [[text, False] for text in [*LINKS, *NO_LINKS]])
    expected = [{"gtin": "09521234543213"} | said for said in LINKS.values()]
    assert [elements for elements, _ in found] == [*expected, *[None] * len(NO_LINKS)]
    assert [url for url in asked if not url.startswith(address)] == []


@pytest.mark.parametrize(
    ("formats", "fault", "is_own"),
    [
        ([*WANTED, "aztec"], None, True),
        (["qr_code", "ean_13"], None, False),
        (WANTED, "formats", False),
        (WANTED, "detect", False),
    ],
    ids=["all formats", "some formats", "no service", "fails"],
)
def test_the_browsers_own_reader_is_used_where_it_can_and_the_kept_one_otherwise(
    page, address, formats, fault, is_own
):
    page.goto(f"{address}/field/offline")
    page.evaluate(DETECTOR, [formats, fault])
    photo = list(photo_of(data_matrix("LOT-7"))["buffer"])
    reads, first, second, asked = page.evaluate(READ, photo)
    assert first == second == (["OWN-1"] if is_own else ["LOT-7"])
    assert reads == (is_own or fault == "detect")
    if is_own:
        assert asked == [WANTED, "ImageBitmap", "ImageBitmap"]
    elif fault == "detect":
        assert asked == [WANTED, "ImageBitmap"], "It is not asked again"
    else:
        assert asked == []


def test_the_century_of_a_date_is_the_nearest(page, address):
    """GS1 General Specifications 7.12: 51 years ahead is the last century, 50 back the next (from memory)."""
    page.goto(f"{address}/field/offline")
    asked = [
        ["290131", 2026],
        ["760101", 2026],
        ["770101", 2026],
        ["280200", 2026],
        ["020101", 2052],
        ["291301", 2026],
        ["290230", 2026],
    ]
    assert json.loads(json.dumps(page.evaluate(DAYS, asked))) == [
        "2029-01-31",
        "2076-01-01",
        "1977-01-01",
        "2028-02-29",
        "2102-01-01",
        None,
        None,
    ]
