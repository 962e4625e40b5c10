"""A real browser without a window, where there is one: pages as it understands and lays them out."""

import shutil
import subprocess
import tempfile

PROGRAM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


def run(page, *words, limit=120):
    """Start the browser on a file; return what it writes to its output."""
    with tempfile.TemporaryDirectory() as home:
        line = [
            PROGRAM, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run",
            f"--user-data-dir={home}", *words, page.as_uri(),
        ]  # fmt: skip
        done = subprocess.run(line, capture_output=True, text=True, timeout=limit)
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


def measured(page, script, width):
    """Return the page as the browser holds it after a script has measured it at a width of window."""
    text = page.read_text("utf-8")
    assert "<script" not in text
    copy = page.with_name(f"measured-{page.name}")
    copy.write_text(text.replace("</body>", f"<script>{script}</script></body>"), "utf-8")
    return run(copy, f"--window-size={width},1200", "--dump-dom", "--virtual-time-budget=2000")
