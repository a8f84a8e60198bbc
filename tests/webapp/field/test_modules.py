"""A page names at once all the script files that it will run."""

import re
from pathlib import Path

from flask import Flask

from webapp.field.modules import needs_of, reached
from webapp.field.published import present

STEP = Path(__file__).parents[3].joinpath("static/parts/step.js").read_text()
PRELOADED = re.compile(r'<link rel="modulepreload" href="/static/([^"]+)">')


def test_everything_that_is_imported_is_found_whatever_its_form(tmp_path):
    files = {
        "start.js": 'import { a } from "./parts/a.js";\nconst later = () => import("./parts/later.js");\n',
        "parts/a.js": 'import {\n  b,\n} from "../record/b.js";\nexport { d } from "./d.js";\n',
        "parts/d.js": 'import { BUILD } from "/build.js";\nimport "./e.js";\nimport("./later.js");\n',
        "parts/e.js": 'import { a } from "./a.js";\n',
        "parts/later.js": "",
        "record/b.js": "export const b = 1;\n",
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text)
    found = reached(str(tmp_path), ("start.js",))
    assert set(found) == {"start.js", "parts/a.js", "record/b.js", "parts/d.js", "parts/e.js"}


def test_a_step_names_what_only_some_steps_have_and_starts_it(app: Flask):
    procedure = next(iter(present().values()))
    startable = set(re.findall(r'^  "?([a-z-]+)"?: \(\) => import\("\./\1\.js"\),$', STEP, re.MULTILINE))
    named = {step["id"]: set(needs_of(step)) for step in procedure.document["steps"]}
    assert set().union(*named.values()) == startable
    for name, needs in named.items():
        text = app.test_client().get(f"/field/{procedure.slug}/{name}").text
        files = set(PRELOADED.findall(text))
        assert {f"parts/{need}.js" for need in needs} == {f"parts/{one}.js" for one in startable} & files
        assert (f'data-needs="{" ".join(sorted(needs))}"' in text) == bool(needs)


def test_a_step_names_its_files_once_and_each_is_there(app: Flask):
    client = app.test_client()
    text = client.get("/field/commissioning-2/earthing").text
    named = PRELOADED.findall(text)
    assert len(named) == len(set(named))
    assert {"start.js", "parts/step.js", "judging/engine.js", "vendor/idb/index.js"} <= set(named)
    assert "parts/calculator.js" not in named
    for name in named:
        with client.get(f"/static/{name}") as response:
            assert response.status_code == 200
