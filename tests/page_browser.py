"""Uses what the page does beyond the fields (tests/browser.py has those) in Debian's
Chromium: other answers than the ration, a season planned with its progress, stopped, put
aside for a newer one, by the keyboard alone, on a phone; every figure that of the command
line. Two at once: who waits for a plan, and who says nothing at all, keep nobody waiting.
"""

import argparse
import json
import pathlib
import re
import shutil
import socket
import subprocess
import tempfile
import threading
import time
import urllib.request

from browser import (anyone_can_use_it, axe_script, browser, console_is_silent, desk,
                     must_fail, nothing_sticks_out, phone, plots_are_drawn, until)
from served_page import Served
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys


def run(program, *words):
    return subprocess.run([program, *words], capture_output=True, text=True, check=False).stdout


class Page:
    """The page as somebody sees it who has opened `file` of a folder."""

    def __init__(self, driver, served, file):
        self.driver = driver
        driver.get(served.address)
        until(lambda: self.answer(), 60)  # to the first file of the folder
        if not driver.title.endswith(file):
            before = self.answer()
            driver.execute_script("document.getElementById('files').value = arguments[0]", file)
            driver.find_element(By.ID, "open").click()
            until(lambda: driver.title.endswith(file) and self.answer() != before, 60)

    def answer(self):
        return self.driver.execute_script(
            "return document.getElementById('answer').textContent.replace(/\\s+/g, ' ').trim()")

    def told(self):
        return self.driver.find_element(By.ID, "told").text

    def is_planning(self):
        return self.driver.find_element(By.ID, "planstop").is_displayed()

    def take_notes(self):
        """From now on all that is told of a plan, also what is gone before anyone looks."""
        self.read = 0
        self.driver.execute_script("""
            const at = (id) => document.getElementById(id);
            const note = () => window.notes.push({
              words: at("planat").textContent, planning: !at("planstop").hidden && !at("plan").hidden,
              old: document.querySelector(".answer").classList.contains("old")});
            window.notes = [];
            window.noting?.disconnect();
            window.noting = new MutationObserver(note);
            window.noting.observe(at("plan"), {
              subtree: true, childList: true, attributes: true, characterData: true});
            note();""")

    def notes(self):
        return self.driver.execute_script("return window.notes")

    def is_told(self, *words):
        """Waits until one of `words` was told of a plan, after what was waited for before;
        WasOver where the plan's end comes first."""
        def told_or_over():
            notes = self.notes()
            for i in range(self.read, len(notes)):
                if any(word in notes[i]["words"] for word in words):
                    self.read = i + 1
                    return "told"
            begun = any(note["planning"] for note in notes)
            return "over" if begun and not notes[-1]["planning"] else None
        if until(told_or_over, 300) == "over":
            raise WasOver

    def choose(self, view):
        """As the keyboard does it: to the choice by Tab, then with the arrows."""
        chosen = lambda: self.driver.execute_script(
            "return document.querySelector('#views :checked').value")
        self.driver.execute_script("document.querySelector('#views :checked').focus()")
        for _ in range(6):
            if chosen() == view:
                return
            was = chosen()
            self.driver.switch_to.active_element.send_keys(Keys.ARROW_RIGHT)
            until(lambda: chosen() != was)
        raise AssertionError(f"no choice `{view}`")

    def width(self, width):
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {
            "width": width, "height": 800, "deviceScaleFactor": 1, "mobile": False})


def words_of_html(driver, html):
    """What a report as a file says, but for its head and its list of parts."""
    return driver.execute_script("""
        const main = new DOMParser().parseFromString(arguments[0], "text/html").querySelector("main");
        main.querySelector("nav")?.remove();
        return main.textContent.replace(/\\s+/g, ' ').trim();""", html)


def says_what_the_command_says(page, program, file, view):
    html = run(program, view, "--format", "html", file)
    assert page.answer() == words_of_html(page.driver, html), f"{view}: other words than the command's"


