"""The generator writes, compares, and says how to update."""

from checks import generate


def test_an_up_to_date_tree_passes_the_check(capsys):
    assert generate.main(["--check"]) == 0
    assert capsys.readouterr().out == ""


def test_a_changed_file_is_shown_as_a_difference_with_the_command_that_updates(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(generate, "ROOT", tmp_path)
    assert generate.main([]) == 0
    formulas = tmp_path / "static" / "generated" / "formulas.js"
    formulas.write_text(formulas.read_text().replace("9.80665", "9.81"))
    (tmp_path / "static" / "generated" / "tables.js").unlink()
    assert generate.main(["--check"]) == 1
    shown = capsys.readouterr().out
    assert "--- static/generated/formulas.js" in shown
    assert "+++ static/generated/tables.js (as generated)" in shown
    assert shown.endswith("To update these files: python -m checks.generate\n")


def test_an_unknown_option_is_status_2_and_the_usage(capsys):
    assert generate.main(["--chek"]) == 2
    assert capsys.readouterr().err == "usage: python -m checks.generate [--check]\n"


def test_every_generated_file_says_what_made_it():
    for path, text in generate.texts().items():
        if path.endswith(".js") or path.endswith(".md"):
            assert "checks.generate" in text[:200], path
