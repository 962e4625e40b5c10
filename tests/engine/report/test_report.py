"""A report says everything that was answered and computed, in every format, whatever stands in the record."""

import io
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from html.parser import HTMLParser

import pypdf
import pytest

from engine.answers.document import all_asked, put
from engine.checks.every import evaluate
from engine.errors import Problems
from engine.record.computed import compute
from engine.record.document import NOTICE, readable, shown
from engine.record.many.outcome import Bench
from engine.record.read import read
from engine.record.write import to_text
from engine.report import fitter, full
from engine.report.drawn.shapes import svg
from engine.report.parts import Items, Pictures
from engine.report.written import html, markdown, pdf
from engine.setting.bench import steps_of
from tests.engine.record.test_read import MINIMAL
from tests.engine.report.conftest import NEW_BLOCKS, crowded, with_more

#: Elements that have no end of their own.
_VOID = {"meta"}


class Page(HTMLParser):
    """A page taken apart: the texts of its cells by the figure they show, its words, and whether its tags match."""

    def __init__(self, text):
        super().__init__()
        self.open, self.cells, self.words, self.tags, self.attributes = [], {}, [], [], []
        self._key = None
        self.feed(text)
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += attrs
        if tag not in _VOID:
            self.open.append(tag)
        self._key = dict(attrs).get("data-key")
        if self._key:
            assert self._key not in self.cells
            self.cells[self._key] = ""

    def handle_endtag(self, tag):
        assert self.open.pop() == tag
        self._key = None

    def handle_startendtag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data):
        self.words.append(data)
        if self._key:
            self.cells[self._key] += data


def page(report):
    return Page(html.written(report))


def wanted(computed):
    """Return the text of every figure and check by its key."""
    found = {}
    for block in computed.result.blocks:
        for figure in block.figures:
            for side, key in (("A", "pair"),) if figure.of_pair else (("A", "a"), ("B", "b")):
                found[f"{block.key}.{figure.key}.{key}"] = shown(figure, side)
    for check in computed.result.checks:
        for what, digits in (("demand", 4), ("capacity", 4), ("utilisation", 3)):
            found[f"check.{check.key}.{check.side}.{what}"] = readable(getattr(check, what), digits)
    return found


def test_html_shows_every_figure_and_check_of_the_record_and_no_other(computed, reported):
    assert page(reported).cells == wanted(computed)


def test_html_says_all_that_was_answered_assumed_and_cautioned(computed, reported):
    words = " ".join(" ".join(page(reported).words).split())
    for item in all_asked(computed.record.answers):
        if item.value is not None:
            assert item.question.label in words
            assert item.question.show(item.value) in words
    result = computed.result
    for sentence in (*result.assumptions, *result.cautions, NOTICE, result.bearing_A, result.bearing_B):
        assert sentence in words
    assert computed.source.content in words
    for check in result.checks:
        assert check.source in words and check.demand_is in words and check.capacity_is in words


def test_html_needs_nothing_else(computed, reported):
    text = html.written(reported)
    found = page(reported)
    assert not {"script", "link", "img", "iframe", "object", "base", "form"} & set(found.tags)
    assert not {"src", "style", "onload"} & {name for name, _ in found.attributes}
    # links lead to places of the page itself
    places = [value for name, value in found.attributes if name == "id"]
    links = [value for name, value in found.attributes if name == "href"]
    assert links and all(link.startswith("#") and link[1:] in places for link in links)
    assert len(set(places)) == len(places) == len(reported.sections)
    assert set(re.findall(r"https?://[^\"\s]+", text)) == {"http://www.w3.org/2000/svg"}
    assert "@import" not in text and "url(" not in text
    assert html.written(full.report(computed)) == text


def test_a_block_and_a_check_that_nobody_knew_appear_by_themselves(computed):
    more = with_more(computed)
    found = page(full.report(more))
    assert found.cells == wanted(more)
    words = " ".join(found.words)
    for block in NEW_BLOCKS:
        assert block.title in words
    assert "Glow of the rings" in words
    text = markdown.written(full.report(more))
    assert "| q | glow | 12.5 | none | lx | ISO 9999 |" in text