def rulers_are_those_of_the_json(page, program, file):
    horses = json.loads(run(program, "ration", "--format", "json", file))["horses"]
    supplied = [n["supplied"] for horse in horses for n in (horse.get("practical") or horse)["nutrients"]
                if n["floor"] is not None or n["ceiling"] is not None]
    drawn = page.driver.execute_script(
        "return [...document.querySelectorAll('[data-supplied]')].map((e) => Number(e.dataset.supplied))")
    assert supplied and drawn == supplied, (drawn[:5], supplied[:5])


def plots_are_those_of_the_json(page, program, file):
    stock = json.loads(run(program, "winter", "--format", "json", file))["stock"]
    kept = [[week["kg_closing"] for week in feed["weeks"]] for feed in stock
            if any(week["kg_opening"] + week["kg_bought"] > 0 for week in feed["weeks"])]
    drawn = page.driver.execute_script("""
        return [...document.querySelectorAll("figure > script")].map((each) =>
          JSON.parse(each.textContent).lines[0].points.map(([, y]) => y));""")
    assert kept and drawn == kept, (drawn[:1], kept[:1])


def every_answer_is_that_of_the_command(driver, program, yard, axe):
    with Served(program, yard) as served:
        page = Page(driver, served, "dry-year.yaml")
        page.width(desk)
        rulers_are_those_of_the_json(page, program, yard / "dry-year.yaml")
        for view in ("ration", "needs", "audit", "offers", "winter", "stretch"):
            page.choose(view)
            until(lambda: not page.is_planning() and page.answer(), 60)
            until(lambda: page.answer() == words_of_html(
                driver, run(program, view, "--format", "html", yard / "dry-year.yaml")), 20)
            if view == "winter":
                plots_are_those_of_the_json(page, program, yard / "dry-year.yaml")
                plots_are_drawn(driver, 6)
            for width in (phone, desk):
                page.width(width)
                nothing_sticks_out(driver)
                anyone_can_use_it(driver, axe)
        must_fail(says_what_the_command_says, page, program, yard / "dry-year.yaml", "winter")
        console_is_silent(driver)
        served.stop()


# Of the same yard more horses, all unlike, take longer to plan for.
most_horses = 256


def yard_of(horses, examples):
    """A yard with so many horses and a winter; what there is to eat is Ninefields', and
    enough of it: else there would be no plan to make whole packs of."""
    eaten = (examples / "ninefields.yaml").read_text(encoding="utf-8")
    eaten = re.sub(r"on hand: [^,}\n]*,? ?", "", eaten[eaten.index("forage:"):])
    works = ("none", "light", "moderate", "heavy")
    return ("yard: Long Lane\nmoney: GBP\nseason: {from: 2026-11-01, until: 2027-04-20}\nhorses:\n"
            + "".join(f"  - {{name: Horse {i + 1}, bodyweight: {400 + i * (i % 7 + 3) % 200} kg, "
                      f"work: {works[i % 4]}, energy factor: {0.9 + 0.02 * (i % 11):.2f}}}\n"
                      for i in range(horses))
            + eaten)


class WasOver(Exception):
    """The plan came to its end before the test had done what it is to interrupt."""


def a_season_is_followed_and_stopped(driver, program, yard, axe):
    """On a yard that takes long enough on this machine: a fast one plans for more horses."""
    horses = 4
    while horses <= most_horses:
        (yard / "long-lane.yaml").write_text(yard_of(horses, yard), encoding="utf-8")
        with Served(program, yard) as served:
            try:
                followed_and_stopped(driver, served, axe)
                print(f"page: a plan for {horses} horses was followed and stopped")
                return
            except WasOver:
                horses *= 2
            finally:
                driver.get("about:blank")  # before there is nobody to answer the page
                console_is_silent(driver)
                served.stop()  # also ends what may still be at work
    raise AssertionError(f"no plan was caught at work, with up to {most_horses} horses")


