"""The HTML report in a real browser: nothing cut or overlapping, figure by figure as in the record."""

import html as entities
import json
import re

import pypdf
import pytest

from engine.report import fitter, full
from engine.report.written import html
from tests.engine.report import browser
from tests.engine.report.conftest import crowded, with_more
from tests.engine.report.test_report import wanted

pytestmark = pytest.mark.skipif(browser.PROGRAM is None, reason="no browser is installed")

#: Everything that is wider than its page, every cell whose text is cut, cells that lie over one another, drawings
#: that have no size, and the figures as they are seen.
MEASURE = """
const page = document.documentElement.clientWidth, wide = [], cut = [], over = [], empty = [], cells = {};
for (const one of document.querySelectorAll('body *')) {
  const box = one.getBoundingClientRect();
  if (box.right > page + 1 || box.left < -1) wide.push(one.tagName + ' ' + one.textContent.slice(0, 40));
}
for (const one of document.querySelectorAll('td, th')) {
  if (one.scrollWidth > one.clientWidth + 1) cut.push(one.textContent);
  if (one.dataset.key) cells[one.dataset.key] = one.innerText;
}
for (const row of document.querySelectorAll('tr')) {
  let last = -1;
  for (const cell of row.children) {
    const box = cell.getBoundingClientRect();
    if (box.left < last - 1) over.push(cell.textContent);
    last = box.right;
  }
}
for (const one of document.querySelectorAll('svg')) {
  const box = one.getBoundingClientRect();
  if (box.width < 50 || box.height < 20) empty.push(one.getAttribute('aria-label'));
}
const sections = [...document.querySelectorAll('section')].map(one => one.getBoundingClientRect());
const order = sections.every((box, at) => at === 0 || box.top >= sections[at - 1].bottom - 1);
const found = {wide, cut, over, empty, cells, order, height: document.body.scrollHeight};
document.body.setAttribute('data-found', JSON.stringify(found));
"""


def measured(report, folder, width):
    page = folder / "report.html"
    page.write_text(html.written(report), "utf-8")
    dom = browser.measured(page, MEASURE, width)
    return json.loads(entities.unescape(re.search(r'data-found="([^"]*)"', dom)[1]))


@pytest.mark.parametrize("width", [700, 1280])
def test_the_report_is_laid_out_whole_at_the_width_of_paper_and_of_a_screen(reported, tmp_path, width):
    found = measured(reported, tmp_path, width)
    assert found["wide"] == found["cut"] == found["over"] == found["empty"] == []
    assert found["order"]
    assert found["height"] > 2000


def test_the_browser_shows_every_figure_of_the_record(computed, tmp_path):
    more = with_more(computed)
    found = measured(full.report(more), tmp_path, 900)
    assert found["cells"] == wanted(more)


@pytest.mark.parametrize(
    "make", [lambda computed: computed, with_more, crowded], ids=["as it is", "with more blocks", "crowded"]
)
def test_the_fitters_sheet_prints_on_one_page(computed, tmp_path, make):
    page, out = tmp_path / "sheet.html", tmp_path / "sheet.pdf"
    page.write_text(html.written(fitter.sheet(make(computed))), "utf-8")
    browser.run(page, f"--print-to-pdf={out}", "--no-pdf-header-footer")
    pages = pypdf.PdfReader(out).pages
    assert len(pages) == 1
    assert "Mounting" in pages[0].extract_text()


@pytest.mark.prints
def test_the_report_prints_on_paper_with_its_figures(computed, reported, tmp_path):
    page, out = tmp_path / "report.html", tmp_path / "report.pdf"
    page.write_text(html.written(reported), "utf-8")
    browser.run(page, f"--print-to-pdf={out}", "--no-pdf-header-footer")
    pages = pypdf.PdfReader(out).pages
    text = re.sub(r"\s+", "", "".join(one.extract_text() for one in pages))
    missing = [key for key, shown in wanted(computed).items() if re.sub(r"\s+", "", shown) not in text]
    assert missing == []
    assert 4 < len(pages) < 60
    width, height = (float(side) for side in pages[0].mediabox[2:])
    assert (width, height) == pytest.approx((595, 842), abs=1.5)  # A4
