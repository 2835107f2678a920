"""Keeps the pictures of the documentation from going stale, and makes them anew.

A picture is a piece of a page of the program, as Debian's Chromium shows it. Pixels differ
from one font and one browser to the next, so what is compared is what a picture was made
from: docs/pictures/made-from.json holds, for every picture, the hash of the page, of how it
was taken, and of the picture itself. Nobody needs a browser for that; `--renew` does, which
HAYMOW_UPDATE=1 stands for, and Debian's imagemagick: it takes every picture anew whose page
is another by now.
"""

import argparse
import base64
import contextlib
import hashlib
import json
import os
import pathlib
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import urllib.request

import served_page

most_bytes = 100 * 1024
renew_with = "HAYMOW_UPDATE=1 tests/run -R docs_pictures   (with Chromium: see tests/browser.py)"

# `of`: the command whose page it is; nothing for the page in a browser. `from` and `to`: the
# first and the last element that are in it, by their words or as CSS; `wide`: of the window.
pictures = {
    "ration.png": {"of": ["ration", "my-yard.yaml"], "from": "h1",
                   "to": "h3:What to feed + section", "wide": 800},
    "needs.png": {"of": ["ration", "my-yard.yaml"], "from": "h3:Needs, from the least to the most",
                  "to": "tr:vitamin E", "wide": 800},
    "offers.png": {"of": ["offers", "--price", "oats", "ninefields.yaml"],
                   "from": "figcaption:What is fed", "to": "figcaption:What is fed + .canvas",
                   "wide": 800},
    "sheet.png": {"of": ["ration", "--format", "sheet", "ninefields.yaml"], "from": "h1",
                  "to": ".stop", "wide": 1100},
    "winter.png": {"of": ["winter", "dry-year.yaml"], "from": "figcaption:our hay",
                   "to": "figcaption:beet pulp + .canvas", "wide": 800},
    # A horse typed in: the field, and what stands there then.
    "page.png": {"typed": {"f-horses-0-name": "Juniper", "f-horses-0-bodyweight": "540 kg"},
                 "was": {"f-horses-0-name": "Clover", "f-horses-0-bodyweight": "500 kg"},
                 "wide": 1100, "high": 760},
}


def hash_of(data):
    return hashlib.sha256(data).hexdigest()


def page_of(program, examples, picture):
    """The page that a command writes."""
    words = list(picture["of"])
    if "--format" not in words:
        words[1:1] = ["--format", "html"]
    done = subprocess.run([program, *words], cwd=examples, capture_output=True, text=True,
                          encoding="utf-8", check=False)
    if done.returncode not in (0, 1) or not done.stdout:
        sys.exit(f"haymow {' '.join(words)}: exit status {done.returncode}\n{done.stderr}")
    return done.stdout


def typed_text(picture, text):
    """The file of the page after the typing; each field is one line of it."""
    for field, words in picture["typed"].items():
        line = f"{field.rsplit('-', 1)[1]}: {picture['was'][field]}"
        assert text.count(line) == 1, f"`{line}` is not in the file to start from"
        text = text.replace(line, line.replace(picture["was"][field], words))
    return text


@contextlib.contextmanager
def served(program, examples):
    """`haymow page` on a folder with the file to start from."""
    with tempfile.TemporaryDirectory() as name:
        shutil.copy(examples / "my-yard.yaml", name)
        with served_page.Served(program, name) as page:
            yield page.address.rstrip("/")


def parts_of_page(program, examples, picture):
    """What the browser is given: the form, and the answer to what is typed."""
    text = typed_text(picture, (examples / "my-yard.yaml").read_text(encoding="utf-8"))
    with served(program, examples) as address:
        def asked(path, what=None):
            data = json.dumps(what).encode() if what else None
            with urllib.request.urlopen(urllib.request.Request(address + path, data)) as answer:
                return answer.read().decode("utf-8")
        return [*map(asked, ("/", "/page.css", "/page.js")),
                json.loads(asked("/look", {"text": text, "file": "my-yard.yaml"}))["answer"]]


