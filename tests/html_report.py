"""Reads the pages that `--format html` and `--format sheet` write: that they need nothing
else, say the words of the text report and the figures of the JSON, and take no name for
markup. Then each is spoiled, and that must be seen.
"""

import argparse
import html.parser
import json
import pathlib
import re
import subprocess
import tempfile

# As hostile as a name can be; the yard, a horse and a feed are called so.
hostile = "\"><script>alert('x')</script><img src=x onerror=alert(1)> {{name}} & ‘so’"
empty_elements = {"meta", "br", "img", "link", "input", "path", "rect", "hr"}


class Page(html.parser.HTMLParser):
    """Elements, attributes and texts; refuses what is not closed."""

    def __init__(self, text):
        super().__init__()
        self.open, self.elements, self.words, self.rulers, self.data = [], [], [], [], []
        self.feed(text)
        self.close()
        assert not self.open, f"not closed: {self.open}"

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        self.elements.append((tag, attributes))
        if "data-name" in attributes:
            self.rulers.append(float(attributes["data-supplied"]))
        if tag not in empty_elements:
            self.open.append(tag)

    def handle_startendtag(self, tag, attributes):
        self.elements.append((tag, dict(attributes)))

    def handle_endtag(self, tag):
        if tag in empty_elements:
            return
        assert self.open and self.open[-1] == tag, f"</{tag}> closes {self.open[-1:]}"
        self.open.pop()

    def handle_data(self, data):
        if self.open and self.open[-1] == "script":
            self.data.append(data)
        elif "style" not in self.open:
            self.words.append(data)

    def text(self):
        return " ".join(" ".join(self.words).split())


def run(program, *words, status=0):
    done = subprocess.run([program, *words], capture_output=True, text=True, check=False)
    assert done.returncode == status, f"{words}: exit status {done.returncode}\n{done.stderr}"
    return done.stdout


def needs_nothing_else(page):
    for tag, attributes in page.elements:
        for name in ("src", "href", "action", "data", "srcset"):
            value = attributes.get(name) or ""
            assert not value or value.startswith("#"), f"<{tag} {name}={value}>"
        assert not any(name.startswith("on") for name in attributes), f"<{tag}> {attributes}"
    policies = [a["content"] for t, a in page.elements if "http-equiv" in a and t == "meta"]
    assert len(policies) == 1 and "default-src 'none'" in policies[0], policies
    named = [a["id"] for _, a in page.elements if "id" in a]
    assert len(named) == len(set(named)), "an id twice"


def says_the_words(page, report):
    """Every line of the text report's tables and every word of its sentences."""
    said = page.text().replace("`", "")
    missing = [word for word in sorted(set(report.replace("`", "").split())) if word not in said]
    assert not missing, f"in the text, not on the page: {missing}"


def has_the_figures(page, answer):
    supplied = [nutrient["supplied"] for horse in answer["horses"]
                for nutrient in (horse.get("practical") or horse)["nutrients"]
                if nutrient["floor"] is not None or nutrient["ceiling"] is not None]
    assert supplied and page.rulers == supplied, (page.rulers, supplied)


def plots_of(page):
    plots = [json.loads(data) for data in page.data if data.startswith("{")]
    assert plots, "no plot"
    return plots


def stores_are_drawn(program, scenario):
    """By both commands that plan a season: it is one plan."""
    answer = json.loads(run(program, "winter", "--format", "json", scenario))
    stocks = [feed for feed in answer["stock"]
              if any(w["kg_opening"] + w["kg_bought"] > 0 for w in feed["weeks"])]
    for command in ("winter", "stretch"):
        page = Page(run(program, command, "--format", "html", scenario))
        needs_nothing_else(page)
        plots = plots_of(page)
        assert len(plots) == len(stocks), (command, len(plots), len(stocks))
        for plot, feed in zip(plots, stocks):
            assert [y for _, y in plot["lines"][0]["points"]] == [
                week["kg_closing"] for week in feed["weeks"]], feed["feed"]


def hostile_names_stay_words(program, scenario, folder):
    text = scenario.read_text(encoding="utf-8")
    quoted = json.dumps(hostile, ensure_ascii=False)
    text = re.sub(r"name: Bramble\b", lambda _: f"name: {quoted}", text)
    text = re.sub(r"^yard: .*$", lambda _: f"yard: {quoted}", text, flags=re.MULTILINE)
    text = re.sub(r"name: our hay\b", lambda _: f"name: {quoted}", text)
    assert text.count("onerror") == 3, "the example has other names now"
    text = text.replace("our hay:", f"{quoted}:")
    file = folder / "hostile.yaml"
    file.write_text(text, encoding="utf-8")
    for words in (["ration", "--format", "html"], ["ration", "--format", "sheet"],
                  ["winter", "--format", "html"]):
        page = Page(run(program, *words, file))
        needs_nothing_else(page)
        assert not [t for t, _ in page.elements if t == "img"], "a name became an image"
        assert " ".join(hostile.split()) in page.text(), f"{words}: the name is not told"
        assert not any("alert('x')" in data and not data.startswith("{") for data in page.data)


def sheet_tells_every_meal(program, scenario):
    page = Page(run(program, "ration", "--format", "sheet", scenario))
    needs_nothing_else(page)
    text = page.text()
    for horse in json.loads(run(program, "ration", "--format", "json", scenario))["horses"]:
        assert horse["name"] in text, horse["name"]
        for meal in horse["practical"]["meals"]:
            for portion in meal["feeds"]:
                kg = portion["kg_put_out"]
                told = f"{1000 * kg:.0f} g" if kg < 1 else f"{kg:.1f} kg"
                assert f"{told} {portion['feed']}" in text, (horse["name"], told, portion)


def must_fail(check, *arguments):
    try:
        check(*arguments)
    except AssertionError:
        return
    raise AssertionError(f"{check.__name__} sees nothing wrong in {str(arguments)[:80]}")


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--program", required=True)
    arguments.add_argument("--tree", required=True, type=pathlib.Path)
    given = arguments.parse_args()
    examples = given.tree / "scenarios" / "examples"
    one, two = examples / "summerfield.yaml", examples / "dry-year.yaml"

    page_text = run(given.program, "ration", "--format", "html", one)
    page = Page(page_text)
    needs_nothing_else(page)
    report = run(given.program, "ration", "--color", "never", one)
    says_the_words(page, report)
    answer = json.loads(run(given.program, "ration", "--format", "json", one))
    has_the_figures(page, answer)
    offers = Page(run(given.program, "offers", "--price", "oats", "--format", "html", two))
    needs_nothing_else(offers)
    plots_of(offers)
    stores_are_drawn(given.program, two)
    sheet_tells_every_meal(given.program, two)
    with tempfile.TemporaryDirectory() as folder:
        hostile_names_stay_words(given.program, two, pathlib.Path(folder))

    must_fail(needs_nothing_else, Page(page_text.replace("</main>", "<img src='//x'></main>")))
    must_fail(says_the_words, page, report + " unsaid")
    must_fail(Page, page_text.replace("</table>", "", 1))
    page.rulers[0] += 1e-9
    must_fail(has_the_figures, page, answer)
    print("the pages need nothing else and say what text and JSON say")


if __name__ == "__main__":
    main()
