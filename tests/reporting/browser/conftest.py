"""The system's Chromium, driven headless: a page is judged where it is read and printed, not in its source."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.reporting.browser.pages import Opened

QUIET = ("--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync")
"""Nothing is looked up elsewhere; a machine on which the tests run as root has no sandbox."""


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One Chromium for all pages; where none is installed the tests are skipped, but never in CI."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        if os.environ.get("CI"):
            pytest.fail("Chromium is not installed, and in CI these tests have to run")
        pytest.skip("Chromium is not installed (package chromium)")
    with sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=found, args=list(QUIET))
        yield started
        started.close()


@pytest.fixture(scope="session")
def page(browser: Browser) -> Opened:
    """A page without network, for one test after another."""
    return Opened(browser.new_context(offline=True).new_page())


@pytest.fixture
def opened(page: Opened) -> Opened:
    """The page, of which nothing has been heard yet."""
    page.said.clear()
    return page