def followed_and_stopped(driver, served, axe):
    page = Page(driver, served, "long-lane.yaml")
    page.take_notes()
    page.choose("winter")
    page.is_told("planning the winter")
    with served.held():
        for width in (phone, desk):
            page.width(width)
            nothing_sticks_out(driver)
            anyone_can_use_it(driver, axe)
    # What is told while packs are counted, and after: a plan is known by then.
    page.is_told("whole packs", "would cost")
    with served.held():
        # By the keyboard: Tab leads from the choice to the button, which Enter presses.
        driver.execute_script("document.querySelector('#views :checked').focus()")
        driver.switch_to.active_element.send_keys(Keys.TAB)
        if not page.is_planning():
            raise WasOver
        focus = driver.switch_to.active_element
        assert focus.get_attribute("id") == "planstop", focus.get_attribute("outerHTML")
        focus.send_keys(Keys.ENTER)
    pressed = time.monotonic()
    until(lambda: not page.is_planning(), 120)
    print(f"page: a plan ends {time.monotonic() - pressed:.1f} s after Stop")
    if "stopped" not in page.told():
        raise WasOver  # or Stop stops nothing: then no yard is large enough
    assert "Stopped before it was done" in page.answer(), page.answer()[:200]
    assert "The plan is certified" in page.answer(), page.answer()[:400]
    assert driver.find_element(By.ID, "planagain").is_displayed()
    page.take_notes()
    driver.find_element(By.ID, "planagain").click()
    page.is_told("planning the winter")
    # A newer change puts the plan aside for another.
    with served.held():
        driver.find_element(By.CSS_SELECTOR, ".card summary").click()
        weight = driver.find_element(By.ID, "f-horses-0-bodyweight")
        driver.execute_script("arguments[0].select()", weight)
        if not page.is_planning():
            raise WasOver
        page.take_notes()
        weight.send_keys("545 kg")
    until(lambda: "545 kg" in driver.find_element(By.ID, "text").get_attribute("value"), 60)
    page.is_told("beginning")
    page.is_told("planning the winter")
    assert all(note["old"] for note in page.notes() if note["words"] == "beginning"), page.notes()
    # Back to the ration: the plan is given up.
    page.choose("ration")
    until(lambda: "Horse 1" in page.answer() and not page.is_planning(), 60)


