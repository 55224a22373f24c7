"""Labels and sheets: as text, as Markdown, as a page that prints."""

import re
import shutil
import subprocess
from html.parser import HTMLParser

import pytest

from assistant.book import Book, batches, gatherings, labels, page, sheets
from assistant.book.batches import Batch
from tests.book.kit import filled

NASTY = '<script>alert(1)</script> [x](http://x) *a* | "q" & \x1b'
CHROMIUM = next((found for name in ("chromium", "chromium-browser", "google-chrome", "chrome") if (found := shutil.which(name))), None)


@pytest.fixture
def book():
    with Book() as one:
        filled(one)
        yield one


class Page(HTMLParser):
    """What a page is made of: tags with their attributes, open tags, and the text."""

    VOID = frozenset({"meta", "link", "img", "br", "hr", "input"})

    def __init__(self, text):
        super().__init__()
        self.tags, self.open, self.text = [], [], []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text.append(data)


def printed_pages(place, out):
    """How many sheets of paper a page takes, printed by headless Chromium."""
    command = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", f"--print-to-pdf={out}", "--no-pdf-header-footer", place.as_uri()]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    return len(re.findall(rb"/Type\s*/Page\b", out.read_bytes()))


def stands_alone(text):
    read = Page(text)
    assert read.open == []
    assert not {"script", "link", "img", "iframe", "object", "form"} & {tag for tag, _ in read.tags}
    assert not [a for _, attrs in read.tags for a in attrs if a.startswith("on") or a in ("src", "href", "action")]
    assert "url(" not in text
    assert "@import" not in text
    return read


def test_a_label_says_what_a_bottle_must(book):
    kept = batches.named(book, "24-07")
    rows = labels.label_for(kept, 50.0, ["Larkmere stillroom"]).rows()
    assert rows == [
        "Nettle tincture",
        "1:2 (weight to volume) · 50 mL",
        "Lot 24-07",
        "made 12 June 2031 · best before 14 June 2034",
        "Keep dark and closed.",
        "Larkmere stillroom",
    ]


def test_honey_and_outside_use_stand_on_the_bottle():
    record = {"figures": [], "components": [{"what": "honey"}], "cautions": []}
    rows = labels.label_for(Batch("1", "syrup", "2031-06-12", plant="elderberry", record=record)).rows()
    assert "Contains honey: not under 1 year." in rows


def test_a_grid_of_labels_fills_the_paper(book):
    label = labels.label_for(batches.named(book, "24-07"), 50.0)
    for paper, each in (("a4", 21), ("letter", 18)):
        read = stands_alone(page.label_page([label] * 50, paper))
        classes = [attrs.get("class") for _, attrs in read.tags]
        assert classes.count("label") == 50
        assert classes.count("page") == -(-50 // each)
        sheet = page.PAPERS[paper]
        assert sheet.columns * sheet.label_width + 2 * sheet.margin == pytest.approx(sheet.width)
        assert sheet.rows * sheet.label_height + 2 * sheet.margin == pytest.approx(sheet.height)


def test_a_persons_words_are_words_everywhere(book):
    label = labels.label_for(Batch("1", "tincture", "2031-06-12", plant=NASTY), None, [NASTY])
    assert "<script>" not in page.label_page([label])
    one = gatherings.Gathering(NASTY, "2031-06-12", 1.0, place=NASTY, permission=NASTY)
    key = gatherings.add(book, one)
    sheet = sheets.gathering_sheet(book, gatherings.by_id(book, key))
    read = stands_alone(page.sheet_page(sheet))
    assert any("<script>" in text for text in read.text)  # shown, not run
    assert "<script>" not in sheet.as_markdown().replace("\\<script\\>", "")
    assert "\\[x\\]" in sheet.as_markdown()


def test_a_sheet_fits_sixty_columns_and_says_the_same_three_ways(book):
    for sheet in (sheets.batch_sheet(book, batches.named(book, "24-07")), sheets.gathering_sheet(book, gatherings.by_id(book, 1))):
        text = sheet.as_text()
        assert all(len(line) <= sheets.WIDTH for line in text.splitlines())
        assert not re.search(r"\d\n\s+(?:%|mL|g)\b", text)
        said = " ".join(text.split())
        shown = " ".join(" ".join(Page(page.sheet_page(sheet)).text).split())
        marked = sheet.as_markdown().replace("\\", "")
        for section in sheet.sections:
            for _, words in section.rows:
                assert " ".join(words.split()) in said
                assert " ".join(words.split()) in shown
                assert words in marked


def test_a_page_is_drawn_by_a_browser_where_there_is_one(book, tmp_path):
    """In headless Chromium the grid comes out on as many sheets of paper as it should; where there is none, the page is only read."""
    label = labels.label_for(batches.named(book, "24-07"), 50.0)
    place = tmp_path / "labels.html"
    place.write_text(page.label_page([label] * 30), encoding="utf-8")
    stands_alone(place.read_text(encoding="utf-8"))
    if CHROMIUM is None:
        return
    assert printed_pages(place, tmp_path / "labels.pdf") == 2
