"""What loading a catalogue costs: the built-in range, 200,000 rows, a user's own 200,000, and how it grows between.

A user's own file goes through the intake: headers and units of its own, semicolons, decimal commas, estimates of what
is missing, contradictions of every row. Baseline of the ratios is `csv.reader` alone over the same bytes, in the same
process. Each figure is the best of several runs, and each run has a process of its own, since what it holds at most
is measured too.
"""

import json
import subprocess
import sys
import textwrap

import pytest

from engine.catalogue.invention.invent import synthetic
from engine.catalogue.write import as_csv
from tests.benchmarks.stopwatch import promised

RUNS = 5
OWN_RUNS = 3
#: The most memory that a process held is read from /proc.
pytestmark = [pytest.mark.benchmark, pytest.mark.skipif(not sys.platform.startswith("linux"), reason="reads /proc")]
MEBIBYTE = 1 << 20

MEASURE = """
    import csv, io, json, sys, time
    from pathlib import Path
    import numpy

    def seconds(work):
        start = time.perf_counter()
        work()
        return time.perf_counter() - start

    def by_csv_alone(paths):
        for path in paths:
            for _ in csv.reader(io.StringIO(path.read_text(), newline="")):
                pass
"""
BUILT_IN = """
    def modules():
        import engine.catalogue.read

    paths = [Path("catalogs") / name for name in ("metric.csv", "inch_cones.csv", "inch_cups.csv")]
    found = {"modules": seconds(modules)}
    from engine.catalogue.read import builtin

    found["load"] = seconds(builtin)
    assert len(builtin()) >= 2000
    found["hash"] = min(seconds(builtin().content_hash) for _ in range(5))
    found["baseline"] = min(seconds(lambda: by_csv_alone(paths)) for _ in range(5))
    print(json.dumps(found))
"""
FILE = """
    from engine.catalogue.read import read

    path = Path(sys.argv[1])
    found = {"load": seconds(lambda: read(path))}
    # of this process alone: getrusage would start from the peak of the one that started it
    (peak,) = [line for line in Path("/proc/self/status").read_text().splitlines() if line.startswith("VmHWM")]
    found["peak"] = int(peak.split()[1]) * 1024
    found["baseline"] = seconds(lambda: by_csv_alone([path]))
    print(json.dumps(found))
"""
OWN = """
    from engine.catalogue.intake.check import check

    path = Path(sys.argv[1])
    found = {}
    found["load"] = seconds(lambda: found.update(rows=check(path).accepted))
    (peak,) = [line for line in Path("/proc/self/status").read_text().splitlines() if line.startswith("VmHWM")]
    found["peak"] = int(peak.split()[1]) * 1024
    found["baseline"] = seconds(lambda: by_csv_alone([path]))
    print(json.dumps(found))
"""
#: Column of our own file to that of a data sheet.
SHEET = {
    "designation": "Part number", "d_mm": "d [mm]", "D_mm": "D [mm]", "T_mm": "T [mm]", "B_mm": "B [mm]",
    "C_mm": "C [mm]", "Cr_N": "Cr [N]", "C0r_N": "C0r [N]", "e": "e", "Y": "Y", "mass_kg": "Weight [kg]",
    "n_grease_rpm": "n grease [rpm]",
}  # fmt: skip


def as_spreadsheet(content):
    """Return a file of ours as a spreadsheet of a country with decimal commas saves it: every column there is."""
    return b"\xef\xbb\xbf" + content.replace(b",", b";").replace(b".", b",").replace(b"\n", b"\r\n")


def as_data_sheet(content, quoted=False):
    """Return the columns that a data sheet prints."""
    header, *rows = (line.split(",") for line in content.decode().splitlines())
    places = [header.index(name) for name in SHEET]
    picked = [list(SHEET.values()), *([row[place] for place in places] for row in rows)]
    cells = [[f'"{cell}"' for cell in row] for row in picked] if quoted else picked
    return "\n".join([",".join(row) if quoted else ";".join(row).replace(".", ",") for row in cells]).encode()


