"""Opens the pages in Debian's Chromium, light and dark, wide and on a phone: no message in
the console, nothing wider than a phone, every plot drawn, nothing that axe-core finds hard to
use, the sheet of 24 horses on two sheets of paper. Needs chromium-driver, python3-selenium,
poppler-utils, and axe-core as npm hands it out. The first paint is printed, not judged.
"""

import argparse
import base64
import json
import pathlib
import shutil
import socket
import subprocess
import sys
import tarfile
import tempfile
import time

from selenium.webdriver.common.action_chains import ActionChains
from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By
from selenium.common.exceptions import StaleElementReferenceException
from selenium.webdriver.common.keys import Keys

from served_page import Served

axe_version = "4.10.3"
phone, desk = 360, 1000


def axe_script(folder):
    done = subprocess.run(["npm", "pack", "--silent", f"axe-core@{axe_version}"],
                          cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"npm gave no axe-core:\n{done.stderr}")
    with tarfile.open(folder / done.stdout.strip().splitlines()[-1]) as archive:
        return archive.extractfile("package/axe.min.js").read().decode("utf-8")


def browser():
    options = Options()
    for word in ("headless=new", "no-sandbox", "disable-gpu", "disable-quic", "no-first-run",
                 "disable-background-networking", "disable-component-update", "disable-sync"):
        options.add_argument("--" + word)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
    driver.set_script_timeout(300)  # axe-core on a machine with other work
    return driver


def show(driver, file, width, scheme):
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                           {"width": width, "height": 800, "deviceScaleFactor": 1, "mobile": False})
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {
        "features": [{"name": "prefers-color-scheme", "value": scheme}]})
    driver.get(file.as_uri())


def console_is_silent(driver):
    said = driver.get_log("browser")
    assert not said, said


def nothing_sticks_out(driver, seconds=10):
    """Nothing is wider than the window, once it is laid out for a new width."""
    sticking_out = """
        const room = document.documentElement.clientWidth;
        if (document.documentElement.scrollWidth <= room) return [];
        return [...document.querySelectorAll("body *")]
          .filter((part) => part.getBoundingClientRect().right > room && !part.closest(".scroll *"))
          .map((part) => `${part.tagName}.${part.className} #${part.id} ends at `
               + `${part.getBoundingClientRect().right} of ${room}`)
          .concat(["the window scrolls sideways"]);"""
    end = time.monotonic() + seconds
    while found := driver.execute_script(sticking_out):
        assert time.monotonic() < end, "\n".join(found)
        time.sleep(0.05)


def plots_are_drawn(driver, at_least):
    inked = driver.execute_script("""
        return [...document.querySelectorAll("canvas")].map((canvas) => {
          const all = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height).data;
          return all.filter((value, i) => i % 4 === 3 && value > 0).length;
        });""")
    assert len(inked) >= at_least and all(count > 500 for count in inked), inked


def anyone_can_use_it(driver, axe):
    driver.execute_script(axe)
    found = driver.execute_async_script("""
        const done = arguments[arguments.length - 1];
        axe.run(document).then((r) => done(r.violations), (e) => done([String(e)]));""")
    assert not found, json.dumps(found, indent=1)[:3000]


def sheets_of_paper(driver, folder):
    printed = driver.execute_cdp_cmd("Page.printToPDF", {"preferCSSPageSize": True})
    file = folder / "printed.pdf"
    file.write_bytes(base64.b64decode(printed["data"]))
    told = subprocess.run(["pdfinfo", file], capture_output=True, text=True, check=True).stdout
    return int(next(line.split()[1] for line in told.splitlines() if line.startswith("Pages:")))


def first_paint(driver):
    return driver.execute_script(
        "return performance.getEntriesByName('first-contentful-paint').map((e) => e.startTime)[0]")


