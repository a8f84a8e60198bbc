"""What the documentation claims is there, and what is there is documented."""

import re
import shlex
import subprocess
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from checks.catalogue import FORMULAS
from webapp.commands import PLACES, main, reference
from webapp.settings import TABLE

ROOT = Path(__file__).parents[2]
LINK = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)|<img src=\"([^\"]+)\"")
CODE = re.compile(r"`([^`\n]+)`")


def text_of(page):
    return (ROOT / page).read_text(encoding="utf-8")


def pages():
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "*.md"]
    listing = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    return sorted(line for line in set(listing.stdout.splitlines()) if (ROOT / line).is_file())


def targets(text):
    """Where the links and pictures of a page lead."""
    return [link or picture for link, picture in LINK.findall(text)]


def anchors(text):
    """The anchors that headings get: lower case, words joined by hyphens, without punctuation."""
    headings = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).strip().replace(" ", "-") for heading in headings}


@pytest.mark.parametrize("page", pages())
def test_every_link_leads_somewhere(page):
    for target in targets(text_of(page)):
        if re.match(r"[a-z]+:", target):
            continue
        path, _, anchor = target.partition("#")
        file = (ROOT / page).parent / path if path else ROOT / page
        assert file.exists(), f"{page} links to {target}, which is not there"
        if anchor and file.suffix == ".md":
            assert anchor in anchors(file.read_text(encoding="utf-8")), f"{page}: no heading for {target}"


def test_every_page_is_in_the_index():
    index = text_of("docs/index.md")
    listed = {target.partition("#")[0] for target in targets(index)}
    there = {page.removeprefix("docs/") for page in pages() if page.startswith("docs/")}
    assert listed == there - {"index.md"}


def test_the_page_of_commands_is_made_from_the_commands():
    assert text_of("docs/commands.md") == reference(), "To update: python -m webapp.generate"


@pytest.mark.parametrize("command", PLACES)
def test_every_command_is_documented(command):
    assert re.search(rf"^## `firstwater {command}`$", text_of("docs/commands.md"), re.MULTILINE)


@pytest.mark.parametrize("setting", [setting.variable for setting in TABLE])
def test_every_setting_is_documented(setting):
    assert f"`{setting}`" in text_of("docs/generated/settings.md")


@pytest.mark.parametrize("formula", sorted(FORMULAS))
def test_every_formula_is_documented(formula):
    assert re.search(rf"^#+ .*\b{formula}\b", text_of("docs/generated/formulas.md"), re.MULTILINE)


@pytest.mark.parametrize("command", ["webapp/serve --demo", "tests/run"])
def test_the_readme_names_the_two_commands(command):
    first_screen = "\n".join(text_of("README.md").splitlines()[:60])
    assert command in first_screen
    assert (ROOT / command.split()[0]).stat().st_mode & 0o111


@pytest.mark.parametrize("page", ["DEVELOPERS.md", "docs/design.md"])
def test_every_file_named_in_a_table_of_places_exists(page):
    rows = [line for line in text_of(page).splitlines() if line.startswith("|")]
    named = [name for line in rows for name in CODE.findall(line)]
    paths = [name for name in named if re.fullmatch(r"(checks|webapp|static|tests|docs)/[a-z0-9_./-]*", name)]
    missing = [path for path in paths if not (ROOT / path).exists()]
    assert paths
    assert not missing


def sessions(page):
    """(command line, what is printed after it) of every console passage."""
    for passage in re.findall(r"^```console\n(.*?)^```$", text_of(page), re.MULTILINE | re.DOTALL):
        for session in re.split(r"^\$ ", passage, flags=re.MULTILINE)[1:]:
            command, _, printed = session.partition("\n")
            yield command, printed.rstrip("\n")


FORMULA_SESSIONS = [one for one in sessions("README.md") if one[0].startswith("firstwater formula")]


@pytest.mark.parametrize(("command", "printed"), FORMULA_SESSIONS)
def test_a_session_in_the_readme_prints_what_it_says(command, printed):
    arguments = shlex.split(command)[1:]
    result = CliRunner().invoke(main, arguments, prog_name="firstwater")
    assert (result.stdout + result.stderr).rstrip("\n") == printed


def test_the_sign_ins_in_the_readme_are_those_of_the_demonstration():
    scenario = tomllib.loads(text_of("webapp/demo/scenario.toml"))
    for person in scenario["people"]:
        assert re.search(
            rf"^  {person['login']} +{person['password']} +{person['role']}$", text_of("README.md"), re.M
        )
