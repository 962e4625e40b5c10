"""Ears for what a search reports."""

import threading

from tests.wizard.running import PATIENCE


class Reports:
    """What a search reports, in order, with a way to wait for it."""

    def __init__(self):
        self.found = []
        self.wake = threading.Condition()

    def __call__(self, found):
        with self.wake:
            self.found.append(found)
            self.wake.notify_all()

    def wait(self, kind, answers):
        """Return the first report of a kind for some answers."""

        def here():
            return next((one for one in self.found if isinstance(one, kind) and one.answers is answers), None)

        with self.wake:
            assert self.wake.wait_for(here, PATIENCE), f"no {kind.__name__} among {self.found}"
            return here()