#: How a user's file may come.
OWN_FILES = {
    "spreadsheet": as_spreadsheet,
    "data sheet": as_data_sheet,
    "data sheet in quotes": lambda content: as_data_sheet(content, quoted=True),
}


def measured(work, *arguments):
    code = textwrap.dedent(MEASURE) + textwrap.dedent(work)
    run = subprocess.run([sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=True)
    return json.loads(run.stdout)


def best(runs):
    """Return the least of every figure over some runs, and print them."""
    figures = {name: min(run[name] for run in runs) for name in runs[0]}
    print(figures)
    return figures


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("catalogues")
    paths = {}
    for rows in (2_000, 20_000, 200_000):
        paths[rows] = folder / f"{rows}.csv"
        paths[rows].write_bytes(as_csv(synthetic(rows, 5)))
    return paths


@pytest.fixture(scope="module")
def loads(files):
    return {rows: best([measured(FILE, str(path)) for _ in range(RUNS)]) for rows, path in files.items()}


def test_the_built_in_range_loads_in_under_60_ms_after_numpy_and_hashes_in_under_20():
    # the first load of a process, files and all; what its own modules take to import is printed beside it
    found = best([measured(BUILT_IN) for _ in range(RUNS)])
    assert found["load"] < promised(0.060)
    assert found["hash"] < promised(0.020)
    assert found["load"] < 25 * found["baseline"]


def test_200_000_rows_load_in_under_one_and_a_half_seconds(loads):
    assert loads[200_000]["load"] < promised(1.5)
    # columns, ranges, choices, names and physics of every row for less than four times the splitting alone
    assert loads[200_000]["load"] < 4 * loads[200_000]["baseline"]


def test_200_000_rows_take_less_than_400_mebibytes(loads):
    assert loads[200_000]["peak"] < 400 * MEBIBYTE


def test_the_cost_grows_no_faster_than_the_rows(loads):
    # splitting alone grows with the rows; what is done beside it stays the same share of that, within half
    share = {rows: found["load"] / found["baseline"] for rows, found in loads.items()}
    print(share)
    assert share[200_000] < 1.5 * share[2_000]
    assert share[200_000] < 1.5 * share[20_000]


@pytest.fixture(scope="module", params=list(OWN_FILES))
def own_loads(request, files, tmp_path_factory):
    folder = tmp_path_factory.mktemp("own")
    found = {}
    for rows, path in files.items():
        own = folder / path.name
        own.write_bytes(OWN_FILES[request.param](path.read_bytes()))
        found[rows] = best([measured(OWN, str(own)) for _ in range(OWN_RUNS)])
        assert found[rows]["rows"] == rows
    return found


def test_200_000_rows_of_ones_own_are_taken_in_under_one_and_a_half_seconds(own_loads):
    assert own_loads[200_000]["load"] < promised(1.5)


def test_200_000_rows_of_ones_own_take_less_than_400_mebibytes(own_loads):
    assert own_loads[200_000]["peak"] < 400 * MEBIBYTE


def test_the_cost_of_ones_own_rows_grows_no_faster_than_they(own_loads):
    # what a small file costs beside its rows only makes its share greater
    share = {rows: found["load"] / found["baseline"] for rows, found in own_loads.items()}
    print(share)
    assert share[200_000] < 1.5 * share[20_000]
    assert share[200_000] < 8


def test_a_quoted_file_goes_the_long_way_in_bounded_memory(files, tmp_path):
    path = tmp_path / "quoted.csv"
    first, rest = files[200_000].read_bytes().split(b"\n", 1)
    path.write_bytes(first + b"\n" + rest.replace(b",metric,", b',"metric",', 1))
    found = best([measured(FILE, str(path))])
    assert found["peak"] < 600 * MEBIBYTE
    assert found["load"] < 20 * found["baseline"]
