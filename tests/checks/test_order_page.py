"""The page of the order says what the procedures say, in the order in which the steps are taken."""

from checks.order_page import order_page

PROCEDURE = {
    "title": "Trial",
    "version": 3,
    "stages": [{"id": "b", "title": "First", "steps": ["two", "one"]}],
    "steps": [
        {
            "id": "one",
            "title": "One",
            "needs": [
                {"step": "two", "hold": True, "because": "Two makes it safe."},
                {"step": "three", "hold": False, "because": "Three says how."},
            ],
        },
        {"id": "two", "title": "Two", "needs": []},
        {"id": "three", "title": "Three", "needs": []},
    ],
}


def test_each_prerequisite_has_its_row_with_its_reason():
    rows = [line for line in order_page([PROCEDURE]).splitlines() if line.startswith("| ")]
    assert rows[1:] == [
        "| 1 | First | Two |  |  |  |",
        "| 2 | First | One | Two | yes | Two makes it safe. |",
        "|  |  |  | Three |  | Three says how. |",
    ]


def test_each_procedure_has_a_chapter_with_its_version():
    headings = [line for line in order_page([PROCEDURE, PROCEDURE]).splitlines() if line.startswith("## ")]
    assert headings == ["## Trial, version 3"] * 2
