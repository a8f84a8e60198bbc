"""A person who works and sends without a pause, in a thread."""

import random
import threading
import time
import uuid

from tests.faults.handset import Handset, waiting
from tests.faults.wires import Lost
from webapp.store.photo_parts import PART

MOST_WAITING = 6  # a pause in working while the server is away


class Installer(threading.Thread):
    """Works and sends without a pause until told to stop; what got no answer is sent again."""

    def __init__(self, handset: Handset, unit: str, seed: int):
        super().__init__(daemon=True)
        self.handset, self.unit, self.random = handset, unit, random.Random(seed)
        self.stopped = threading.Event()
        self.failure: BaseException | None = None
        self.lost = 0

    def run(self) -> None:
        try:
            while not self.stopped.is_set():
                self.work()
                self.sync()
        except BaseException as error:  # shown by the test, which runs in another thread
            self.failure = error

    def sync(self) -> None:
        try:
            self.handset.send()
            if self.random.random() < 0.15:
                self.handset.fetch()
        except Lost:
            self.lost += 1
            time.sleep(0.02)

    def work(self) -> None:
        """One thing of what an installer does; a new visit when all others are signed."""
        handset = self.handset
        if sum(len(waiting(kind)) for kind in vars(handset.held).values()) > MOST_WAITING:
            return
        open_visits = [key for key, one in handset.visits.items() if one["state"] in {"draft", "returned"}]
        visit = self.random.choice(open_visits) if open_visits else str(uuid.uuid4())
        if not open_visits:
            handset.begin(visit, self.unit)
        choice = self.random.random()
        if choice < 0.5:
            handset.read_off(visit, self.random.random())
        elif choice < 0.7:
            handset.photograph(visit, self.random.randrange(10**9), self.random.choice([0, 0, 2 * PART]))
        elif not waiting(handset.held.records):
            handset.sign_record(visit)