number = r"-?\d+\.\d+(?:e[-+]?\d+)?"


def in_six_figures(found):
    """The last figures of a number are another compiler's, and no picture shows them."""
    value = float(found.group())
    return f"{0.0 if abs(value) < 1e-9 else value:.6g}"


def source_of(program, examples, picture):
    """The hash of all that makes the picture what it is, the chart library excepted: that is
    Debian's, of another version on another machine."""
    parts = ([page_of(program, examples, picture)] if "of" in picture
             else parts_of_page(program, examples, picture))
    parts = [re.sub(number, in_six_figures,
                    re.sub(r"<script>[^<]*?Chart\.js v.*?</script>", "", part, flags=re.DOTALL))
             for part in parts]
    return hash_of("\0".join([json.dumps(picture, sort_keys=True), *parts]).encode("utf-8"))


# --- the browser

find = """
    const [what] = arguments;
    const [first, next] = what.split(" + ");
    const [tag, words] = first.split(":");
    let found = [...document.querySelectorAll(tag)].find(
      (e) => !words || e.textContent.trim().startsWith(words));
    if (found && next === "section") return found.closest("section").querySelector(".scroll");
    if (found && next) found = found.parentElement.querySelector(next);
    return found;
"""
edges = "const b = arguments[0].getBoundingClientRect(); return [b.top + scrollY, b.bottom + scrollY];"


def shot(driver, top, bottom, wide):
    taken = driver.execute_cdp_cmd("Page.captureScreenshot", {
        "captureBeyondViewport": True,
        "clip": {"x": 0, "y": top, "width": wide, "height": bottom - top, "scale": 1}})
    # Ink on paper needs few colours.
    small = subprocess.run(["/usr/bin/convert", "png:-", "-colors", "64", "-strip", "-define",
                            "png:compression-level=9", "png:-"],
                           input=base64.b64decode(taken["data"]), capture_output=True, check=True)
    return small.stdout


def take_of_command(browser, driver, text, picture, folder):
    file = folder / "page.html"
    file.write_text(text, encoding="utf-8")
    browser.show(driver, file, picture["wide"], "light")
    # What is folded is opened where it is the picture.
    driver.execute_script("""document.querySelectorAll('details').forEach((e) => {
        if (e.closest('figure')) e.remove(); else e.open = true; });""")
    ends = [driver.execute_script(find, picture[end]) for end in ("from", "to")]
    if None in ends:
        sys.exit(f"nothing on the page is {picture['from' if ends[0] is None else 'to']}")
    top = driver.execute_script(edges, ends[0])[0]
    bottom = driver.execute_script(edges, ends[1])[1]
    return shot(driver, max(0, int(top) - 12), int(bottom) + 4, picture["wide"])


def take_of_page(browser, driver, address, picture):
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {
        "width": picture["wide"], "height": picture["high"], "deviceScaleFactor": 1,
        "mobile": False})
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {
        "features": [{"name": "prefers-color-scheme", "value": "light"}]})
    driver.get(address)
    answer = lambda: driver.find_element("id", "answer").text
    browser.until(answer)
    driver.find_element("css selector", ".card summary").click()
    for field, words in picture["typed"].items():
        before = answer()
        browser.until(lambda: driver.find_element("id", field).is_displayed())
        driver.execute_script("const f = document.getElementById(arguments[0]); f.focus();"
                              "f.value = arguments[1]; f.dispatchEvent(new Event('input'))",
                              field, words)
        browser.until(lambda: answer() != before)
    driver.execute_script("scrollTo(0, 0)")
    return shot(driver, 0, picture["high"], picture["wide"])


