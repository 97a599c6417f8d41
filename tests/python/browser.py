"""Headless Chromium that asks nobody for anything: driven over loopback, a fresh profile each time."""

import base64
import contextlib
import json
import shutil
import tempfile

from selenium import webdriver
from selenium.webdriver.chrome.service import Service

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
)


@contextlib.contextmanager
def browser(*more):
    """A browser, with more flags where a test is about them."""
    profile = tempfile.mkdtemp(prefix="kerfbook-browser-")
    options = webdriver.ChromeOptions()
    options.binary_location = shutil.which("chromium") or "chromium"
    for flag in (*FLAGS, *more, f"--user-data-dir={profile}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    driver = webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver") or "chromedriver"))
    try:
        yield driver
    finally:
        driver.quit()
        shutil.rmtree(profile, ignore_errors=True)


def show(driver, path, width, scheme="light", height=900):
    """Opens a file at a width, by day or by night."""
    driver.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride",
        {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False},
    )
    driver.execute_cdp_cmd(
        "Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]}
    )
    driver.get(path.resolve().as_uri())


def picture(driver, to, whole=True, height=None):
    """A picture of the page, whole or from the top."""
    size = driver.execute_cdp_cmd("Page.getLayoutMetrics", {})["cssContentSize"]
    clip = {"x": 0, "y": 0, "width": size["width"], "height": height or size["height"], "scale": 1}
    made = driver.execute_cdp_cmd("Page.captureScreenshot", {"captureBeyondViewport": whole, "clip": clip})
    to.write_bytes(base64.b64decode(made["data"]))


def printed(driver):
    """The page on paper, as PDF."""
    driver.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})
    made = driver.execute_cdp_cmd(
        "Page.printToPDF", {"paperWidth": 8.27, "paperHeight": 11.69, "preferCSSPageSize": True}
    )
    return base64.b64decode(made["data"])


def asked_for(driver):
    """Addresses asked for since last asked."""
    messages = [json.loads(entry["message"])["message"] for entry in driver.get_log("performance")]
    return [m["params"]["request"]["url"] for m in messages if m["method"] == "Network.requestWillBeSent"]