def test_the_fitters_sheet_takes_what_there_is_and_says_what_lacks(computed):
    more = with_more(computed)
    words = " ".join(page(fitter.sheet(more)).words)
    for said in ("m6", "k6", "seat to make, upper limit", "on the bench", "0.061 mm end play", "0.0024 in end play",
                 "first filling", "slides on when heated to at least", "87", "71"):  # fmt: skip
        assert said in words
    assert "smoothing" not in words and "glow" not in words
    bare = replace(computed, result=replace(computed.result, blocks=computed.result.blocks[:1]))
    words = " ".join(page(fitter.sheet(bare)).words)
    for lacking in ("Fits were not computed", "The setting was not computed", "No amount of lubricant was computed"):
        assert lacking in words
    failing = replace(computed, result=replace(computed.result, checks=(), missing=("the speed",)))
    assert "do not mount" in " ".join(page(fitter.sheet(failing)).words)


def test_markdown_tables_are_whole(computed, reported):
    text = markdown.written(reported)
    width = 0
    for line in text.splitlines():
        cells = len(re.findall(r"(?<!\\)\|", line))
        if line.startswith("|"):
            assert cells == (width or cells)
            width = cells
        else:
            width = 0
    for key, shown_text in wanted(computed).items():
        assert markdown._escaped(shown_text) in text, key


def texts_of(data):
    reader = pypdf.PdfReader(io.BytesIO(data))
    return [re.sub(r"\s+", "", one.extract_text()) for one in reader.pages]


def test_pdf_says_what_html_says(computed, printed):
    pages = [re.sub(r"\s+", "", one.extract_text()) for one in printed.pages]
    whole = "".join(pages)
    missing = [key for key, text in wanted(computed).items() if text.replace(" ", "") not in whole]
    assert missing == []
    assert len(pages) > 3
    assert all(f"Page{at}of{len(pages)}" in text for at, text in enumerate(pages, 1))


def test_the_fitters_sheet_is_one_page_of_pdf(computed):
    for make in (lambda one: one, with_more, crowded):
        assert len(texts_of(pdf.written(fitter.sheet(make(computed))))) == 1


def test_the_fitters_sheet_has_seats_heating_setting_and_grease_as_the_record_has_them(computed):
    sheet = fitter.sheet(computed)
    rows = {cells[0].text: [cell.text for cell in cells[1:]] for table in sheet.tables() for cells in table.rows}
    found = {figure.key: figure for block in computed.result.blocks for figure in block.figures}
    for ring, first in (("cone", 0), ("cup", 2)):
        for end in ("upper", "lower"):
            figure = found[f"{ring}_seat_{end}"]
            texts = rows[f"seat to make, {end} limit"][first : first + 2]
            assert [float(one) for one in texts] == [figure.A, figure.B]
            assert all(one[0] in "+-" for one in texts)
        heating = float(rows["cone, or housing, slides on when heated to at least"][first])
        assert found[f"{ring}_heating"].A <= heating < found[f"{ring}_heating"].A + 1
        for end, words in (("on", "force to press it on, at most"), ("off", "force to pull it off, at most")):
            figure = found[f"{ring}_force_{end}"]
            for at, value in enumerate((figure.A, figure.B)):
                text = rows[words][first + at].replace(" ", "")
                assert value <= float(text) <= 1.1 * value + 1 and len(text.rstrip("0")) <= 2
    assert "above 120 degC" in " ".join(page(sheet).words)
    for key, words in (("bench", "aim, on the bench"), ("bench_from", "it may stay from"), ("bench_to", "up to")):
        mm, inch = rows[words]
        size = abs(found[key].A)
        assert mm.startswith(f"{size:.3f} mm" if size >= 0.0005 else "no end play")
        assert inch.startswith(f"{size / 25.4:.4f} in" if size / 25.4 >= 0.00005 else "no end play")
        assert ("preload" in mm) == (found[key].A < 0) or size < 0.0005
    assert found["bench_from"].A <= found["bench"].A <= found["bench_to"].A
    words = " ".join(page(sheet).words)
    for step in steps_of(computed.result.study):
        assert step in words
    if "first_fill" in found:
        assert rows["first filling"][0] == shown(found["first_fill"], "A")
    else:
        assert "No amount of lubricant was computed" in words


