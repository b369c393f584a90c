"""A headless Chromium without a network of its own, for pages on the disk."""

import contextlib
import json
import pathlib
import shutil
import tempfile

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

ARGUMENTS = [
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--disable-dev-shm-usage", "--hide-scrollbars",
]


@contextlib.contextmanager
def chromium():
    """A driver with a profile of its own, gone afterwards."""
    profile = tempfile.mkdtemp(prefix="idlepoint-chromium-")
    options = Options()
    options.binary_location = shutil.which("chromium")
    for argument in ARGUMENTS + [f"--user-data-dir={profile}"]:
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    driver = webdriver.Chrome(service=Service(shutil.which("chromedriver")), options=options)
    try:
        driver.set_page_load_timeout(60)
        driver.set_script_timeout(60)
        yield driver
    finally:
        driver.quit()
        shutil.rmtree(profile, ignore_errors=True)


def open_page(driver, path, width=1100, height=900, mobile=False):
    """The page in a window of that size, drawn. Messages of earlier pages are thrown away."""
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {
        "width": width, "height": height, "deviceScaleFactor": 1, "mobile": mobile})
    for kind in ("browser", "performance"):
        driver.get_log(kind)
    driver.get(pathlib.Path(path).resolve().as_uri())
    drawn(driver)


def drawn(driver):
    """Waits for two frames: what watches the width of the page has then drawn."""
    driver.execute_async_script(
        "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(done));")


def requests(driver):
    """The addresses that the page asked for since it was opened."""
    asked = []
    for entry in driver.get_log("performance"):
        message = json.loads(entry["message"])["message"]
        if message["method"] == "Network.requestWillBeSent":
            asked.append(message["params"]["request"]["url"])
    return asked
