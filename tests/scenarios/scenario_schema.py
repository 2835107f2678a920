"""Holds docs/reference/scenario.schema.json to scenario files and to the page of keys.

Sound files must pass; files whose mistake lies in keys or in the shape of a value
must not. The keys are those of docs/reference/scenario-file.md, which a test of the
reader holds to what the reader accepts.
"""

import argparse
import copy
import json
import pathlib
import re
import sys

import jsonschema
import yaml

# Of the files in mistakes/: those an editor can see without knowing any feed.
seen_by_schema = """
all_is_waste budget_below_zero budget_with_unit calendar_not_a_list can_be_had_in_a_list
change_in_parts cheaper_not_by_amount climate_not_by_month prices_not_by_month store_without_room
stores_not_a_list condition_off_the_scale content_without_unit feed_without_kind growing_without_mature_weight
half_a_meal horse_without_name label_beside_analysis mature_weight_of_a_grown_horse
misspelt_key missing_key question_changes_a_name question_of_no_keys question_of_unknown_work
question_prices_not_by_name question_unknown_key questions_not_a_list questions_too_many month_that_is_not month_without_word no_feed no_horses no_life_stage no_price
no_weight range_not_a_group_of_keys range_without_to season_may_end_without_to not_a_date not_a_group_of_keys not_a_list not_a_single_value number_with_unit price_below_zero
price_with_currency price_with_currency_code price_without_amount soaking_without_water
temperature_without_unit too_many_meals two_life_stages unknown_currency unknown_group unknown_key
unknown_shape unknown_trait unknown_work waste_without_unit weight_and_tape weight_below_zero
weight_in_ambiguous_tons weight_in_hexadecimal weight_in_wrong_unit weight_not_a_number
weight_with_decimal_comma weight_with_leading_zero weight_with_thousands_sign weight_without_unit
whole_file_is_a_list wish_without_amount wishes_without_amounts year_long_ago
""".split()


class Loader(yaml.SafeLoader):
    """YAML as editors read it for a schema: a date stays text."""


Loader.yaml_implicit_resolvers = {
    first: [(tag, regexp) for tag, regexp in resolvers if tag != "tag:yaml.org,2002:timestamp"]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def read(path):
    return yaml.load(path.read_text(encoding="utf-8"), Loader)


def keys_on_page(page):
    """The keys of each group, from the tables under the headings of the page."""
    groups = {}
    heading = None
    for line in page.splitlines():
        if line.startswith("## "):
            heading = line[3:]
        elif line.startswith("#"):
            heading = None
        elif heading and (key := re.match(r"\| `([^`]+)` \| [^|]+ \| [^|]+ \| [^|]*\|$", line)):
            groups.setdefault(heading, set()).add(key.group(1))
    return groups


def keys_in_schema(schema):
    horse = schema["$defs"]["horse"]["properties"]
    offer = schema["$defs"]["offer"]["properties"]
    groups = {
        "The file": schema,
        "Season": schema["properties"]["season"],
        "Change": schema["properties"]["change"],
        "A horse": schema["$defs"]["horse"],
        "Condition": horse["condition"],
        "Cold": horse["cold"],
        "Feeds": horse["feeds"],
        "An instruction": horse["instructions"]["items"],
        "A feed on offer": schema["$defs"]["offer"],
        "A store": schema["properties"]["stores"]["items"],
        "An entry of the calendar": horse["calendar"]["items"],
        "Soaking": offer["soaking"],
        "May be": offer["may be"],
        "A question": schema["$defs"]["question"],
    }
    return {heading: set(group["properties"]) for heading, group in groups.items()}


def groups_of_keys(document, path=()):
    """The path of every group of keys whose keys the schema knows."""
    open_groups = {"analysis", "label", "fed now", "at least", "at most", "exactly"}
    if isinstance(document, dict):
        if not path or path[-1] not in open_groups:
            yield path
        for key, value in document.items():
            yield from groups_of_keys(value, path + (key,))
    elif isinstance(document, list):
        for index, value in enumerate(document):
            yield from groups_of_keys(value, path + (index,))


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--tree", type=pathlib.Path, required=True)
    tree = parser.parse_args().tree
    here = tree / "tests" / "scenarios"
    schema = json.loads((tree / "docs/reference/scenario.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    faults = []

    sound = [here / "everything.yaml", *sorted((tree / "scenarios/examples").glob("*.yaml"))]
    for path in sound:
        for error in validator.iter_errors(read(path)):
            faults.append(f"{path.name}: {list(error.absolute_path)}: {error.message}")

    everything = read(sound[0])
    groups = list(groups_of_keys(everything))
    for path in groups:
        damaged = copy.deepcopy(everything)
        group = damaged
        for step in path:
            group = group[step]
        group["colour"] = "bay"
        if validator.is_valid(damaged):
            faults.append(f"everything.yaml with a strange key at {list(path)} passes")

    for name in seen_by_schema:
        if validator.is_valid(read(here / "mistakes" / f"{name}.yaml")):
            faults.append(f"mistakes/{name}.yaml passes")

    page = keys_on_page((tree / "docs/reference/scenario-file.md").read_text(encoding="utf-8"))
    for heading, keys in keys_in_schema(schema).items():
        if keys != page.get(heading):
            faults.append(f"{heading}: the page has {page.get(heading)}, the schema {keys}")

    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"{len(sound)} sound files, {len(groups)} strange keys, {len(seen_by_schema)} mistakes")
    return 1 if faults or len(groups) < 10 else 0


if __name__ == "__main__":
    sys.exit(main())