def test_the_first_page_says_in_short_what_the_record_has(computed, reported):
    sections = {section.title: section for section in reported.sections}
    assert [section.title for section in reported.sections][:3] == ["Verdict", "In short", "What to order"]
    seats, lines = sections["In short"].parts
    found = {figure.key: figure for block in computed.result.blocks for figure in block.figures}
    assert [cells[0].text for cells in seats.rows] == ["shaft at A", "shaft at B", "housing at A", "housing at B"]
    for cells in seats.rows:
        ring, side = {"shaft": "cone", "housing": "cup"}[cells[0].text.split()[0]], cells[0].text[-1]
        size = getattr(computed.sides["AB".index(side)], {"cone": "d", "cup": "D"}[ring])[0]
        assert float(cells[1].text.split(" mm")[0]) == pytest.approx(size, abs=1e-4)
        assert cells[2].text == shown(found[f"{ring}_class"], side)
        assert [float(cells[at].text) for at in (3, 4)] == [
            getattr(found[f"{ring}_seat_{end}"], side) for end in ("upper", "lower")
        ]
        assert cells[3].text[0] in "+-"
    said = {cells[0].text: cells[1].text for cells in lines.rows}
    ruling = [check for check in computed.result.checks if not check.advisory]
    assert said["checks passed"] == f"{len(ruling)} of {len(ruling)}"
    # three digits are what a life is known to: within half of the third one
    life = float(said["modified life of the pair"].partition(" h,")[0].replace(" ", ""))
    assert life == pytest.approx(found["Lnmh_system"].A, rel=0.5e-2) and len(f"{life:.0f}".rstrip("0")) <= 3
    assert "mm" in said["setting: it may stay from"] and "in" in said["setting: up to"]
    assert said["lubricant"].startswith(found["lubricant"].A)


def test_the_check_nearest_its_limit_is_the_one_that_a_table_of_many_duties_names(computed, reported, tmp_path):
    path = tmp_path / "one.toml"
    path.write_text(to_text(computed.now, computed.result), "utf-8")
    columns = Bench(None, None).outcome(str(path)).columns
    named = next(
        check for check in computed.result.checks
        if (check.key, check.side) == (columns["governing_check"], columns["governing_side"])
    )  # fmt: skip
    sections = {section.title: section for section in reported.sections}
    said = {cells[0].text: cells[1].text for cells in sections["In short"].parts[1].rows}
    use = readable(columns["utilisation"], 3)
    at = "" if named.side == "pair" else f", {named.side}"
    assert said["nearest its limit, closed formulas"] == f"{named.name}{at}: utilisation {use}"
    assert "fits" not in said["nearest its limit, closed formulas"]
    finest = said["nearest its limit, load distribution"]
    assert not any(finest.startswith(one.check.name) for one in evaluate(*computed.sides, computed.conditions).outcomes)


def test_a_size_that_does_not_fit_governs_although_no_room_in_it_is_worth_having(computed):
    checks = computed.result.checks
    at = next(place for place, check in enumerate(checks) if not check.margin and not check.advisory)
    wide = replace(checks[at], utilisation=1.2, passes=False)
    result = replace(computed.result, checks=(*checks[:at], wide, *checks[at + 1 :]))
    assert result.governing() == wide


def test_pdf_without_the_library_is_refused_in_words(reported, monkeypatch):
    import builtins

    real = builtins.__import__

    def refuse(name, *rest, **named):
        if name == "fpdf":
            raise ImportError(name)
        return real(name, *rest, **named)

    monkeypatch.setattr(builtins, "__import__", refuse)
    with pytest.raises(Problems, match=r"pip install '\.\[pdf\]' in the folder of the project"):
        pdf.written(reported)


def hostile(computed):
    """Return the record with names that any of the formats could take for its own marks."""
    name = "<b>&amp; |*_`# </td></script> ü 運 \u2028"
    answers = put(computed.record.answers, "duty.job", name)
    answers = put(answers, "duty.cases[0].name", "| <i> --- ")
    record = replace(computed.record, answers=answers)
    result = replace(computed.result, bearing_A="\x1b[31m<x|y>", cautions=("- a *caution* | <b>\n# more",))
    return replace(computed, record=record, result=result)


