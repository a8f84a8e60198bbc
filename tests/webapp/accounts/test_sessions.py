"""Where a person is signed in."""

from datetime import timedelta

from webapp.store import Store

PHONE = (
    "Mozilla/5.0 (Linux; Android 15) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/156.0 Mobile Safari/537.36"
)


def test_the_sessions_are_listed_and_one_is_ended(sign_in, store: Store, people) -> None:
    here, there = sign_in("installer"), sign_in("installer")
    page = here.get("/account/sessions").text
    assert page.count("<section") == 2
    assert "This one" in page
    ended = [one.id for one in store.sessions.of(people["installer"].id) if f"/{one.id}/end" in page]
    assert len(ended) == 1, "the present one has no button: that is signing out"
    assert here.press(f"/account/sessions/{ended[0]}/end").location == "/account/sessions"
    assert there.get("/account").status_code == 303
    assert here.get("/account").status_code == 200


def test_one_signs_out_everywhere_else(sign_in, store: Store) -> None:
    here, there = sign_in("installer"), sign_in("installer")
    here.press("/account/sessions/others/end")
    assert (here.get("/account").status_code, there.get("/account").status_code) == (200, 303)
    assert store.audit.newest(1)[0].action == "signed_out_everywhere"


def test_a_session_of_somebody_else_is_not_there(sign_in, store: Store, people) -> None:
    supervisor = sign_in("supervisor")
    (theirs,) = store.sessions.of(people["supervisor"].id)
    assert sign_in("installer").press(f"/account/sessions/{theirs.id}/end").status_code == 404
    assert supervisor.get("/account").status_code == 200


def test_an_administrator_signs_a_person_out_everywhere(sign_in, people) -> None:
    there, administrator = sign_in("installer"), sign_in("administrator")
    key = people["installer"].id
    assert "Sign Ilse Brook out everywhere" in administrator.get(f"/people/{key}").text
    assert administrator.press(f"/people/{key}/sign-out").status_code == 303
    assert there.get("/account").status_code == 303


def test_a_session_ends_when_it_is_idle_and_at_the_latest_after_its_days(sign_in, clock, settings) -> None:
    idle = sign_in("installer")
    clock.advance(hours=settings.idle_hours, seconds=1)
    assert idle.get("/account").status_code == 303
    busy, end = sign_in("installer"), clock() + timedelta(days=settings.session_days)
    while clock() <= end:
        assert busy.get("/account").status_code == 200
        clock.advance(hours=settings.idle_hours)
    assert busy.get("/account").status_code == 303


def test_a_browser_is_called_what_one_recognises(app) -> None:
    from webapp.accounts.browsers import browser_name

    with app.test_request_context(headers={"User-Agent": PHONE}):
        assert browser_name() == "Chromium on Android"
    with app.test_request_context(headers={"User-Agent": "curl/8"}):
        assert browser_name() == "A browser on an unknown system"
