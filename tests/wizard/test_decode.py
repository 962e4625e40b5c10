"""`conewright decode` as a command: what it prints, where, and its exit status."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.catalogue.read import builtin
from engine.report.reading import WIDTH
from wizard.cli import main
from wizard.commands.decode import run
from wizard.exit_codes import Exit


def decoded(capsys, text: str) -> tuple[int, str, str]:
    status = run(text)
    out, err = capsys.readouterr()
    return status, out, err


def test_a_dimension_series_is_explained_and_sought(capsys):
    status, out, err = decoded(capsys, "T3DB050")
    assert (status, err) == (Exit.PASSES, "")
    flat = " ".join(out.split())
    assert "angle series 3: contact angle over 13 deg 52' to 15 deg 59'" in flat
    assert "ISO 355:2019, dimension series" in flat
    assert "recalled, to be verified" in flat
    assert "Not concluded: load ratings" in flat
    assert "V050-3DB-C 50 x 95 x 21.25 mm" in flat


def test_every_reading_is_printed(capsys):
    _, out, _ = decoded(capsys, "V050-3DB-C")
    assert "V050-3DB-C: Own scheme" in out
    assert "T3DB050: ISO 355 dimension series" in out
    _, out, _ = decoded(capsys, "52149")
    assert "Old inch number" in out
    assert "Inch standard numbering" in out


def test_a_part_lists_the_assemblies_that_it_is_in(capsys):
    _, out, _ = decoded(capsys, "Q112.6")
    names = [name for name in builtin().designation if name.startswith("Q112.") and name.endswith("+6")]
    assert len(names) > 2
    assert f"{len(names)} assemblies" in out
    assert all(name in out for name in names)


def test_a_name_of_the_scheme_that_is_not_in_the_catalogue_gets_the_nearest(capsys):
    status, out, _ = decoded(capsys, "V051-3DB-C")
    assert status == Exit.PASSES
    assert 'nothing; the nearest name is "V050-3DB-C"' in out


def test_a_long_list_is_cut_and_counted(capsys):
    _, out, _ = decoded(capsys, "3DB")
    assert "more\n" in out


@pytest.mark.parametrize("text", ["T3DB050", "V050-3DB-C.i", "Q112.1+6", "HH52149A", "431"])
def test_lines_fit_a_terminal_of_eighty_columns(capsys, text):
    _, out, _ = decoded(capsys, text)
    assert max(map(len, out.splitlines())) <= WIDTH


def test_unknown_text_is_refused_with_what_is_accepted_and_the_nearest(capsys):
    status, out, err = decoded(capsys, "V05O-3DB-C")
    assert (status, out) == (Exit.BAD_INPUT, "")
    assert "accepted: a dimension series" in err
    assert 'did you mean "V050-3DB-C"?' in err


@pytest.mark.parametrize(
    "text", ["", "\x1b]0;title\x07", "9" * 10_000, "\ud800", "٣٤٥"], ids=lambda text: ascii(text[:9])
)
def test_hostile_text_reaches_the_screen_only_as_plain_text(capsys, text):
    status, out, err = decoded(capsys, text)
    assert (status, out) == (Exit.BAD_INPUT, "")
    assert err.startswith("conewright: ")
    assert err.removesuffix("\n").isprintable()
    assert len(err) < 600


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=st.text(max_size=70))
def test_no_text_ends_in_an_exception(capsys, text):
    status, out, err = decoded(capsys, text)
    assert status in (Exit.PASSES, Exit.BAD_INPUT)
    assert (out + err).replace("\n", "").isprintable()


def test_a_name_of_ones_own_catalogue_is_found(tmp_path, capsys):
    path = tmp_path / "own.csv"
    path.write_text("designation;d_mm;D_mm;T_mm;Cr_N;C0r_N;e\nwinch/left;50;90;21,75;78200;102200;0,42\n")
    assert main(["catalog", "use", str(path)]) == 0
    capsys.readouterr()
    status, out, _ = decoded(capsys, "winch/left")
    assert status == 0
    assert "winch/left: a name of the catalogue in use" in out
    assert "50 x 90 x 21.75 mm" in out


def test_a_series_of_ones_own_catalogue_is_found_whatever_its_letters(tmp_path, capsys):
    path = tmp_path / "own.csv"
    path.write_text("designation;series;d_mm;D_mm;T_mm;Cr_N;C0r_N;e\nwinch;Yard-7;50;90;21,75;78200;102200;0,42\n")
    assert main(["catalog", "use", str(path)]) == 0
    capsys.readouterr()
    status, out, _ = decoded(capsys, "yard-7")
    assert status == 0
    assert "winch" in out