def until(what, seconds=60):
    """Waits for `what` to be true; what it then is."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            found = what()
        except StaleElementReferenceException:
            found = None  # drawn anew while it was looked at
        if found:
            return found
        time.sleep(0.02)
    raise AssertionError("waited in vain")


def page_is_used(driver, program, folder, examples, axe):
    """The job of an owner: open, change, be corrected, undo, lose power, go on, save."""
    yard = folder / "yard"
    yard.mkdir()
    shutil.copy(examples / "ninefields.yaml", yard)
    before = (yard / "ninefields.yaml").read_text(encoding="utf-8")
    with Served(program, yard) as served:
        # As many clients that never finish what they say as a browser would open.
        slow = [socket.create_connection(("127.0.0.1", served.port)) for _ in range(6)]
        for client in slow:
            client.sendall(b"POST /look HTTP/1.1\r\nHost: 127.0.0.1\r\n")
        field = lambda: driver.find_element(By.ID, "f-horses-0-bodyweight")
        answer = lambda: driver.find_element(By.ID, "answer").text

        def typed(words):
            # To what has the focus, as a keyboard does, also when it is drawn anew in between.
            def begin():
                driver.execute_script("arguments[0].focus(); arguments[0].select()", field())
                return True
            until(begin)
            for letter in words:
                ActionChains(driver).send_keys(letter).perform()

        for width in (phone, desk):
            driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {
                "width": width, "height": 800, "deviceScaleFactor": 1, "mobile": False})
            driver.get(served.address)
            until(lambda: "Juniper" in answer())
            nothing_sticks_out(driver)
            anyone_can_use_it(driver, axe)
        for client in slow:
            client.close()
        first = answer()
        # By the keyboard alone: a card is opened with Enter.
        driver.find_element(By.CSS_SELECTOR, ".card summary").send_keys(Keys.ENTER)
        until(lambda: field().is_displayed())
        started = time.monotonic()
        typed("600 kg")
        until(lambda: answer() != first)
        print(f"page: a new answer {1000 * (time.monotonic() - started):.0f} ms after the first key")
        heavier = answer()
        typed("600 stones")
        until(lambda: any("`stones` is not a unit of weight" in mistake.text for mistake
                          in driver.find_elements(By.CSS_SELECTOR, ".field > .mistake")))
        assert answer() == heavier, "the answer went away with a mistake"
        nothing_sticks_out(driver)
        anyone_can_use_it(driver, axe)
        driver.find_element(By.ID, "undo").click()
        until(lambda: field().get_attribute("value") == "600 kg")
        until(lambda: not driver.find_elements(By.CSS_SELECTOR, ".field > .mistake"))
        served.kill()
        assert (yard / "ninefields.yaml").read_text(encoding="utf-8") == before

    with Served(program, yard) as served:
        driver.get(served.address)
        until(lambda: driver.find_element(By.ID, "kept").is_displayed())
        driver.find_element(By.ID, "take").click()
        until(lambda: answer() == heavier)
        driver.find_element(By.ID, "save").click()
        until(lambda: "is saved" in driver.find_element(By.ID, "told").text)
        saved = (yard / "ninefields.yaml").read_text(encoding="utf-8")
        assert saved == before.replace("540 kg", "600 kg", 1), "more than the field was changed"
        assert not list(yard.glob(".*")), "unsaved work is left behind"
        console_is_silent(driver)
        served.stop()


def must_fail(check, *arguments):
    try:
        check(*arguments)
    except AssertionError:
        return
    sys.exit(f"{check.__name__} sees nothing wrong where something is")


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--program", required=True, type=pathlib.Path)
    arguments.add_argument("--tree", required=True, type=pathlib.Path)
    given = arguments.parse_args()
    examples = given.tree / "scenarios" / "examples"
    pages = {  # and how many plots each has at least
        "ration": (["ration", "--format", "html", examples / "ninefields.yaml"], 0),
        "none": (["ration", "--format", "html", examples / "longacre.yaml"], 0),
        "offers": (["offers", "--price", "oats", "--limit", "starch a day", "--format", "html",
                    examples / "ninefields.yaml"], 3),
        "winter": (["winter", "--format", "html", examples / "dry-year.yaml"], 6),
        "stretch": (["stretch", "--format", "html", examples / "dry-year.yaml"], 6),
        "needs": (["needs", "--format", "html", examples / "ninefields.yaml"], 0),
        "sheet": (["ration", "--format", "sheet", examples / "longacre.yaml"], 0),
    }
    driver = browser()
    try:
        with tempfile.TemporaryDirectory() as name:
            folder = pathlib.Path(name)
            axe = axe_script(folder)
            for page, (words, plots) in pages.items():
                file = folder / f"{page}.html"
                subprocess.run([given.program.resolve(), *words, "-o", file], check=True)
                for width, scheme in ((desk, "light"), (phone, "dark")):
                    show(driver, file, width, scheme)
                    console_is_silent(driver)
                    nothing_sticks_out(driver)
                    plots_are_drawn(driver, plots)
                    anyone_can_use_it(driver, axe)
                print(f"{page}: {file.stat().st_size // 1024} KiB, first paint "
                      f"{first_paint(driver):.0f} ms, {sheets_of_paper(driver, folder)} on paper")
            assert sheets_of_paper(driver, folder) == 2, "the sheet of 24 horses"
            must_fail(plots_are_drawn, driver, 1)
            page_is_used(driver, given.program.resolve(), folder, examples, axe)
            show(driver, folder / "sheet.html", phone, "light")
            driver.execute_script("""
                document.body.insertAdjacentHTML("beforeend",
                  "<img src='data:,'><div style='width: 2000px'>wide</div>");""")
            must_fail(nothing_sticks_out, driver, 0.2)
            must_fail(anyone_can_use_it, driver, axe)
    finally:
        driver.quit()


if __name__ == "__main__":
    main()
