"""Each JavaScript suite of this folder passes in a real browser; failed tests are listed with reasons."""

from pathlib import Path

import pytest

SUITES = sorted(path.name for path in Path(__file__).parent.glob("*.test.js"))

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("suite", SUITES)
def test_suite(page, suite):
    page.set_default_timeout(60_000)
    page.wait_for_function("'runSuite' in window")
    results = page.evaluate("suite => runSuite(suite)", suite)
    failed = [f"{result['name']}: {result['problem']}" for result in results if result["problem"]]
    assert results, f"{suite} holds no test"
    assert not failed, "\n".join(failed)
