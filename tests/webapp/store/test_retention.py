"""What was signed stays: no way in the program, and none in SQL, deletes it or writes over it."""

import ast
import re
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest

import webapp
from tests.phone import Phone
from webapp.store import Store, Unit
from webapp.store.listing import STATE_TABLES
from webapp.store.migrations import APPEND_ONLY

KEPT = {*APPEND_ONLY, "confirmations", "retired_labels"}
NEVER_DELETED = KEPT | {"people", "devices", "passkeys"}
CODE = sorted(Path(webapp.__file__).parent.rglob("*.py"))

# Decisions were copied whole into a table with other constraints; test_upgrades.py shows that none was lost.
DROPPED = {"m0007_decisions_after_acceptance": {"decisions"}}
# Files that are written over or taken away, each with the reason.
REMOVING = {
    "webapp/commands/keep.py": "moves a database aside, and what was half restored away",
    "webapp/store/inbox.py": "files of unsent entries that wait for a day to be looked at",
    "webapp/store/keeping.py": "takes away a copy that was not finished",
    "webapp/store/photos.py": "takes away a file that was not written whole",
    "webapp/store/photo_parts.py": "parts of photos that were put together",
    "webapp/vendor/__main__.py": "libraries of the front end, when they are fetched anew",
}


@pytest.fixture
def full(full: Store, phone: Phone, unit: Unit) -> Store:
    """Confirmations and a replaced label as well."""
    full.passkeys.add("key", phone.person.id, "phone", "AA", 0)
    full.passkeys.keep_confirmation(full.records.all()[0].sha256, "key", {"id": "key"})
    full.units.new_token(unit.id)
    return full


def rows(store: Store, table: str) -> list[tuple]:
    return store.connection.read().execute(f"select * from {table}").fetchall()


def test_sql_cannot_delete_or_write_over_it(full: Store) -> None:
    for table in sorted(NEVER_DELETED):
        before = rows(full, table)
        assert before, f"there is something to lose in {table}"
        for statement in attempts(full, table):
            with pytest.raises(sqlite3.IntegrityError, match=r"append-only|never deleted"):
                execute(full, statement)
        assert rows(full, table) == before


def attempts(store: Store, table: str) -> list[str]:
    column = store.connection.read().table(table).columns[0].name
    written_over = [
        f"update {table} set {column} = {column}",
        f"insert or replace into {table} select * from {table}",
    ]
    return [f"delete from {table}", *(written_over if table in KEPT else [])]


def execute(store: Store, statement: str) -> None:
    with store.connection.write() as db:
        db.execute(statement)


def sql_in(tree: ast.AST) -> Iterator[tuple[str, str]]:
    """Each text in the code with the function that it stands in."""
    for function in ast.walk(tree):
        if isinstance(function, ast.FunctionDef):
            for node in ast.walk(function):
                if isinstance(node, ast.Constant) and isinstance(node.value, str):
                    yield function.name, node.value


def calls_in(tree: ast.AST) -> Iterator[tuple[str, str, int]]:
    """``db.table("x").delete_where()``: the method, the table or "" where it is computed, and the line."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            owner = node.func.value
            if isinstance(owner, ast.Call) and getattr(owner.func, "attr", "") == "table" and owner.args:
                yield node.func.attr, getattr(owner.args[0], "value", ""), node.lineno


DESTROYING = r"\b(?:delete\s+from|drop\s+table|update|replace\s+into)\s+(?:if\s+exists\s+)?(\w+)"


def test_no_sql_of_the_program_deletes_or_changes_a_document() -> None:
    for path in CODE:
        for function, text in sql_in(ast.parse(path.read_text())):
            for table in re.findall(DESTROYING, text, re.IGNORECASE):
                assert table not in NEVER_DELETED - DROPPED.get(function, set()), f"{path}: {text}"


def test_no_method_of_the_store_deletes_or_changes_a_document() -> None:
    seen = set()
    for path in CODE:
        for method, table, line in calls_in(ast.parse(path.read_text())):
            seen.add(method)
            if method.startswith(("delete", "drop", "truncate", "transform")):
                assert table not in NEVER_DELETED, f"{path}:{line}"
                assert table or path.name == "listing.py", f"{path}:{line}: of which table cannot be seen"
            if method.startswith(("update", "upsert")):
                assert table not in KEPT, f"{path}:{line}"
    assert {"delete_where", "update", "upsert", "insert"} <= seen, "the walk finds what it looks for"


def test_the_lists_that_are_made_anew_are_no_documents() -> None:
    assert NEVER_DELETED.isdisjoint(STATE_TABLES)


def test_files_are_taken_away_in_few_places_only() -> None:
    root = Path(webapp.__file__).parent.parent
    gone = re.compile(r"\.unlink\(|\.rmtree\(|\.rmdir\(|\bos\.remove\(")
    found = {str(path.relative_to(root)) for path in CODE if gone.search(path.read_text())}
    assert found == set(REMOVING)


def test_no_address_deletes(app) -> None:
    for rule in app.url_map.iter_rules():
        assert "DELETE" not in rule.methods, rule
        if {"records", "visits", "photos", "events"} & set(rule.rule.split("/")):
            assert not re.search("delete|remove|erase|purge", rule.endpoint), rule


def test_no_command_deletes() -> None:
    from webapp.commands import PLACES

    assert not [name for name in PLACES if re.search("delete|remove|erase|purge|prune", name)]
