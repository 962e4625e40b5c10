"""The wizard with its shortlist found, and a way to wait for what a screen asked."""

import asyncio

from tests.wizard.running import DUTY, PATIENCE, new_session, until, wizard

#: No pair of the small catalogue has such a bore.
NOTHING = DUTY | {"envelope.bore_a": "1999"}


def by_hand(texts=DUTY, **how):
    """Run a test with the wizard on some answers, everything found."""

    def decorate(test):
        def run(tmp_path):
            async def sit():
                async with wizard(new_session(tmp_path, texts), **how) as hand:
                    await hand.rest()
                    await test(hand)
                    assert hand.app.is_running
                    assert hand.app.return_code is None

            asyncio.run(sit())

        return run

    return decorate


async def told(hand, patience=PATIENCE):
    """Wait until the screen in front has been told all that it asked for."""
    await until(lambda: not hand.app.screen.running, "the answer", patience)
    await hand.pilot.pause()


def pair(hand, at):
    """Return the names of a listed pair."""
    found = hand.app.standing.listed.shortlist.evaluated
    return str(found.A.designation[at]), str(found.B.designation[at])
