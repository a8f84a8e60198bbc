"""Every text has its German, with the same placeholders; the catalogues hold just the texts there are."""

import pytest
from babel.messages import Message

from webapp.catalogues import read, wrong_translations
from webapp.translate import check, files


def test_the_catalogues_are_up_to_date_and_whole(capsys):
    status = check()
    assert status == 0, capsys.readouterr().out


@pytest.mark.parametrize(
    ("msgid", "msgstr"),
    [
        ("Sent by {name}.", ""),
        ("Sent by {name}.", "Gesendet von {nmae}."),
        ("<b>Sign</b>", "Unterschreiben"),
        ("One.\n\nTwo.", "Eins. Zwei."),
        (("{count} step", "{count} steps"), ("{count} Schritt", "")),
    ],
)
def test_a_translation_that_lacks_something_is_found(msgid, msgstr):
    assert list(wrong_translations(Message(msgid, msgstr)))


def test_no_catalogue_is_empty():
    assert all(len(read(path)) > 500 for _language, path, _texts in files())
