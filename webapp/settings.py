"""The settings of the server: one table, read once into a frozen dataclass."""

import difflib
import os
import secrets
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

PREFIX = "FIRSTWATER_"


class SettingError(ValueError):
    """A setting that cannot be used; ``name`` is the environment variable."""

    def __init__(self, name: str, detail: str):
        super().__init__(f"{name}: {detail}")
        self.name = name
        self.detail = detail


def yes_or_no(text: str) -> bool:
    word = text.strip().lower()
    if word in {"1", "yes", "true", "on"}:
        return True
    if word in {"0", "no", "false", "off", ""}:
        return False
    raise ValueError("write yes or no")


def count(text: str) -> int:
    if not text.strip().isdecimal():
        raise ValueError("write a whole number")
    return int(text)


def whole_number(text: str) -> int:
    number = count(text)
    if number < 1:
        raise ValueError("write a number of at least 1")
    return number


def judges(text: str) -> int:
    if text.strip() == "auto":
        processors = os.cpu_count() or 1
        return processors if processors > 1 else 0
    return count(text)


@dataclass(frozen=True)
class Setting:
    """One row of the table; ``default`` is written as it would stand in the environment."""

    field: str
    default: str
    read: Callable[[str], object]
    help: str

    @property
    def variable(self) -> str:
        return PREFIX + self.field.upper()


TABLE = (
    Setting("database", "instance/firstwater.db", Path, "File of the SQLite database."),
    Setting("photos", "", str, "Folder of the photos. Empty: a folder `photos` beside the database."),
    Setting(
        "secret_key",
        "",
        str,
        "Key that protects cookies and form tokens, at least 32 characters. "
        "Empty: made at the first start and kept in the file `secret-key` beside the database.",
    ),
    Setting("base_url", "http://localhost:8000", str, "Address under which people reach the server."),
    Setting(
        "secure_cookies", "no", yes_or_no, "Cookies travel by HTTPS only. Say yes wherever HTTPS is served."
    ),
    Setting("host", "127.0.0.1", str, "Address on which the server listens."),
    Setting("port", "8000", whole_number, "Port on which the server listens."),
    Setting(
        "proxies",
        "0",
        count,
        "Number of reverse proxies in front of the server, whose X-Forwarded headers are believed.",
    ),
    Setting("demo", "no", yes_or_no, "Offer the invented demo scenario and say so on every page."),
    Setting("idle_hours", "12", whole_number, "A session ends after so many hours without a request."),
    Setting("session_days", "7", whole_number, "A session ends after so many days at the latest."),
    Setting(
        "calls_per_minute",
        "1200",
        count,
        "Requests that the server answers one person in a minute; two and a half times as many at once. "
        "0: no limits, also for certificates, files and strangers.",
    ),
    Setting(
        "judges",
        "auto",
        judges,
        "Processes that verify and judge large records, some 120 MB each, started with the server. "
        "auto: one for each processor, none where there is only one. 0: the server does it itself.",
    ),
    Setting("service_months", "12", whole_number, "The next service is due so many months after acceptance."),
)


@dataclass(frozen=True)
class Settings:
    """What ``TABLE`` describes, read and checked."""

    database: Path
    photos: Path
    secret_key: str
    base_url: str
    secure_cookies: bool
    host: str
    port: int
    proxies: int
    demo: bool
    idle_hours: int
    session_days: int
    calls_per_minute: int
    judges: int
    service_months: int

    @classmethod
    def from_environment(cls, environment: Mapping[str, str]) -> "Settings":
        """Read every variable that begins with the prefix; an unknown one is a :class:`SettingError`."""
        refuse_unknown(environment)
        values = {setting.field: read_one(setting, environment) for setting in TABLE}
        database = Path(str(values["database"]))
        values["photos"] = Path(str(values["photos"])) if values["photos"] else database.parent / "photos"
        values["secret_key"] = checked_key(str(values["secret_key"])) or kept_key(database.parent)
        values["base_url"] = str(values["base_url"]).rstrip("/")
        return cls(**values)  # type: ignore[arg-type]

    @classmethod
    def for_tests(cls, folder: Path) -> "Settings":
        """Settings whose files all lie in ``folder``."""
        return cls.from_environment(
            {
                "FIRSTWATER_DATABASE": str(folder / "test.db"),
                "FIRSTWATER_SECRET_KEY": "only-for-tests-" + "0" * 32,
                "FIRSTWATER_BASE_URL": "http://localhost",
                "FIRSTWATER_JUDGES": "0",
            }
        )


def refuse_unknown(environment: Mapping[str, str]) -> None:
    known = [setting.variable for setting in TABLE]
    for name in sorted(environment):
        if name.startswith(PREFIX) and name not in known:
            near = difflib.get_close_matches(name, known, n=3) or known
            raise SettingError(name, f"there is no such setting. Did you mean {' or '.join(near)}?")


def read_one(setting: Setting, environment: Mapping[str, str]) -> object:
    try:
        return setting.read(environment.get(setting.variable, setting.default))
    except ValueError as error:
        raise SettingError(setting.variable, f"{error}.") from None


def checked_key(key: str) -> str:
    if key and len(key) < 32:
        raise SettingError("FIRSTWATER_SECRET_KEY", "write at least 32 characters, or leave it empty.")
    return key


def kept_key(folder: Path) -> str:
    """The key in the file beside the database, made when it is not there yet."""
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / "secret-key"
    try:
        with file.open("x", encoding="ascii") as new:
            file.chmod(0o600)
            new.write(secrets.token_urlsafe(48))
    except FileExistsError:
        pass
    return file.read_text(encoding="ascii").strip()
