"""A report says what document it is, and leads to every section: contents, headings that differ, bookmarks."""

import re

from engine.answers.chapters.choice import PAPERS
from engine.answers.document import question_at
from engine.record.compared.verify import verify
from engine.record.computed import compute
from engine.record.read import read
from engine.record.write import to_text
from engine.report import fitter
from engine.report.parts import Section
from engine.report.written import html, markdown
from engine.report.written.head import contents, places
from tests.engine.report.conftest import PAPERS_SAID, with_papers


def text_of(page):
    return re.sub(r"\s+", "", page.extract_text())


def test_every_format_says_what_document_it_is(filed, printed):
    assert set(PAPERS_SAID) == set(PAPERS)
    texts = {"html": html.written(filed), "markdown": markdown.written(filed), "pdf": text_of(printed.pages[0])}
    for name, said in PAPERS_SAID.items():
        for where, text in texts.items():
            whole = re.sub(r"\s+", "", text)
            assert re.sub(r"\s+", "", said) in whole, (where, name)
            assert re.sub(r"\s+", "", question_at(f"choice.{name}").label) in whole, (where, name)


def test_a_field_that_nobody_answered_is_left_to_write_in(reported):
    text = markdown.written(reported)
    for name in PAPERS:
        assert f"| {question_at(f'choice.{name}').label} |  |" in text


def test_the_papers_change_no_figure_and_come_back_from_the_record(computed, tmp_path):
    path = tmp_path / "filed.toml"
    path.write_text(to_text(with_papers(computed).record, computed.result), "utf-8")
    again = compute(read(path), str(path))
    assert verify(again).holds
    assert {name: getattr(again.record.answers.choice, name) for name in PAPERS} == PAPERS_SAID


def test_every_heading_differs_and_the_contents_lead_to_every_section(computed, reported):
    sections = reported.sections
    titles = [section.title for section in sections]
    assert len(set(titles)) == len(titles)
    listed = [place for _, members in contents(sections) for _, place in members]
    known = places(sections)
    assert len(set(listed)) == len(listed) and set(listed) <= set(known)
    for section, place in zip(sections, known, strict=True):
        # the parts of one load case have one line together
        assert place in listed or section.title.startswith("Load case "), section.title
    for case in computed.record.answers.duty.cases:
        assert sum(f": {case.name}" in words for _, members in contents(sections) for words, _ in members) >= 1
    groups = [group for group, _ in contents(sections)]
    assert len(set(groups)) == len(groups) and all(groups)


def test_places_are_named_as_readers_of_markdown_name_them():
    """The rule in common use: lower case, no marks, spaces to hyphens, a number behind what comes again."""
    titles = ("Load case 1: full cars", "Load case 1: full cars", "e, Y & Y0?", "運", "***")
    assert places([Section(title, ()) for title in titles]) == [
        "load-case-1-full-cars", "load-case-1-full-cars-1", "e-y--y0", "運", "section",
    ]  # fmt: skip


def test_pdf_has_a_bookmark_for_every_section_and_the_page_of_each_in_its_contents(filed, printed):
    marks = [one for member in printed.outline if isinstance(member, list) for one in member]
    assert [mark.title for mark in marks] == [section.title for section in filed.sections]
    pages = [printed.get_destination_page_number(mark) for mark in marks]
    assert pages == sorted(pages) and pages[-1] > 5
    texts = [text_of(page) for page in printed.pages]
    for mark, page in zip(marks, pages, strict=True):
        assert re.sub(r"\s+", "", mark.title) in texts[page]
    numbers = re.findall(r"\d+", printed.pages[0].extract_text())
    listed = [place for _, members in contents(filed.sections) for _, place in members]
    page_of = dict(zip(places(filed.sections), pages, strict=True))
    # they are written last, when they are known
    assert numbers[-len(listed) :] == [str(page_of[place] + 1) for place in listed]


def test_the_fitters_sheet_has_neither_contents_nor_papers(computed):
    text = html.written(fitter.sheet(computed))
    assert "<nav" not in text and 'papers"' not in text
