"""The invented plant rooms of the whole records, as an installer finds them: unit, site, instruments."""

import json
from pathlib import Path

from checks import procedure as procedures
from checks.engine import judge
from checks.judge import normalise

RECORDS = Path(__file__).parents[1] / "records"
INSTALLER = ("tamsin", "rinse the loop twice")
SUPERVISOR = ("ines", "read it before you sign")


def agreed(record: str) -> dict:
    """What was read and agreed to about a whole record."""
    document = json.loads((RECORDS / f"{record}.json").read_text(encoding="utf-8"))
    return numbered(document["judged"])


def numbered(judged: dict) -> dict:
    """The same with the defects numbered: a phone gives each an id of its own."""
    text = json.dumps(judged)
    known = (one["defect"] for step in judged["steps"].values() for one in step.get("defects", []))
    for number, identity in enumerate(dict.fromkeys(known), 1):
        text = text.replace(f'"{identity}"', f'"defect {number}"')
    return json.loads(text)


class PlantRoom:
    """One whole record: what stands on the plate, what is read and answered, and what follows from it."""

    def __init__(self, record: str):
        document = json.loads((RECORDS / f"{record}.json").read_text(encoding="utf-8"))
        self.procedure = procedures.load(document.get("procedure", "commissioning"))
        self.case = normalise(document["case"], self.procedure)
        self.judgement = judge(self.procedure, self.case)
        self.unit = f"Unit of {record}"
        self.serial = f"TST-{record}"
        self.entries = {
            f"{step['id']}.{entry['id']}": entry
            for step in self.procedure["steps"]
            for entry in step["entries"]
        }

    @property
    def steps(self) -> list[dict]:
        """The steps that this unit has, in their order."""
        return [step for step in self.procedure["steps"] if self.judgement["steps"][step["id"]]["applies"]]

    def stock(self, store) -> None:
        """Give the office what the installer needs: site, unit and instruments."""
        site = store.sites.add(f"Site of {self.unit}", "", self.case["site"])
        store.units.add(self.unit, self.serial, site.id, self.case["plate"])
        for identity, one in self.case["instruments"].items():
            store.instruments.add(**{**one, "id": identity, "serial": one["serial"] or identity})

    def cells(self, step: str):
        """The entries of a step with what is entered, those that exist here, in their order."""
        for name, entry in self.entries.items():
            if name.startswith(f"{step}.") and self.judgement["quantities"][name]["applies"]:
                given = self.case["entries"].get(name)
                if given is not None:
                    yield name, entry, given
