"""A real pair, computed once."""

import pytest

from engine.answers.resolved import resolve
from engine.operating import Conditions
from engine.record.read import read
from engine.record.result import compute
from tests.engine.record.test_read import MINIMAL


@pytest.fixture(scope="package")
def record():
    return read(MINIMAL)


@pytest.fixture(scope="package")
def result(record, catalogue):
    rows = [catalogue.take([index]) for index in chosen(catalogue)]
    return compute(*rows, Conditions.of(resolve(record.answers)))


def chosen(catalogue):
    """Return two rows with a bore in the range that the record asks for."""
    fits = [index for index, bore in enumerate(catalogue.d) if 44 <= bore <= 61]
    return fits[0], fits[-1]