def renew(program, examples, folder, stale):
    """Takes the pictures anew whose names are in `stale`."""
    import browser  # needs selenium, which a test without a browser does not have
    driver = browser.browser()
    try:
        with tempfile.TemporaryDirectory() as scratch:
            for name in stale:
                picture = pictures[name]
                if "of" in picture:
                    data = take_of_command(browser, driver, page_of(program, examples, picture),
                                           picture, pathlib.Path(scratch))
                else:
                    with served(program, examples) as address:
                        data = take_of_page(browser, driver, address, picture)
                (folder / name).write_bytes(data)
                print(f"{name}: {len(data) // 1024} KiB")
    finally:
        driver.quit()


# --- what is checked

def stale_ones(made_from, sources):
    return sorted(name for name, source in sources.items()
                  if made_from.get(name, {}).get("source") != source)


def is_as_taken(name, data, made_from):
    assert data[:8] == b"\x89PNG\r\n\x1a\n", f"{name} is no PNG"
    assert len(data) <= most_bytes, f"{name} has {len(data)} bytes, {most_bytes} are the most"
    assert hash_of(data) == made_from[name]["picture"], f"{name} is not the picture that was taken"
    wide, _ = struct.unpack(">II", data[16:24])
    assert wide == pictures[name]["wide"], f"{name} is {wide} wide"


def pages_show(tree, texts):
    """Every picture is on a page, with words for who does not see it, and is there."""
    shown = set()
    for page, text in texts.items():
        for words, target in re.findall(r"!\[([^\]]*)\]\(([^)]+)\)", text):
            file = (page.parent / target).resolve()
            assert file.is_file(), f"{page}: there is no {target}"
            assert len(words) > 20, f"{page}: {target} needs words for who does not see it"
            shown.add(file.name)
    unseen = sorted(set(pictures) - shown)
    assert not unseen, f"on no page: {unseen}"
    there = sorted(file.name for file in (tree / "docs" / "pictures").glob("*.png"))
    assert there == sorted(pictures), f"{there} in docs/pictures, {sorted(pictures)} are made"


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
    arguments.add_argument("--renew", action="store_true",
                           default=bool(os.environ.get("HAYMOW_UPDATE")))
    given = arguments.parse_args()
    program, folder = given.program.resolve(), given.tree / "docs" / "pictures"
    manifest = folder / "made-from.json"
    made_from = json.loads(manifest.read_text(encoding="utf-8")) if manifest.exists() else {}

    with tempfile.TemporaryDirectory() as name:
        examples = pathlib.Path(name)
        for example in (given.tree / "scenarios" / "examples").glob("*.yaml"):
            shutil.copy(example, examples)
        subprocess.run([program, "new", "-o", "my-yard.yaml"], cwd=examples, check=True,
                       capture_output=True)
        sources = {each: source_of(program, examples, picture)
                   for each, picture in pictures.items()}
        stale = stale_ones(made_from, sources)
        if given.renew and stale:
            renew(program, examples, folder, stale)
            made_from = {each: {"source": sources[each],
                                "picture": hash_of((folder / each).read_bytes())}
                         for each in sorted(pictures)}
            manifest.write_text(json.dumps(made_from, indent=1) + "\n", encoding="utf-8")
            stale = []
    if stale:
        sys.exit(f"the pages of {', '.join(stale)} look otherwise by now. Renew them, and look "
                 f"at each:\n  {renew_with}")
    for each in pictures:
        is_as_taken(each, (folder / each).read_bytes(), made_from)
    texts = {page: page.read_text(encoding="utf-8")
             for page in [given.tree / "README.md", *(given.tree / "docs").rglob("*.md")]}
    pages_show(given.tree, texts)

    assert stale_ones(made_from, {**sources, "ration.png": "another"}) == ["ration.png"]
    must_fail(is_as_taken, "ration.png", (folder / "ration.png").read_bytes() + b" ", made_from)
    must_fail(pages_show, given.tree, {page: text.replace("ration.png", "needs.png")
                                       for page, text in texts.items()})
    print(f"{len(pictures)} pictures show what the program shows")


if __name__ == "__main__":
    main()
