from __future__ import annotations

import pytest
from django.template import engines

from jobs.documents import render
from jobs.documents.render import PdfUnavailable, pdf_from_template


@pytest.fixture
def written(monkeypatch):
    """Return a maker of papers from HTML written in the test."""

    def make(html: str) -> bytes:
        whole = f'<html lang="en"><head><title>A paper</title></head><body>{html}</body></html>'
        template = engines["django"].from_string(whole)
        monkeypatch.setattr(render, "render_to_string", lambda _name, context: template.render(context))
        return pdf_from_template("written in the test", {})

    return make


@pytest.mark.parametrize(
    "address",
    [
        "http://example.com/mark.png",
        "https://example.com/mark.png",
        "file:///etc/hostname",
        "app:///../pyproject.toml",
        "app:///%2e%2e/pyproject.toml",
        "app:///no-such-file.png",
    ],
)
def test_a_paper_reads_nothing_but_the_apps_own_files(written, address):
    with pytest.raises(PdfUnavailable):
        written(f'<img src="{address}" alt="">')


def test_a_paper_may_show_a_file_of_the_app(written):
    assert written('<img src="app:///img/favicon.svg" alt="The mark">').startswith(b"%PDF")