def milliseconds_from_input_to_answer(driver, act, times=9):
    """The middle of so many: from the last event of typing or moving to the new answer drawn."""
    taken = []
    for i in range(times):
        driver.execute_script("""
            window.asked = 0;
            window.answered = 0;
            addEventListener("input", () => { window.asked = performance.now(); }, true);
            window.noting?.disconnect();
            window.noting = new MutationObserver(() => requestAnimationFrame(() => {
              window.answered = performance.now(); }));
            window.noting.observe(document.getElementById("answer"), { childList: true });""")
        act(i)
        until(lambda: driver.execute_script("return window.answered > window.asked"), 60)
        taken.append(driver.execute_script("return window.answered - window.asked"))
    return sorted(taken)[times // 2]


def sliders_move_the_answer(driver, program, yard, axe):
    """By the keyboard alone, and the file stays as it is until it is told otherwise."""
    file = yard / "ninefields.yaml"
    before = file.read_text(encoding="utf-8")
    with Served(program, yard) as served:
        page = Page(driver, served, file.name)
        until(lambda: "Juniper" in page.answer(), 60)
        first = page.answer()
        text = lambda: driver.find_element(By.ID, "text").get_attribute("value")
        price = lambda: driver.find_element(By.ID, "slider-0")
        forage = lambda: driver.find_element(By.ID, "slider-1")
        marks = lambda: driver.execute_script("""
            return [...document.querySelectorAll("#whatif figure > script")].map((each) =>
              JSON.parse(each.textContent).marks.map(({ x }) => x));""")
        driver.find_element(By.CSS_SELECTOR, "#whatif summary").send_keys(Keys.ENTER)
        until(lambda: len(driver.find_elements(By.CSS_SELECTOR, "#sliders input")) == 2, 60)
        until(lambda: len(marks()) == 2, 60)
        assert page.answer() == first, "the answer is another though nothing was moved"
        for width in (phone, desk):
            page.width(width)
            nothing_sticks_out(driver)
            anyone_can_use_it(driver, axe)
        plots_are_drawn(driver, 2)

        price().send_keys(Keys.ARROW_RIGHT)
        until(lambda: "As if our hay costs 4.60 GBP per bale" in page.answer(), 60)
        assert price().get_attribute("aria-valuetext") == "4.60 GBP per bale"
        assert "The file is not changed" in page.told(), page.told()
        assert marks() == [[4.5, 4.6], [50]], marks()
        changed = yard / "changed.yaml"
        changed.write_text(before.replace("4.50 per bale", "4.60 per bale"), encoding="utf-8")
        rulers_are_those_of_the_json(page, program, changed)
        changed.unlink()
        must_fail(rulers_are_those_of_the_json, page, program, yard / "dry-year.yaml")

        # No key brings the forage below what the rules ask of anyone.
        for key in (Keys.HOME, Keys.PAGE_DOWN, Keys.ARROW_LEFT):
            forage().send_keys(key)
        assert forage().get_attribute("value") == "50" == forage().get_attribute("min")
        assert "here nobody gets less" in driver.find_element(By.ID, "slider-1-note").text
        forage().send_keys(Keys.END)
        until(lambda: "forage is at least 100 % of the dry matter" in page.answer(), 60)
        assert "not every horse has a ration" in page.told(), page.told()
        for width in (phone, desk):
            page.width(width)
            nothing_sticks_out(driver)
            anyone_can_use_it(driver, axe)
        driver.find_element(By.CSS_SELECTOR, "[aria-label='Back: Forage, at least']").send_keys(Keys.ENTER)
        until(lambda: "forage is at least" not in page.answer(), 60)

        def step(i):
            price().send_keys(Keys.ARROW_RIGHT if i % 2 == 0 else Keys.ARROW_LEFT)
        print(f"page: {milliseconds_from_input_to_answer(driver, step):.0f} ms from a slider "
              "moved to the answer drawn, four horses")
        assert text() == before == file.read_text(encoding="utf-8"), "a slider changed the file"

        driver.find_element(By.XPATH, "//button[starts-with(., 'Write 4.70 GBP per bale')]").send_keys(Keys.ENTER)
        until(lambda: "price: 4.70 per bale" in text(), 60)
        until(lambda: "As if" not in page.answer() and page.answer() != first, 60)
        assert driver.switch_to.active_element.get_attribute("id") == "slider-0"
        driver.find_element(By.ID, "undo").click()
        until(lambda: text() == before and page.answer() == first, 60)
        console_is_silent(driver)
        served.stop()


def what_is_typed_is_saved(driver, program, yard):
    """Two fields changed at once, a third while they are, and saved with the last key."""
    file = yard / "in-haste.yaml"
    before = (yard / "ninefields.yaml").read_text(encoding="utf-8")
    file.write_text(before, encoding="utf-8")
    with Served(program, yard) as served:
        page = Page(driver, served, file.name)
        weights = [line.split(":")[1].split("#")[0].strip() for line in before.splitlines()
                   if line.strip().startswith("bodyweight:")][:2]
        name = driver.find_element(By.ID, "f-yard")
        driver.execute_script("arguments[0].focus(); arguments[0].select()", name)
        driver.execute_script("""
            for (const [horse, weight] of [[0, "551 kg"], [1, "441 kg"]]) {
              const field = document.getElementById(`f-horses-${horse}-bodyweight`);
              field.value = weight;
              field.dispatchEvent(new Event("change"));
            }""")
        driver.switch_to.active_element.send_keys("Haste" + Keys.CONTROL + "s")
        until(lambda: "is saved" in page.told(), 60)
        after = file.read_text(encoding="utf-8")
        wanted = before.replace("yard: Ninefields Yard", "yard: Haste", 1)
        for weight, other in zip(weights, ("551 kg", "441 kg")):
            wanted = wanted.replace(weight, other, 1)
        assert after == wanted, after[:600]
        console_is_silent(driver)
        served.stop()
    file.unlink()


def what_is_refused_harms_nothing(driver, program, yard):
    """Words that would break the file are told at the field, and the file stays."""
    with Served(program, yard) as served:
        page = Page(driver, served, "ninefields.yaml")
        text = lambda: driver.find_element(By.ID, "text").get_attribute("value")
        before, answer = text(), page.answer()
        driver.execute_script("document.querySelectorAll('.card').forEach((each) => { each.open = true; })")
        health = driver.find_element(By.ID, "f-horses-0-health")
        was = health.get_attribute("value")
        driver.execute_script("arguments[0].focus(); arguments[0].select()", health)
        health.send_keys("[ulcers")
        until(lambda: any("this cannot be changed here" in mistake.text for mistake
                          in driver.find_elements(By.CSS_SELECTOR, ".field > .mistake")), 60)
        assert health.get_attribute("aria-invalid") == "true"
        driver.execute_script("arguments[0].select()", health)
        health.send_keys(was)
        until(lambda: not driver.find_elements(By.CSS_SELECTOR, ".field > .mistake"), 60)
        assert text() == before and page.answer() == answer
        console_is_silent(driver)
        served.stop()


def post(served, path, what):
    request = urllib.request.Request(served.address.rstrip("/") + path, json.dumps(what).encode())
    with urllib.request.urlopen(request, timeout=120) as response:
        return json.load(response)


def nobody_waits_for_another(program, yard):
    """While a season is planned and others hang on the line, a ration is answered."""
    text = (yard / "ninefields.yaml").read_text(encoding="utf-8")
    with Served(program, yard) as served:
        slow = [socket.create_connection(("127.0.0.1", served.port)) for _ in range(6)]
        for client in slow:
            client.sendall(b"POST /look HTTP/1.1\r\nHost: 127.0.0.1\r\n")
        plan = post(served, "/plan", {"text": text, "file": "a", "view": "winter"})
        until(lambda: post(served, "/planned", plan)["state"] == "working")
        answers = []

        def look():
            answers.append(post(served, "/look", {"text": text, "file": "a"})["answer"])

        clients = [threading.Thread(target=look) for _ in range(4)]
        for client in clients:
            client.start()
        for client in clients:
            client.join()
        assert len(set(answers)) == 1 and "Certified" in answers[0]
        assert post(served, "/planned", plan)["state"] == "working", "the plan was over before"
        for client in slow:
            client.close()
        served.stop()


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--program", required=True, type=pathlib.Path)
    arguments.add_argument("--tree", required=True, type=pathlib.Path)
    given = arguments.parse_args()
    program = given.program.resolve()
    driver = browser()
    try:
        with tempfile.TemporaryDirectory() as name:
            folder = pathlib.Path(name)
            yard = folder / "yard"
            yard.mkdir()
            for file in ("dry-year.yaml", "ninefields.yaml"):
                shutil.copy(given.tree / "scenarios" / "examples" / file, yard)
            axe = axe_script(folder)
            nobody_waits_for_another(program, yard)
            every_answer_is_that_of_the_command(driver, program, yard, axe)
            what_is_typed_is_saved(driver, program, yard)
            what_is_refused_harms_nothing(driver, program, yard)
            sliders_move_the_answer(driver, program, yard, axe)
            a_season_is_followed_and_stopped(driver, program, yard, axe)
    finally:
        driver.quit()


if __name__ == "__main__":
    main()
