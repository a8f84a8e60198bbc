"""What a first visit costs in bytes: everything that is loaded until the phone can work without signal.

    python -m tests.benchmarks.first_load

In bytes that travel, as the server compresses them. Budgets: 60 kB of script for a step's page, 450 kB in
all.
"""

from collections import defaultdict

from playwright.sync_api import BrowserContext

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


def weighed(context: BrowserContext, url: str) -> tuple[str, int, int]:
    """(kind, bytes, bytes that travel) of what is at an address."""
    answer = context.request.get(url, headers={"Accept-Encoding": "br, gzip"})
    ending = url.partition("?")[0].rpartition("/")[2].rpartition(".")[2]
    kind = KINDS.get(ending) or ("page" if "html" in answer.headers.get("content-type", "") else "data")
    return kind, len(answer.body()), int(answer.headers.get("content-length", len(answer.body())))


def main() -> None:
    asked: set[str] = set()
    with server() as running, phone() as context:
        context.on("request", lambda request: asked.add(request.url) if request.method == "GET" else None)
        page = context.new_page()
        prepared(page, running.url)
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        first = sorted(asked)
        page.goto(f"{running.url}/field/commissioning-2/earthing")
        page.wait_for_load_state("networkidle")
        loaded = page.evaluate("performance.getEntriesByType('resource').map((one) => one.name)")
        seen = {url: weighed(context, url) for url in {*first, *loaded}}
        on_step = [seen[url] for url in loaded if seen[url][0] == "script"]
    totals: dict[str, list[int]] = defaultdict(lambda: [0, 0, 0])
    for kind, raw, packed in (seen[url] for url in first):
        totals[kind] = [one + more for one, more in zip(totals[kind], (1, raw, packed), strict=True)]
    rows = [
        {"kind": kind, "files": one[0], "bytes": one[1], "travels": one[2]}
        for kind, one in sorted(totals.items())
    ]
    rows.append(
        {"kind": "all", **{name: sum(row[name] for row in rows) for name in ("files", "bytes", "travels")}}
    )
    show("Until the phone is ready for work without signal", rows)
    step = {
        "files": len(on_step),
        "bytes": sum(one[1] for one in on_step),
        "travels": sum(one[2] for one in on_step),
    }
    show("Script of one step's page, which the phone has by then", [step])


if __name__ == "__main__":
    main()
