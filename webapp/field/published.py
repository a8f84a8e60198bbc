"""The procedures whose pages exist, each under an address that carries its version."""

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from checks import procedure as procedures
from webapp.language import procedure as translated
from webapp.store import Store


@dataclass(frozen=True)
class Published:
    """A procedure as the pages need it; ``document`` is its plain data (docs/api.md, "Procedure")."""

    slug: str
    document: dict[str, Any]
    sha256: str

    @property
    def title(self) -> str:
        return self.document["title"]

    def step(self, name: str) -> dict[str, Any] | None:
        return next((step for step in self.in_order if step["id"] == name), None)

    def stage_of(self, name: str) -> dict[str, Any]:
        return next(stage for stage in self.document["stages"] if name in stage["steps"])

    @property
    def in_order(self) -> list[dict[str, Any]]:
        """The steps in the order of the stages."""
        by_name = {step["id"]: step for step in self.document["steps"]}
        return [by_name[name] for stage in self.document["stages"] for name in stage["steps"]]

    def cautions_before(self, name: str) -> set[str]:
        """The cautions that every visit has shown in full before this step."""
        known: set[str] = set()
        for step in self.in_order:
            if step["id"] == name:
                break
            if step["when"] is None:
                known.update(step["cautions"])
        return known

    def neighbours(self, name: str) -> tuple[dict[str, Any] | None, dict[str, Any] | None]:
        """The steps before and after, None at the ends."""
        steps = self.in_order
        place = next(index for index, step in enumerate(steps) if step["id"] == name)
        return (
            steps[place - 1] if place > 0 else None,
            steps[place + 1] if place + 1 < len(steps) else None,
        )


@cache
def present() -> dict[str, Published]:
    """The procedures by which visits are started, by the slug of their pages: ``commissioning-2``."""
    documents = [(procedures.load(name), procedures.own_hash(name)) for name in procedures.names()]
    return {slug_of(one): Published(slug_of(one), one, sha256) for one, sha256 in documents}


def published(store: Store) -> dict[str, Published]:
    """The present procedures and the former ones that a phone may still need pages for.

    A visit goes on by the procedure with which it began. A phone may hold a visit that the server has not
    heard of, so the version before the present one counts as needed too.
    """
    known = {one.sha256 for one in present().values()}
    former = [one for one in store.procedures.needed_by_visits() if one.hash not in known]
    documents = [(one.content(), one.hash) for one in former]
    return {slug_of(one): Published(slug_of(one), one, sha256) for one, sha256 in documents} | present()


@lru_cache(maxsize=16)
def translation_of(slug: str, sha256: str, name: str) -> list[Published]:
    """Where the translated procedure is put; a phone fetches a hundred pages of one."""
    return []


def in_language(one: Published, name: str) -> Published:
    """The procedure for showing; its hash stays that of the English text, which visits name."""
    kept = translation_of(one.slug, one.sha256, name)
    if not kept:
        kept.append(Published(one.slug, translated(one.document), one.sha256))
    return kept[0]


def slug_of(document: dict[str, Any]) -> str:
    return f"{document['id']}-{document['version']}"
