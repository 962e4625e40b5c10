"""Lubricants of one's own: checked and chosen by commands, offered in the wizard, kept in the record."""

import asyncio
import io
import json

import pytest

from engine import api
from engine.errors import Problems
from engine.record.read import read
from tests.engine.catalogue.lubricants.test_read import GOOD
from tests.wizard.running import DUTY, new_session, wizard
from wizard.cli import main
from wizard.commands.own import lubricants
from wizard.commands.own.settings import settings_file

RECORD = """\
schema = "1.1"
[answers.duty]
distance_mm = 200.0
life_h = 1000.0
[[answers.duty.cases]]
speed_rpm = 300.0
radial_y_N = 9000.0
[answers.lubrication]
supply = "bath"
[answers.lubrication.lubricant]
file = "plant.toml"
"""


@pytest.fixture
def environ(tmp_path):
    return {"HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path / "config")}


@pytest.fixture
def own(tmp_path):
    path = tmp_path / "plant.toml"
    path.write_text(GOOD)
    return path


@pytest.fixture
def record(tmp_path):
    path = tmp_path / "r.toml"
    oil = GOOD.partition("[[lubricant]]\n")[2].partition("\n\n")[0]
    path.write_text(RECORD + oil + "\n")
    return path


def test_check_lists_what_a_sound_file_holds(own):
    out = io.StringIO()
    assert lubricants.check(own, out) == 0
    assert "my grease" in out.getvalue() and "2 lubricants, all sound" in out.getvalue()


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (GOOD.replace("iso_vg = 150", "iso_vg = 151"), "plant.toml, line 6, lubricant[0].iso_vg: "),
        (GOOD.replace('"gear oil"', '"gear\\u001b]0;oil"'), "\\x1b]0;oil"),
        ("[[lubricant]\n", "line 1: this is not TOML"),
        ("", "there is no entry"),
    ],
)
def test_check_names_file_line_and_key_of_what_is_wrong(own, content, says, capsys):
    own.write_text(content)
    assert main(["lubricants", "check", str(own)]) == 2
    said = capsys.readouterr().err
    assert says in said and "accepted: " in said
    assert "Traceback" not in said and "\x1b" not in said


def test_use_and_back(own, environ, monkeypatch):
    assert lubricants.active(environ) is None
    monkeypatch.chdir(own.parent)
    assert lubricants.use(own.relative_to(own.parent), environ, io.StringIO()) == 0
    assert lubricants.active(environ) == own
    out = io.StringIO()
    lubricants.show(None, environ, out)
    assert out.getvalue().index("gear oil") < out.getvalue().index("mineral oil VG 10")
    lubricants.use(None, environ, io.StringIO())
    assert lubricants.active(environ) is None


def test_the_choice_stands_beside_that_of_a_catalogue(own, environ):
    file = settings_file(environ)
    file.parent.mkdir(parents=True)
    file.write_text('[catalogue]\npath = "/a/own.csv"\n')
    lubricants.use(own, environ, io.StringIO())
    assert '[catalogue]\npath = "/a/own.csv"' in file.read_text() and "[lubricants]" in file.read_text()
    lubricants.use(None, environ, io.StringIO())
    assert file.read_text() == '[catalogue]\npath = "/a/own.csv"\n'


def test_a_file_with_something_wrong_changes_no_setting(own, environ):
    lubricants.use(own, environ, io.StringIO())
    bad = own.with_name("bad.toml")
    bad.write_text("x = 1")
    with pytest.raises(Problems):
        lubricants.use(bad, environ, io.StringIO())
    assert lubricants.active(environ) == own


@pytest.mark.parametrize("text", ["[lubricants", "lubricants = 3", '[lubricants]\npath = "own.toml"'])
def test_settings_that_cannot_be_read_are_told(environ, text):
    file = settings_file(environ)
    file.parent.mkdir(parents=True)
    file.write_text(text)
    with pytest.raises(Problems, match=r"settings\.toml"):
        lubricants.active(environ)