@pytest.mark.parametrize("make", [full.report, fitter.sheet])
def test_no_name_breaks_a_page_or_markdown(computed, make):
    odd = hostile(computed)
    found = page(make(odd))
    assert not {"b", "i", "x", "script"} & set(found.tags)
    words = " ".join(found.words)
    assert "<b>&amp; |*_`#" in words
    assert "\x1b" not in words and "\u2028" not in words
    text = markdown.written(make(odd))
    assert "\n# more" not in text
    assert "<b>" not in text.replace("\\<b\\>", "")


def touched(computed, make):
    """Return the report with names that could break it, with no section but those in which they stand."""
    odd, usual = make(hostile(computed)), make(computed)
    assert len(odd.sections) == len(usual.sections)
    changed = [one for one, other in zip(odd.sections, usual.sections, strict=True) if one != other]
    assert changed
    return replace(odd, sections=tuple(changed))


def pdf_takes(report, fonts, monkeypatch):
    monkeypatch.setattr(pdf, "_FONTS", fonts)
    first = texts_of(pdf.written(report))[0]
    # its own marks are letters to it; what ends a line or steers a terminal is gone
    assert "<b>&amp;|*_`#</td></script>" in first
    assert not re.search("[\x00-\x08\x0b-\x1f\x1b\u2028]", first)


@pytest.mark.parametrize("fonts", [pdf._FONTS, ()], ids=["of the machine", "built in"])
@pytest.mark.parametrize("make", [full.report, fitter.sheet])
def test_no_name_breaks_a_pdf(computed, make, fonts, monkeypatch):
    pdf_takes(touched(computed, make), fonts, monkeypatch)


@pytest.mark.slow
@pytest.mark.parametrize("fonts", [pdf._FONTS, ()], ids=["of the machine", "built in"])
def test_no_name_breaks_a_whole_pdf(computed, fonts, monkeypatch):
    pdf_takes(full.report(hostile(computed)), fonts, monkeypatch)


def test_an_incomplete_duty_has_a_report_too(catalogue):
    record = read(MINIMAL)
    record = replace(record, answers=put(record.answers, "duty.distance", None))
    record = replace(record, answers=put(record.answers, "choice.bearing_a", str(catalogue.designation[0])))
    record = replace(record, answers=put(record.answers, "choice.bearing_b", str(catalogue.designation[1])))
    computed = compute(record)
    assert computed.result.verdict != "passes"
    words = " ".join(page(full.report(computed)).words)
    assert "distance between the bearings" in words
    assert page(fitter.sheet(computed)).cells is not None
    assert texts_of(pdf.written(full.report(computed)))


def drawings(report):
    for section in report.sections:
        for part in section.parts:
            if isinstance(part, Pictures):
                yield from part.drawings


def test_drawings_are_sound_svg_within_their_sheet(reported):
    found = list(drawings(reported))
    assert len(found) >= 4
    for drawing in found:
        tree = ET.fromstring(svg(drawing))
        assert tree.tag.endswith("svg")
        assert len(list(tree)) > 5
        for element in tree.iter():
            points = element.get("points")
            for pair in points.split() if points else ():
                x, y = map(float, pair.split(","))
                assert -0.5 <= x <= drawing.width + 0.5, (drawing.title, pair)
                assert -0.5 <= y <= drawing.height + 0.5, (drawing.title, pair)
        assert "nan" not in svg(drawing) and "inf" not in svg(drawing)


def test_sentences_of_a_report_are_never_empty(reported):
    for section in reported.sections:
        assert section.title and section.parts
        for part in section.parts:
            if isinstance(part, Items):
                assert all(part.words)


def test_sentences_that_a_result_has_besides_appear_under_their_name(computed):
    from dataclasses import dataclass, fields

    from engine.record.result import Result

    @dataclass(frozen=True)
    class Longer(Result):
        which_steel: tuple[str, ...] = ()

    held = {field.name: getattr(computed.result, field.name) for field in fields(Result)}
    result = Longer(**held, which_steel=("case-hardened suits", "through-hardened cracks"))
    words = " ".join(page(full.report(replace(computed, result=result))).words)
    assert "Which steel" in words and "through-hardened cracks" in words
