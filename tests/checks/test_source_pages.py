"""The page of sources lists each choice and rule once, and counts what is not proved."""

from checks.source import COMMON_PRACTICE, FROM_MEMORY, SEEN
from checks.source_pages import rule_rows, said_by, summary

PROCEDURE = {
    "plate": [{"id": "volume", "source": "Data plate"}, {"id": "note", "source": None}],
    "site": [{"id": "band", "source": "Common practice, no source"}],
    "steps": [
        {"id": "one", "rules": [{"id": "limit", "source": "A standard (from memory); common practice"}]}
    ],
}


def test_a_step_that_two_procedures_share_is_listed_once():
    assert list(rule_rows(said_by([PROCEDURE, PROCEDURE])))[2:] == [
        "| `plate.volume` | Data plate |",
        "| `site.band` | Common practice, no source |",
        "| `one.limit` | A standard (from memory); common practice |",
    ]


def test_what_is_from_memory_and_what_is_practice_is_counted():
    text = summary({SEEN: 5, FROM_MEMORY: 3, COMMON_PRACTICE: 1}, said_by([PROCEDURE]))
    assert "rest on 9 places in works, 5 seen, 3 from memory, 1 practice." in text
    assert "Of 3 choices and rules of the procedures, 1 name something from memory and 2 rest" in text