def test_words_that_lubricants_does_not_take(capsys):
    for words in ([], ["check"], ["use", "--odd"], ["list", "-x"], ["check", "a", "b"]):
        assert main(["lubricants", *words]) == 2
        assert "lubricants takes" in capsys.readouterr().err


def test_the_example_in_the_format_is_a_sound_file(tmp_path, capsys):
    assert main(["lubricants", "--help"]) == 0
    said = capsys.readouterr().out
    path = tmp_path / "own.toml"
    path.write_text(said[said.index("[[lubricant]]\nname") :])
    assert main(["lubricants", "check", str(path)]) == 0
    assert "1 lubricant, all sound" in capsys.readouterr().out


def test_a_record_with_one_is_computed_and_verified_without_the_list(record, capsys):
    figures = api.figures(computed := api.compute(api.read(record)))
    assert figures["lubricant.lubricant"].A == "gear oil"
    assert (figures["lubricant.rho15"].A, figures["lubricant.T_greatest"].A) == (888.0, 100.0)
    assert figures["lubricant.rho15"].source == "lubricant list of your own, plant.toml"
    api.write(record, computed)
    assert main(["verify", str(record)]) == 0
    record.write_text(record.read_text().replace("density_15_kg_m3 = 888.0", "density_15_kg_m3 = 890.0"))
    capsys.readouterr()
    assert main(["verify", str(record)]) == 1
    assert "lubrication" in capsys.readouterr().out.lower()


def test_a_duty_names_one_of_the_list_in_use(own, tmp_path, capsys):
    duties = tmp_path / "d.csv"
    duties.write_text(
        "id,distance_mm,cases[0].speed_rpm,cases[0].radial_y_N,lubrication.supply,lubrication.lubricant\n"
        "a,200,300,9000,bath,gear oil\nb,200,300,9000,bath,gear oils\n"
    )
    out = tmp_path / "out.jsonl"
    assert main(["lubricants", "use", str(own)]) == 0
    main(["calc", str(duties), "-o", str(out), "--jobs", "1"])
    first, second = (json.loads(line) for line in out.read_text().splitlines())
    assert first["problem"] == "" and first["verdict"] == "passes"
    assert 'no lubricant is called "gear oils"' in second["problem"]
    assert main(["lubricants", "use", "--builtin"]) == 0
    main(["calc", str(duties), "-o", str(out), "--jobs", "1"])
    assert 'no lubricant is called "gear oil"' in json.loads(out.read_text().splitlines()[0])["problem"]
    capsys.readouterr()


def by_hand(tmp_path, own, test):
    async def sit():
        async with wizard(new_session(tmp_path, DUTY | {"lubrication.supply": "oil bath"})) as hand:
            hand.app.search.lubricants = own
            await hand.press("right", "right", "right", "right")
            await hand.go("lubrication.lubricant")
            await hand.press("enter")
            await test(hand)

    asyncio.run(sit())


def test_the_wizard_offers_them_first_and_keeps_the_whole_entry(tmp_path, own):
    async def test(hand):
        assert hand.sees("gear oil") and hand.sees("of your own list") and hand.sees("mineral oil VG 10")
        await hand.press("enter")
        assert hand.answers.lubrication.lubricant.name == "gear oil"
        assert hand.sees("gear oil (plant.toml)")
        await hand.rest()
        kept = read(hand.app.session.path).answers.lubrication.lubricant
        assert dict(kept.stated)["density_15_kg_m3"] == 888.0
        # what the supply cannot bring is refused, as it is of the built-in ones
        await hand.go("lubrication.supply")
        await hand.press("1")
        assert hand.sees("gear oil is an oil, and the supply is grease")
        assert hand.answers.lubrication.supply == "bath"

    by_hand(tmp_path, own, test)


def test_the_wizard_says_what_is_wrong_with_the_list_and_offers_the_built_in_ones(tmp_path, own):
    own.write_text(GOOD.replace("iso_vg = 150", "iso_vg = 151"))

    async def test(hand):
        assert hand.sees("Your own list cannot be used") and hand.sees("iso_vg")
        assert hand.sees("mineral oil VG 10") and not hand.sees("gear oil")

    by_hand(tmp_path, own, test)
