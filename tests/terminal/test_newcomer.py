"""The first minute of somebody who has never seen the wizard: a start without arguments, defaults, a ranked list."""

from tests.terminal.line import Line

#: Start, then three answers, each gone to by n, then the list: what a newcomer presses in all.
KEYS = ("enter", "n", *"1450", "enter", "n", *"5kN", "enter", "n", *"200", "enter", "s")


def test_a_newcomer_reaches_pairs_ranked_with_their_lives_in_eighteen_keys(home):
    assert len(KEYS) == 18
    with Line(folder=home, XDG_STATE_HOME=str(home / "state")) as line:
        line.until_sees("new session", "example", "Enter begin")
        line.type(KEYS[0])
        line.until_sees("before any load", "3 answers short of lives: n asks for the next one.")
        for at, (label, typed) in enumerate((("Speed", "1450"), ("Radial force, plane y", "5kN"), ("Distance", "200"))):
            line.type("n")
            line.until_sees(label)
            line.type(*typed, "enter")
            if at < 2:
                line.until_sees("Missing for the loads")
        line.until(lambda: not line.sees("before any load"), "the count with loads")
        line.type("s")
        line.until_sees("Shortlist: the first 100, lightest first")
        rows = line.text().splitlines()
        ends = next(row for row in rows if "life h" in row).index("life h") + len("life h")
        first = next(row for row in rows if row.startswith("   1  "))
        life = first[:ends].rsplit("  ", 1)[-1].replace(" ", "")
        assert float(life) >= 20_000  # what is assumed to be asked for, reached
        line.type("b", "T")  # everything assumed is visited one by one, from where the mark stands
        line.until_sees("1.5  Required life", "Assumed, 3 of ")
        line.type("T")
        line.until_sees("1.6  Reliability", "Assumed, 4 of ")
        line.type("q")
        assert line.status() == 0
