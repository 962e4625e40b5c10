"""A search on the small catalogue, and what it reports."""

import pytest

from tests.duties import small_catalogue
from tests.wizard.reports import Reports
from tests.wizard.running import PATIENCE
from wizard.search import Search


@pytest.fixture
def reports():
    return Reports()


@pytest.fixture
def search(reports):
    made = Search(reports, load=lambda: small_catalogue(3))
    yield made
    made.stop()
    if made._thread is not None:
        made._thread.join(PATIENCE)
        assert not made._thread.is_alive()
