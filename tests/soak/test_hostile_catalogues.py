"""Ten thousand catalogue files with something wrong: taken or refused in words."""

import pytest

from tests.engine.catalogue.intake.files import mutated
from tests.engine.catalogue.intake.test_hostile import look_at

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("start", range(0, 10_000, 500))
def test_mutated_catalogues(tmp_path, start):
    path = tmp_path / "own.csv"
    for seed in range(start, start + 500):
        data = mutated(100_000 + seed)
        path.write_bytes(data)
        look_at(path)
        assert path.read_bytes() == data, seed
