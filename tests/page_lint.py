"""What every page must satisfy: a client that reads each HTML answer of any test and complains."""

from collections import Counter
from xml.etree import ElementTree

import html5lib
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from webapp.security import CONTENT_SECURITY_POLICY

NOT_TYPED_INTO = {"hidden", "submit", "button", "image", "reset"}
INPUTS = ("input", "select", "textarea")


class LintingClient(FlaskClient):
    """Fetches pages like any client; HTML that breaks a rule of :func:`complaints` fails the test."""

    def open(self, *args: object, **kwargs: object) -> TestResponse:
        response = super().open(*args, **kwargs)
        if response.mimetype == "text/html" and response.data and not 300 <= response.status_code < 400:
            found = complaints(response)
            assert not found, f"{response.request.path}:\n" + "\n".join(found)
        return response

    def token(self) -> str:
        """The form token of this session."""
        return token_in(self.get("/sign-in"))

    def submit(self, path: str, **fields: object) -> TestResponse:
        """Load the page with the form, then send the form as a browser would."""
        return self.post(path, data={"csrf_token": token_in(self.get(path)), **fields})

    def press(self, path: str, **fields: object) -> TestResponse:
        """Send a form that consists of its button."""
        return self.post(path, data={"csrf_token": self.token(), **fields})

    def call(self, method: str, path: str, **kwargs: object) -> TestResponse:
        """Call the interface for phones with the session's token."""
        headers = {"X-CSRFToken": self.token(), **kwargs.pop("headers", {})}
        return self.open(path, method=method, headers=headers, **kwargs)


def token_in(response: TestResponse) -> str:
    page = html5lib.parse(response.text, namespaceHTMLElements=False)
    return page.find(".//input[@name='csrf_token']").get("value")


def complaints(response: TestResponse) -> list[str]:
    """Every rule that the page breaks, as sentences that say what to change."""
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    page = parser.parse(response.text)
    found = [f"Not valid HTML at {place}: {code} {details}" for place, code, details in parser.errors]
    found += headings(page)
    found += identifiers(page)
    found += fields(page)
    found += forms(page)
    found += inline(page)
    policy = response.headers.get("Content-Security-Policy", "")
    found += [f"The policy lacks {name}." for name in CONTENT_SECURITY_POLICY if f"{name} " not in policy]
    return found


def words(element: ElementTree.Element) -> str:
    return " ".join("".join(element.itertext()).split())


def headings(page: ElementTree.Element) -> list[str]:
    found = [words(one) for one in page.iter("h1")]
    if len(found) != 1:
        return [f"A page has one h1, this one has {len(found)}."]
    title = words(page.find(".//title"))
    return (
        []
        if found[0] and title.startswith(found[0])
        else [f"Let the title {title!r} begin with {found[0]!r}."]
    )


def identifiers(page: ElementTree.Element) -> list[str]:
    counted = Counter(one.get("id") for one in page.iter() if one.get("id"))
    found = [f"The id {name!r} is there {times} times." for name, times in counted.items() if times > 1]
    for one in page.iter():
        for name in (one.get("aria-describedby", "") + " " + one.get("aria-labelledby", "")).split():
            if name not in counted:
                found.append(f"<{one.tag}> refers to the id {name!r}, which is not there.")
    return found


def fields(page: ElementTree.Element) -> list[str]:
    labelled = {label.get("for") for label in page.iter("label")}
    inside = {id(field) for label in page.iter("label") for field in label.iter()}
    return [
        f"Give the {field.tag} {field.get('name')!r} a label."
        for tag in INPUTS
        for field in page.iter(tag)
        if field.get("type") not in NOT_TYPED_INTO
        and field.get("hidden") is None
        and field.get("id") not in labelled
        and id(field) not in inside
        and not field.get("aria-label")
        and not field.get("aria-labelledby")
    ]


def forms(page: ElementTree.Element) -> list[str]:
    found = [
        f"Give the form {form.get('id') or ''} an action."
        for form in page.iter("form")
        if not form.get("action")
    ]
    for form in page.iter("form"):
        has_password = any(field.get("type") == "password" for field in form.iter("input"))
        if has_password and form.get("method", "get").lower() != "post":
            found.append("A form with a password must be sent by POST.")
    return found


def inline(page: ElementTree.Element) -> list[str]:
    found = ["Move the inline script into a module." for one in page.iter("script") if is_inline(one)]
    found += ["Move the inline style into the stylesheet." for _ in page.iter("style")]
    for one in page.iter():
        for name, value in one.attrib.items():
            if name == "style" or name.startswith("on") or value.strip().lower().startswith("javascript:"):
                found.append(f"Take {name} off <{one.tag}>: the policy does not let it run.")
    return found


def is_inline(script: ElementTree.Element) -> bool:
    return not script.get("src") and script.get("type") not in {"application/json", "importmap"}
