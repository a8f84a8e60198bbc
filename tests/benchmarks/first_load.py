"""What a first visit costs in bytes: everything that is loaded until the phone can work without signal.

    python -m tests.benchmarks.first_load

Compressed as a proxy would (gzip, level 6). Budgets: 60 kB of script for a step's page, 1.5 MB in all.
"""

import gzip
from collections import defaultdict

from playwright.sync_api import Response

from tests.benchmarks.stage import phone, prepared, server, show

KINDS = {
    "js": "script",
    "css": "style",
    "html": "page",
    "svg": "picture",
    "png": "picture",
    "woff2": "font",
    "json": "data",
}


def kind_of(response: Response) -> str:
    ending = response.url.partition("?")[0].rpartition("/")[2].rpartition(".")[2]
    content_type = response.headers.get("content-type", "")
    return KINDS.get(ending) or ("page" if "html" in content_type else "data")


def main() -> None:
    seen: dict[str, tuple[str, int, int]] = {}
    with server() as running, phone() as context:

        def note(response: Response) -> None:
            if response.status == 200 and response.url not in seen:
                body = response.body()
                seen[response.url] = (kind_of(response), len(body), len(gzip.compress(body, 6)))

        context.on("response", note)
        page = context.new_page()
        prepared(page, running.url)
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        before_step = set(seen)
        page.goto(f"{running.url}/field/commissioning-1/earthing")
        page.wait_for_load_state("networkidle")
        scripts = page.evaluate("performance.getEntriesByType('resource').map((one) => one.name)")
        on_step = [value for url, value in seen.items() if url in scripts and value[0] == "script"]
    totals: dict[str, list[int]] = defaultdict(lambda: [0, 0, 0])
    for kind, raw, packed in seen.values():
        totals[kind] = [one + more for one, more in zip(totals[kind], (1, raw, packed), strict=True)]
    rows = [
        {"kind": kind, "files": one[0], "bytes": one[1], "gzip": one[2]}
        for kind, one in sorted(totals.items())
    ]
    rows.append(
        {"kind": "all", **{name: sum(row[name] for row in rows) for name in ("files", "bytes", "gzip")}}
    )
    show("Until the phone is ready for work without signal", rows)
    step = {
        "files": len(on_step),
        "bytes": sum(one[1] for one in on_step),
        "gzip": sum(one[2] for one in on_step),
    }
    show(f"Script of one step's page (of {len(before_step)} files known before)", [step])


if __name__ == "__main__":
    main()
