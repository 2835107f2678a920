"""Holds the program's JSON to docs/reference/report.schema.json, and to itself.

Every document the program can print is asked for and checked three times: against
the schema; against the schema with every object closed, so that no key is written
that the schema does not describe; and for what no schema can say (costs add up,
forced needs are met, the certificate is small). Then the documents are damaged,
and each damage must be noticed.
"""

import argparse
import copy
import json
import math
import pathlib
import subprocess
import sys

import jsonschema

nutrients = """energy crude_protein lysine calcium phosphorus magnesium potassium sodium chloride
sulphur iron manganese copper zinc iodine selenium cobalt vitamin_a vitamin_d vitamin_e thiamin
riboflavin""".split()

# A good doer whose hay is too rich: forage and the energy ceiling clash.
no_ration = """
yard: Thin Larder
money: GBP
horses:
  - {name: Dumpling, bodyweight: 300 kg, work: none, energy factor: 0.8}
  - {name: Dolly, bodyweight: 300 kg, work: none, health: [laminitis-prone]}
  - {name: Wisp, bodyweight: 480 kg, work: none, health: [colic]}
forage:
  - {feed: "meadow hay, early cut", name: our hay, price: 150 per tonne}
market:
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: salt, price: 11.00 per 25 kg bag}
"""

# One horse at a merchant's counter.
counter_yard = """
yard: Counter Yard
money: GBP
horses:
  - {name: Fern, bodyweight: 500 kg, work: moderate}
forage:
  - {feed: "meadow hay, average", name: our hay, price: 200 per tonne, waste: 8 %}
  - {feed: oat straw, price: 110 per tonne}
market:
  - {feed: "oats, rolled", name: oats, price: 5.60 per 20 kg bag}
  - {feed: "sugar beet pulp, unmolassed", name: beet pulp, price: 14.20 per 20 kg bag}
  - {feed: alfalfa chaff, price: 15.50 per 15 kg bag}
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}
  - {feed: salt, price: 11.00 per 25 kg bag}
"""

# A barn that is too small for the season.
short_of_hay = """
yard: Short Barn
money: GBP
season: {from: 2026-11-01, until: 2027-04-20}
horses:
  - {name: Fern, bodyweight: 500 kg, work: light, feeds: {at most: {oats: 1 kg}}}
forage:
  - {feed: "meadow hay, average", name: our hay, on hand: 300 kg, price: 5.00 per 20 kg bale}
market:
  - {feed: "oats, rolled", name: oats, price: 11.50 per 20 kg bag}
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: salt, price: 11.00 per 25 kg bag}
"""

# A certificate over a feed of the table, and a bag without energy.
own_feeds = """
money: GBP
horses: [{name: Fern, bodyweight: 500 kg, work: light}]
forage:
  - feed: "meadow hay, average"
    name: our hay
    analysis: {dry matter: 86 %, ME: 7.6 MJ/kg DM, crude protein: 9 % DM, WSC: 11 % DM, ESC: 7 % DM}
    price: 150 per tonne
market:
  - name: hill cubes
    group: compound
    label: {crude protein: 11 %, oil: 3.5 %, fibre: 17 %, ash: 8 %, copper: 35 mg/kg,
            vitamin A: 10000 IU/kg}
    price: 11.20 per 20 kg bag
  - {feed: salt, price: 11.00 per 25 kg bag}
"""

# Prices as people have them: a bale nobody weighed, delivery, published losses.
priced = """
yard: Dear Barn
money: GBP
horses:
  - {name: Fern, bodyweight: 500 kg, work: light}
forage:
  - {feed: "meadow hay, average", name: our hay, on hand: 30 quadrant bales, price: 45 per bale,
     delivery: 35 per load of 2 t, fed from: field, stored: outdoors on the ground}
  - {feed: "meadow hay, late cut", name: soaked hay, price: 5.00 per 20 kg bale, soaked: 30 min,
     waste: 5 %, storage loss: 3 %}
market:
  - {feed: "oats, rolled", name: oats, price: 11.50 per 20 kg bag}
  - {feed: salt, price: 90 per load of 600 kg}
"""

# Beet, hay in water, cubes for a mouth without teeth, and a clock.
soaked = """
yard: Wet Yard
money: GBP
feeding times: [07:00, 12:30, 18:00]
horses:
  - {name: Fern, bodyweight: 500 kg, work: light,
     feeds: {at least: {beet: 1 kg, our hay: 5 kg}}}
  - {name: Gran, bodyweight: 450 kg, work: none, health: [cannot chew long forage],
     feeds: {at least: {beet: 1 kg}}}
forage:
  - {feed: "meadow hay, average", name: our hay, price: 5.00 per 20 kg bale, soaked: 30 min}
market:
  - {feed: "sugar beet pulp, unmolassed", name: beet, price: 14.00 per 20 kg bag,
     soaking: {water: 3 parts, cold: 12 h, warm: 45 min}}
  - {feed: "alfalfa pellets", price: 12.00 per 20 kg bag}
  - {feed: "soya bean meal", price: 16.50 per 20 kg bag}
  - {feed: "oat straw", price: 110 per tonne}
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}
  - {feed: limestone flour, price: 6.50 per 3 kg tub}
  - {feed: salt, price: 11.00 per 25 kg bag}
  - name: fibre cubes
    group: dried forage
    traits: [hard]
    label: {dry matter: 88 %, energy: 7.6 MJ/kg, crude protein: 9 %, NDF: 50 %, starch: 3 %, sugar: 5 %,
            calcium: 0.6 %, phosphorus: 0.3 %}
    price: 9.00 per 20 kg bag
"""

# Grass to get fat on, the whole summer but April.
too_much_grass = """
yard: Green Field
money: GBP
season: {from: 2027-04-01, until: 2027-06-30}
horses:
  - name: Fern
    bodyweight: 500 kg
    work: none
    grazing: {turnout: {april: 3 h, may to june: 24 h}, grass: good, area: 2 ha}
forage:
  - {feed: "meadow hay, late cut", name: our hay, price: 5.00 per 20 kg bale}
market:
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}
  - {feed: salt, price: 11.00 per 25 kg bag}
"""

# A short winter: a mare that foals in it, a store, bags, a load, one horse for the vet.
winter = """
yard: Small Barn
money: GBP
season: {from: 2027-02-01, until: 2027-03-21, may end: 2027-03-10 to 2027-04-04}
stores: [{name: barn, room: 150 small bales}]
horses:
  - {name: Cob, bodyweight: 500 kg, work: light, grazing: {turnout: 4 h, grass: fair}}
  - {name: Fern, bodyweight: 560 kg, foaling: 2027-03-05}
  - {name: Wisp, bodyweight: 480 kg, work: none, health: [colic]}
forage:
  - {feed: "meadow hay, average", name: our hay, on hand: 20 bales of 18 kg, price: 4.50 per bale,
     waste: 8 %, stored: barn, kept in: barn}
  - {feed: "meadow hay, average", name: bought hay, price: 5.00 per 18 kg small bale,
     delivery: 30 per load of 900 kg, waste: 8 %, kept in: barn,
     may be: {price: 4.50 to 7 per bale, bale: 16 to 20 kg, crude protein: 70 to 110 g/kg DM}}
market:
  - {feed: "oats, rolled", name: oats, price: 11.50 per 20 kg bag}
  - {feed: "stud cubes", price: 13.60 per 20 kg bag}
  - {feed: "alfalfa chaff", price: 15.50 per 15 kg bag}
  - {feed: "soya bean meal", price: 16.50 per 20 kg bag}
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}
  - {feed: limestone flour, price: 6.50 per 3 kg tub}
  - {feed: salt, price: 11.00 per 25 kg bag}
"""
# Too little hay: as fed now it does not last; and with next to none there is no plan.
stretch = """
yard: Dry Barn
money: GBP
season: {from: 2027-02-01, until: 2027-03-21}
horses:
  - {name: Cob, bodyweight: 500 kg, work: light, fed now: {our hay: 12 kg, salt: 30 g}}
  - {name: Fern, bodyweight: 460 kg, work: none}
  - {name: Wisp, bodyweight: 480 kg, work: none, health: [colic]}
forage:
  - {feed: "meadow hay, average", name: our hay, on hand: 30 bales of 18 kg, price: 4.50 per bale,
     waste: 8 %}
  - {feed: "meadow hay, late cut", name: bought hay, price: 7.00 per 18 kg small bale,
     can be had: 40 bales of 18 kg, waste: 8 %}
market:
  - {feed: "oats, rolled", name: oats, price: 11.50 per 20 kg bag}
  - {feed: "soya bean meal", price: 16.50 per 20 kg bag}
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}
  - {feed: salt, price: 11.00 per 25 kg bag}
"""
no_stretch = stretch.replace("can be had: 40 bales", "can be had: 2 bales")
no_winter = winter.replace("foaling: 2027-03-05", "foaling: 2027-03-05, feeds: {none: [hay]}")

with_mistakes = """
yrd: Ninefields
horses:
  - {name: Juniper, bodyweight: 540, work: modrate}
"""


def closed(schema):
    """A copy in which an object has the keys that its schema names and no other."""
    if isinstance(schema, list):
        return [closed(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    copied = {key: closed(part) for key, part in schema.items()}
    if schema.get("type") == "object" and "properties" in schema:
        copied["additionalProperties"] = False
    return copied


class Program:
    def __init__(self, path):
        self.path = path

    def answer(self, status, *words, text=None):
        """The JSON document printed for `words`; `status` is the exit status it must have."""
        done = subprocess.run([self.path, *words, "--format", "json"], input=text or "",
                              capture_output=True, encoding="utf-8", timeout=120, check=False)
        if done.returncode != status:
            sys.exit(f"`{' '.join(words)}` ended with {done.returncode}, not {status}\n"
                     f"{done.stderr}")
        return json.loads(done.stdout)


def near(a, b):
    return math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-9)


def faults_of_ration(where, ration):
    """What is wrong with the sums of one ration: `feeds`, `nutrients`, `cost_per_day`."""
    if not near(sum(feed["cost_per_day"] for feed in ration["feeds"]), ration["cost_per_day"]):
        yield f"{where}: the feeds do not cost what the ration costs"
    for feed in ration["feeds"]:
        if not 0 < feed["kg_dry_matter"] < feed["kg_as_fed"] + 1e-9:
            yield f"{where}: {feed['feed']} has {feed['kg_dry_matter']} kg of dry matter"
        if feed["kg_put_out"] < feed["kg_as_fed"] - 1e-9:
            yield f"{where}: more {feed['feed']} is eaten than put out"
    if [s["nutrient"] for s in ration["nutrients"]] != nutrients:
        yield f"{where}: the nutrients are not those of the reference, in its order"
    for supply in ration["nutrients"]:
        for share in ("known_share", "memory_share"):
            if supply[share] > 1 + 1e-9:
                yield f"{where}: {share} of {supply['nutrient']} is {supply[share]}"


def faults_of_found(where, horse):
    yield from faults_of_ration(where, horse)
    rations = [horse]
    if horse["practical"]:
        yield from faults_of_ration(f"{where}, in steps", horse["practical"])
        rations.append(horse["practical"])
        # A share of the barn gives by one step of the scale, and may then cost less.
        shared = any(limit["id"].startswith("stock/") for limit in horse["limits"])
        if not shared and horse["practical"]["cost_per_day"] < horse["cost_per_day"] * (1 - 1e-6):
            yield f"{where}: whole steps cost less than the least"
    by_name = {}
    for ration in rations:
        for supply in ration["nutrients"]:
            if supply["forced"] and supply["supplied"] < (supply["floor"] or 0) * (1 - 1e-6):
                yield f"{where}: {supply['nutrient']} is short"
        for feed in ration["feeds"]:
            # One feed has one dry matter content, whatever the amount.
            share = feed["kg_dry_matter"] / feed["kg_as_fed"]
            if not near(by_name.setdefault(feed["feed"], share), share):
                yield f"{where}: {feed['feed']} has two dry matter contents"
        certificate = ration["certificate"]
        if not certificate["largest_violation"] <= 1e-6:
            yield f"{where}: a limit is missed"
    if not horse["certificate"]["relative_gap"] <= 1e-6:
        yield f"{where}: not certified as the cheapest"
    if not near(horse["certificate"]["lower_bound"], horse["cost_per_day"]):
        if abs(horse["certificate"]["lower_bound"] / horse["cost_per_day"] - 1) > 1e-6:
            yield f"{where}: the certified bound is far from the cost"
    for limit in horse["limits"]:
        if (limit["tightening_costs"] is None) != limit["tightening_leaves_no_ration"]:
            yield f"{where}: {limit['id']}: the cost of tightening and its reason differ"
    for worth in horse["worth"]:
        paid = sum(payment["per_kg_eaten"] for payment in worth["payments"])
        if abs(paid - worth["cost_per_kg_eaten"]) > 1e-5 * max(1, worth["cost_per_kg_eaten"]):
            yield f"{where}: {worth['feed']} costs {worth['cost_per_kg_eaten']}, is paid {paid}"
    fed = {feed["feed"] for feed in horse["feeds"]}
    unused = {feed["feed"] for feed in horse["unused"]}
    if fed & unused or fed != {feed["feed"] for feed in horse["worth"]}:
        yield f"{where}: the feeds fed and not fed are mixed up"


def faults_of_change(where, horse):
    """The steps of a change follow each other and end in the ration to feed."""
    plan = horse["change_plan"]
    if plan["changes"] and plan["safe"] != bool(plan["steps"]):
        yield f"{where}: a change is shown that is not safe, or none where there is one"
    if not plan["steps"]:
        return
    day = 1
    for step in plan["steps"]:
        if step["from_day"] != day:
            yield f"{where}: a step of the change begins on day {step['from_day']}, not {day}"
        day = (step["to_day"] or 0) + 1
        for row in step["broken"]:
            if row.get("strength") in ("law", "vet") and not row["broken_today"]:
                yield f"{where}: a step of the change breaks {row['id']}"
    last = plan["steps"][-1]
    if plan["days"] < 10 or last["from_day"] != plan["days"] + 1 or last["to_day"]:
        yield f"{where}: the change takes {plan['days']} days and its last step begins elsewhere"
    fed = {feed["feed"]: feed["kg_put_out"] for feed in (horse["practical"] or horse)["feeds"]}
    there = {feed["feed"]: feed["kg_put_out"] for feed in last["feeds"]}
    if fed.keys() != there.keys() or any(not near(fed[feed], there[feed]) for feed in fed):
        yield f"{where}: the change does not end in the ration"


def faults_of_none(where, horse):
    if not horse["proof_strength"] > 1e-6 or not horse["conflict"]:
        yield f"{where}: no proof that there is no ration"
    if not horse["nearest"]["misses"]:
        yield f"{where}: the nearest ration misses nothing"
    in_conflict = {row["id"] for row in horse["conflict"]}
    for mend in horse["mends"]:
        if "id" in mend and mend["id"] not in in_conflict:
            yield f"{where}: {mend['id']} is no part of what clashes"


def faults_of_answer(where, horse):
    if horse["status"] == "found":
        yield from faults_of_found(where, horse)
        if "change_plan" in horse:
            yield from faults_of_change(where, horse)
    elif horse["status"] == "none":
        yield from faults_of_none(where, horse)


def faults_of_explained(where, feed):
    share = feed["dry_matter_g_per_kg_as_fed"] / 1000
    named = [figure["nutrient"] for figure in feed["figures"]] + feed["unknown"]
    if len(named) != len(set(named)) or not set(nutrients) <= set(named):
        yield f"{where}: a nutrient is neither known nor unknown, or both"
    for figure in feed["figures"]:
        if not near(figure["per_kg_as_fed"], figure["per_kg_dry_matter"] * share):
            yield f"{where}: {figure['nutrient']} as fed is not that of the dry matter"
        own = figure["origin"] in ("laboratory", "label") or figure["how"]
        if feed["based_on"] and bool(own) == bool(figure["taken_over_from"]):
            yield f"{where}: whose figure {figure['nutrient']} is, is not said"
    energies = [e["mj_per_kg_dry_matter"] for e in feed["energy_equations"]
                if e["mj_per_kg_dry_matter"] is not None]
    spread = max(energies) - min(energies) if len(energies) > 1 else None
    if (spread is None) != (feed["energy_spread_mj_per_kg_dry_matter"] is None):
        yield f"{where}: a spread without equations, or none with them"
    elif spread is not None and abs(spread - feed["energy_spread_mj_per_kg_dry_matter"]) > 1e-9:
        yield f"{where}: the equations differ by {spread}"


def faults_of_soaking(where, document):
    """The yard soaks what its horses soak; what is put out is what is soaked."""
    meals = {}
    for horse in document["horses"]:
        if horse["status"] != "found":
            continue
        ration = horse["practical"] or horse
        put_out = {feed["feed"]: feed["kg_put_out"] for feed in ration["feeds"]}
        for feed in horse["soaking"]["feeds"]:
            meals[feed["feed"]] = meals.get(feed["feed"], 0) + feed["kg_dry_per_meal"]
            if not near(sum(feed["kg_dry_by_meal"]), put_out[feed["feed"]]):
                yield f"{where}: {horse['name']} soaks another amount of {feed['feed']}"
            printed = [sum(f["kg_put_out"] for f in meal["feeds"] if f["feed"] == feed["feed"])
                       for meal in (horse["practical"] or {}).get("meals", [])]
            if printed and not all(map(near, printed, feed["kg_dry_by_meal"])):
                yield f"{where}: {horse['name']} soaks {feed['feed']} unlike its meals"
            if feed["bucket_litres"] < feed["kg_dry_per_meal"] + feed["water_litres_per_meal"]:
                yield f"{where}: the bucket of {feed['feed']} runs over"
        for hay in horse["soaking"]["hay"]:
            if not near(hay["kg_dry_per_day"], put_out[hay["feed"]]):
                yield f"{where}: {horse['name']} soaks another amount of {hay['feed']}"
    for feed in document["soaking_of_yard"]["feeds"]:
        if not near(feed["kg_dry_per_meal"], meals[feed["feed"]]):
            yield f"{where}: the yard soaks another amount of {feed['feed']}"


def faults_of_price(where, price):
    """The cost of a kilogram eaten, worked out again from its parts."""
    parts = [price["price"]] + ([price["delivery"]] if "delivery" in price else [])
    cost = sum(part["money"] / part["kg_as_fed"] for part in parts)
    for loss in ("waste", "storage_loss", "soaking_loss"):
        cost /= 1 - price[loss]["share"]
    if not near(cost, price["cost_per_kg_eaten"]):
        yield f"{where}: {cost} a kg eaten, not {price['cost_per_kg_eaten']}"
    least, most = price["cost_per_kg_eaten_least"], price["cost_per_kg_eaten_most"]
    if not least - 1e-9 <= price["cost_per_kg_eaten"] <= most + 1e-9:
        yield f"{where}: the cost is not within its range"


def faults_of_offers(where, horse):
    """Ranges hold the ration and widen; mixes are within the margin; swaps cost no less."""
    fed = {feed["feed"]: feed["kg_as_fed"] for feed in horse["cheapest"].get("feeds", [])}
    narrower = {}
    for within in horse["ranges"]:
        for feed in within["feeds"]:
            at = f"{where}: {feed['feed']} within {within['margin_share']}"
            least, most = feed["least_kg_as_fed"], feed["most_kg_as_fed"]
            if not least - 1e-6 <= fed.get(feed["feed"], 0) <= most + 1e-6:
                yield f"{at}: the cheapest ration is not in the range"
            before = narrower.get(feed["feed"], (math.inf, 0))
            if least > before[0] + 1e-6 or most < before[1] - 1e-6:
                yield f"{at}: narrower than within less"
            narrower[feed["feed"]] = (least, most)
    seen = []
    for mix in horse["mixes"]:
        if not near(sum(feed["cost_per_day"] for feed in mix["feeds"]), mix["cost_per_day"]):
            yield f"{where}: the feeds of a mix do not cost what it costs"
        feeds = {feed["feed"] for feed in mix["feeds"]}
        if feeds in seen:
            yield f"{where}: two mixes of the same feeds"
        seen.append(feeds)
    for swaps in horse["swaps"]:
        for swap in swaps["by_one_feed"]:
            if swap["dearer_per_day"] < swaps["cheapest"]["dearer_per_day"] - 1e-6:
                yield f"{where}: {swap['feed']} for {swaps['feed']} is cheaper than the cheapest"


def faults_of_why(where, horse):
    exact = horse.get("exact")
    if exact and not exact["confirmed"]:
        yield f"{where}: told although the fractions do not confirm it"
    if exact and horse["status"] == "found":
        if not near(exact["cost_per_day"] + exact["difference"], horse["cost_per_day"]):
            yield f"{where}: the exact cost and the difference are not the cost"
    kinds = [mend["kind"] for mend in horse.get("mends", [])]
    if "two changes" in kinds and len(kinds) > 2:
        yield f"{where}: two changes beside a single one"
    told = horse.get("derivation")
    if told:
        best, bound = told["best"]["value"], told["clash"]["bound"]
        if best <= bound if told["clash"]["side"] == "ceiling" else best >= bound:
            yield f"{where}: what is told is no contradiction"


def faults_of_curves(where, horse):
    """Price steps join, less is fed at a higher price, cost is concave; what is paid adds
    up; a straight frontier is convex and stricter never costs less."""
    for curve in horse["price_curves"]:
        at = f"{where}: price of {curve['feed']}"
        before = None
        for step in curve["steps"]:
            fed = next((f["kg_as_fed"] for f in step["feeds"] if f["feed"] == curve["feed"]), 0)
            if not near(step["price_per_kg_from"] * curve["kg_in_pack"], step["price_per_pack_from"]):
                yield f"{at}: a pack is not so many kilograms"
            if before and not near(before[0]["price_per_kg_to"], step["price_per_kg_from"]):
                yield f"{at}: the steps do not join"
            if before and not near(before[0]["cost_per_day_to"], step["cost_per_day_from"]):
                yield f"{at}: the cost jumps"
            if before and fed > before[1] + 1e-6:
                yield f"{at}: more is fed at a higher price"
            before = (step, fed)
        worth = curve["worth"]
        if worth and worth["use"] == "up_to_a_price":
            for step in curve["steps"]:
                fed = any(f["feed"] == curve["feed"] for f in step["feeds"])
                if fed != (step["price_per_kg_to"] < worth["fed_below_per_kg"] + 1e-6):
                    yield f"{at}: fed where it is not worth it, or the other way"
    for curve in horse["limit_curves"]:
        at = f"{where}: limit on {curve['name']}"
        costs = [c["cost_per_day"] for c in curve.get("corners", [])]
        bounds = [c["bound"] for c in curve.get("corners", [])]
        if curve.get("limit") and curve["limit"]["side"] == "ceiling":
            costs, bounds = costs[::-1], [-b for b in bounds[::-1]]
        if any(b < a - 1e-6 for a, b in zip(costs, costs[1:])):
            yield f"{at}: stricter costs less"
        if curve.get("straight_between_corners"):
            slopes = [(costs[k + 1] - costs[k]) / (bounds[k + 1] - bounds[k])
                      for k in range(len(costs) - 1)]
            if any(b < a - 1e-6 for a, b in zip(slopes, slopes[1:])):
                yield f"{at}: the frontier is not convex"
        counts = [c["cost_per_day"] for c in curve.get("bucket_feeds", [])
                  if c["cost_per_day"] is not None]
        if any(b > a + 1e-9 for a, b in zip(counts, counts[1:])):
            yield f"{at}: more feeds in the bucket cost more"


def to_feed(horse):
    """What the ration to feed costs; None where there is none."""
    if horse["status"] != "found" or horse.get("months"):
        return None
    return (horse["practical"] or horse)["cost_per_day"]


def faults_of_question(where, question, horses):
    """A question's sums are those of its horses, its differences those to the file's answers."""
    fed = [h for h in question["horses"] if h["practical_cost_per_day"] is not None]
    for asked, stands in zip(question["horses"], horses):
        at = f"{where}: {asked['name']}"
        if asked["name"] != stands["name"] or asked["as_before"] == ("answer" in asked):
            yield f"{at}: the answer is missing, or another horse's"
        answer = asked.get("answer", stands)
        if not asked["as_before"]:
            yield from faults_of_answer(at, answer)
        now, then = to_feed(answer), to_feed(stands)
        if now is None or then is None:
            continue
        if not near(asked["practical_cost_per_day"], now):
            yield f"{at}: does not cost what its answer costs"
        if abs(asked["practical_dearer_per_day"] - (now - then)) > 1e-9:
            yield f"{at}: the difference is not that of the two costs"
        out = {f["feed"]: f["kg_put_out"] for f in (answer["practical"] or answer)["feeds"]}
        for feed in asked["feeds"]:
            if abs(feed["kg_put_out"] - out.get(feed["feed"], 0.0)) > 1e-9:
                yield f"{at}: {feed['feed']} is not what the answer puts out"
    if question["practical_cost_per_day"] is not None and not near(
            sum(h["practical_cost_per_day"] for h in fed), question["practical_cost_per_day"]):
        yield f"{where}: the horses do not cost what the question costs"


def hundredths(money):
    return round(100 * money)


def faults_of_chances(where, document):
    """What half and nine in ten of the draws cost, and how many there are, from the draws."""
    chances = document["chances"]
    draws = chances["draws"]
    if len(draws) != chances["draws_planned"]:
        yield f"{where}: {len(draws)} draws are not {chances['draws_planned']}"
    if sum(d["status"] == "none" for d in draws) != chances["draws_without_plan"]:
        yield f"{where}: another count of draws without a plan"
    costs = sorted(math.inf if d["least_cost"] is None else d["least_cost"] for d in draws)
    for share, key in ((0.5, "middle"), (0.9, "nine_in_ten")):
        told = chances[f"least_cost_{key}"]["at_most"]
        drawn = costs[math.ceil(share * len(costs) - 1e-9) - 1]
        if (math.inf if told is None else told) != drawn:
            yield f"{where}: {told} is not what {share} of the draws cost, {drawn}"
    fed = chances["draws_fed_by_all_orders"]
    if fed is not None and not 0.9 * len(draws) - 1e-9 <= fed <= len(draws):
        yield f"{where}: {fed} of {len(draws)} are not nine in ten"


def faults_of_winter(where, document):
    """Bills, months, feeds and orders add up to the hundredth; stocks balance."""
    if document["chances"] is not None:
        yield from faults_of_chances(where, document)
    total = hundredths(document["cost"])
    months = dict.fromkeys(document["months"], 0)
    feeds = {feed["feed"]: 0 for feed in document["cost_by_feed"]}
    bills = 0
    for horse in document["horses"]:
        if "bill" not in horse:
            continue
        bills += hundredths(horse["bill"]["cost"])
        of_horse = 0
        for month in horse["bill"]["months"]:
            of_horse += hundredths(month["cost"])
            months[month["month"]] += hundredths(month["cost"])
            if sum(hundredths(feed["cost"]) for feed in month["feeds"]) != hundredths(month["cost"]):
                yield f"{where}: {horse['name']}: a month is not the sum of its feeds"
            for feed in month["feeds"]:
                feeds[feed["feed"]] += hundredths(feed["cost"])
        if of_horse != hundredths(horse["bill"]["cost"]):
            yield f"{where}: {horse['name']}: the bill is not the sum of its months"
    if bills != total:
        yield f"{where}: the bills come to {bills}, not {total}"
    if months != {m["month"]: hundredths(m["to_bill"]) for m in document["cost_by_month"]}:
        yield f"{where}: the months do not come to what is billed in them"
    if feeds != {f["feed"]: hundredths(f["cost"]) for f in document["cost_by_feed"]}:
        yield f"{where}: the feeds do not come to what is billed for them"
    paid = sum(hundredths(o["goods"]) + hundredths(o["delivery"]) for o in document["orders"])
    if paid != sum(hundredths(m["to_pay"]) for m in document["cost_by_month"]) or paid > total:
        yield f"{where}: the orders do not come to what is paid"
    if abs(sum(document["money_goes"].values()) - document["cost"]) > 0.006:
        yield f"{where}: the money goes elsewhere"
    if document["lower_bound"] > document["cost"] + 0.006:
        yield f"{where}: the plan costs less than any can"
    for stock in document["stock"]:
        before = stock["weeks"][0]["kg_opening"]
        for week in stock["weeks"]:
            closing = (week["kg_opening"] + week["kg_bought"] - week["kg_lost"]
                       - week["kg_put_out"] - week["kg_spoiled"])
            if abs(closing - week["kg_closing"]) > 1e-6 or abs(week["kg_opening"] - before) > 1e-6:
                yield f"{where}: the stock of {stock['feed']} does not balance"
            if week["kg_closing"] < -1e-6:
                yield f"{where}: less than no {stock['feed']}"
            before = week["kg_closing"]


def faults_of_stretch(where, document):
    """Stocks run out when they do; plans and limits are certified, and in their order."""
    for stock in document["runs_out"]:
        if (stock["runs_out_on"] is None) != (stock["days"] is None):
            yield f"{where}: {stock['feed']} lasts and runs out"
        short = max(0.0, stock["kg_needed"] - stock["kg_there"])
        if not stock["too_old"] and not near(short, stock["kg_short"]):
            yield f"{where}: {stock['feed']} is short by another amount"
    if (document["plan"] is None) == (document["failure"] is None):
        yield f"{where}: a plan and why there is none, or neither"
    plans = [document["plan"]]
    if document["four_weeks_longer"]:
        plans.append(document["four_weeks_longer"]["plan"])
    for plan in filter(None, plans):
        if not certified(plan["certificate"]):
            yield f"{where}: a plan is not certified"
        if plan["lower_bound"] > plan["cost"] + 1e-6:
            yield f"{where}: a plan costs less than any can"
    change = document["latest_change"]
    if change:
        if not certified(change["certificate"]):
            yield f"{where}: the latest change is not certified"
        if change["forced"] and not change["proof_strength"] > 1e-6:
            yield f"{where}: a later change is not proven to have no plan"
    for price in document["break_even"]:
        if not certified(price["certificate_below"]) or not certified(price["certificate_above"]):
            yield f"{where}: the price of {price['feed']} is not certified"
        if price["kg_bought_above"] is not None and price["kg_bought_above"] >= price["kg_bought"]:
            yield f"{where}: no less {price['feed']} is bought above its price"
    for short in document["short_feeds"]:
        for horse in short["order"]:
            if horse["kg_at_least"] > horse["kg_at_most"] + 1e-3:
                yield f"{where}: {horse['name']} needs more than it would eat"


def certified(certificate):
    return certificate["relative_gap"] < 1e-6 and certificate["largest_violation"] < 1e-6


def faults_of(where, document):
    command = document.get("command")
    if command == "stretch":
        yield from faults_of_stretch(where, document)
    if command == "winter" and document["cost"] is not None:
        yield from faults_of_winter(where, document)
    if "explained" in document:
        yield from faults_of_explained(where, document["explained"])
    if "soaking_of_yard" in document:
        yield from faults_of_soaking(where, document)
    for question in document.get("questions", []):
        yield from faults_of_question(f"{where}: {question['what_if']}", question,
                                      document["horses"])
    for price in document.get("prices", []):
        yield from faults_of_price(f"{where}: {price['feed']}", price)
    for horse in document.get("horses", []):
        at = f"{where}: {horse['name']}"
        if command == "ration":
            yield from faults_of_answer(at, horse)
            yield from faults_of_why(at, horse)
        elif command == "offers":
            yield from faults_of_answer(f"{at}, cheapest", horse["cheapest"])
            yield from faults_of_offers(at, horse)
            yield from faults_of_curves(at, horse)
        elif command == "audit":
            yield from faults_of_ration(at, horse)
            yield from faults_of_answer(f"{at}, cheapest", horse["cheapest"])
            if horse["adequate"] != (not horse["misses"]):
                yield f"{at}: adequate and yet something is missed"
        elif command == "needs":
            if [need["nutrient"] for need in horse["needs"]] != nutrients:
                yield f"{at}: the needs are not those of the reference, in its order"


# What is done to a document, and must be noticed.
damages = [
    ("a question that changes nothing", "asked", lambda d: d["questions"][0].update(changes=[])),
    ("a key is gone", "ration", lambda d: d["horses"][0].pop("cost_per_day")),
    ("a number is text", "ration", lambda d: d["horses"][0].update(cost_per_day="4.60")),
    ("an unknown status", "ration", lambda d: d["horses"][0].update(status="perhaps")),
    ("a nutrient of no such name", "ration",
     lambda d: d["horses"][0]["nutrients"][0].update(nutrient="fibre")),
    ("a feed below zero", "ration", lambda d: d["horses"][0]["feeds"][0].update(kg_as_fed=-1)),
    ("a side that is neither", "ration", lambda d: d["horses"][0]["limits"][0].update(side="left")),
    ("a certificate without its gap", "ration",
     lambda d: d["horses"][0]["certificate"].pop("relative_gap")),
    ("no horses", "ration", lambda d: d.pop("horses")),
    ("another version", "ration", lambda d: d.update(schema_version=2)),
    ("an unknown command", "ration", lambda d: d.update(command="guess")),
    ("a step of a change without its day", "ration",
     lambda d: d["horses"][0]["change_plan"]["steps"][0].pop("from_day")),
    ("a broken limit that does not say since when", "ration",
     lambda d: d["horses"][0]["change_plan"]["steps"][0]["broken"][0].pop("broken_today")),
    ("a conflict is gone", "none", lambda d: d["horses"][0].pop("conflict")),
    ("a mend of no kind", "none", lambda d: d["horses"][0]["mends"][0].update(kind="pray")),
    ("a mend without what to do", "none", lambda d: d["horses"][0]["mends"][0].pop("to")),
    ("a need without its source", "needs", lambda d: d["horses"][0]["needs"][0].update(source="")),
    ("a rule without its strength", "needs", lambda d: d["horses"][0]["rules"][0].pop("strength")),
    ("a month without its days", "grazing",
     lambda d: d["horses"][0]["months"][0].pop("days")),
    ("grass below zero", "grazing",
     lambda d: d["horses"][0]["grazing"].update(low_kg_dry_matter=-1)),
    ("a verdict is gone", "audit", lambda d: d["horses"][0].pop("adequate")),
    ("a figure of no origin", "feed",
     lambda d: d["feeds"][0]["per_kg_dry_matter"][0].update(origin="hearsay")),
    ("more dry matter than feed", "feed",
     lambda d: d["feeds"][0].update(dry_matter_g_per_kg_as_fed=1001)),
    ("a figure of no origin, explained", "explained hay",
     lambda d: d["explained"]["figures"][0].update(origin="hearsay")),
    ("an equation without its source", "explained bag",
     lambda d: d["explained"]["energy_equations"][0].pop("source")),
    ("nothing explained", "explained bag", lambda d: d.pop("explained")),
    ("a loss without its source", "prices",
     lambda d: [price["waste"].pop("source", None) for price in d["prices"]]),
    ("a sugar loss that is credited", "soaked",
     lambda d: d["horses"][0]["soaking"]["hay"][0].update(sugar_loss_credited=True)),
    ("a time that is not on the clock", "soaked",
     lambda d: d["horses"][0]["soaking"]["feeds"][0]["times"][0].update(fed_at="24:00")),
    ("a price for nothing", "prices", lambda d: d["prices"][0]["price"].update(kg_as_fed=0)),
    ("a range without its standing", "offers",
     lambda d: d["horses"][0]["ranges"][0]["feeds"][0].pop("standing")),
    ("a mix without its certificate", "offers",
     lambda d: d["horses"][0]["mixes"][0].pop("certificate")),
    ("a swap of no change", "offers",
     lambda d: d["horses"][0]["swaps"][0]["cheapest"].pop("changes")),
    ("a step without its certificate", "curves",
     lambda d: d["horses"][0]["price_curves"][0]["steps"][0].pop("certificate")),
    ("a worth of no kind", "curves",
     lambda d: d["horses"][0]["price_curves"][0]["worth"].update(use="sometimes")),
    ("a corner without its cost", "curves",
     lambda d: d["horses"][0]["limit_curves"][0]["corners"][0].pop("cost_per_day")),
    ("an unknown choice", "offers", lambda d: d.pop("choice")),
    ("an order of nothing", "winter", lambda d: d["orders"][0].update(kg=0)),
    ("a spell without its end", "winter", lambda d: d["horses"][0]["spells"][0].pop("until")),
    ("a horse found without its bill", "winter", lambda d: d["horses"][0].pop("bill")),
    ("a day that is none", "winter", lambda d: d["stock"][0].update(lowest_on="in March")),
    ("a draw without its last day", "winter", lambda d: d["chances"]["draws"][0].pop("until")),
    ("a stock without its day", "stretch", lambda d: d["runs_out"][0].pop("runs_out_on")),
    ("a plan without its certificate", "stretch", lambda d: d["plan"].pop("certificate")),
    ("a change without its certificate", "stretch",
     lambda d: d["latest_change"].pop("certificate")),
    ("a mend by no day", "no stretch", lambda d: d["failure"]["more_feed"][0].pop("by")),
    ("mistakes that are none", "mistakes", lambda d: d.update(diagnostics=[])),
]
# The same for what only the sums can notice.
false_sums = [
    ("a question at another cost", "asked",
     lambda d: d["questions"][0].update(practical_cost_per_day=1.0)),
    ("a question with another difference", "asked",
     lambda d: d["questions"][0]["horses"][0].update(practical_dearer_per_day=0.0)),
    ("a question without the answer of a horse", "asked",
     lambda d: d["questions"][0]["horses"][0].pop("answer")),
    ("a question's answer that is not certified", "asked",
     lambda d: d["questions"][0]["horses"][0]["answer"]["certificate"].update(relative_gap=0.1)),
    ("a feed at another cost", "ration",
     lambda d: d["horses"][0]["feeds"][0].update(cost_per_day=99.0)),
    ("a need that is not met", "ration",
     lambda d: d["horses"][0]["nutrients"][1].update(supplied=0.0)),
    ("an answer that is not certified", "ration",
     lambda d: d["horses"][0]["certificate"].update(relative_gap=0.1)),
    ("more dry matter than feed", "ration",
     lambda d: d["horses"][0]["feeds"][0].update(kg_dry_matter=99.0)),
    ("a feed paid too much", "ration",
     lambda d: d["horses"][0]["worth"][0].update(cost_per_kg_eaten=9.0)),
    ("a change with a day missing", "ration",
     lambda d: d["horses"][0]["change_plan"]["steps"][1].update(from_day=9)),
    ("a change to another ration", "ration",
     lambda d: d["horses"][0]["change_plan"]["steps"][-1]["feeds"].pop()),
    ("a step that breaks a limit anew", "ration",
     lambda d: d["horses"][0]["change_plan"]["steps"][0]["broken"][0].update(broken_today=False)),
    ("no proof of a no", "none", lambda d: d["horses"][0].update(proof_strength=0.0)),
    ("a figure as fed that is of dry matter", "explained bag",
     lambda d: d["explained"]["figures"][0].update(per_kg_as_fed=99.0)),
    ("a figure of the table passed off as the feed's own", "explained hay",
     lambda d: d["explained"]["figures"][-1].update(taken_over_from=None)),
    ("a bucket that runs over", "soaked",
     lambda d: d["horses"][0]["soaking"]["feeds"][0].update(bucket_litres=0.1)),
    ("a soak unlike the meal it is for", "soaked",
     lambda d: d["horses"][0]["soaking"]["feeds"][0]["kg_dry_by_meal"].__setitem__(0, 0.01)),
    ("a yard that soaks too little", "soaked",
     lambda d: d["soaking_of_yard"]["feeds"][0].update(kg_dry_per_meal=0.01)),
    ("a price that is not its sum", "prices",
     lambda d: d["prices"][0]["waste"].update(share=0.5)),
    ("a range that the ration is not in", "offers",
     lambda d: d["horses"][0]["ranges"][0]["feeds"][0].update(most_kg_as_fed=0.0)),
    ("a mix at another cost", "offers",
     lambda d: d["horses"][0]["mixes"][0].update(cost_per_day=99.0)),
    ("a step that does not join", "curves",
     lambda d: d["horses"][0]["price_curves"][0]["steps"][1].update(price_per_kg_from=9.0)),
    ("a feed that is fed above what it is worth", "curves",
     lambda d: d["horses"][0]["price_curves"][0]["worth"].update(fed_below_per_kg=0.0)),
    ("a stricter limit that is cheaper", "curves",
     lambda d: d["horses"][0]["limit_curves"][0]["corners"][-1].update(cost_per_day=0.0)),
    ("a swap that is too cheap", "offers",
     lambda d: d["horses"][0]["swaps"][0]["by_one_feed"][0].update(dearer_per_day=-9.0)),
    ("an exact cost of another ration", "exact",
     lambda d: d["horses"][0]["exact"].update(cost_per_day=99.0)),
    ("an answer that is not confirmed", "exact none",
     lambda d: d["horses"][0]["exact"].update(confirmed=False)),
    ("a contradiction that is none", "none",
     lambda d: d["horses"][0]["derivation"]["best"].update(
         value=d["horses"][0]["derivation"]["clash"]["bound"])),
    ("adequate and not", "audit", lambda d: d["horses"][0].update(adequate=True)),
    ("a bill a penny short", "winter",
     lambda d: d["horses"][0]["bill"].update(cost=d["horses"][0]["bill"]["cost"] - 0.01)),
    ("a stock that does not balance", "winter",
     lambda d: d["stock"][0]["weeks"][1].update(kg_spoiled=5.0)),
    ("a feed billed too little", "winter", lambda d: d["cost_by_feed"][0].update(cost=0.01)),
    ("hay that is short of less", "stretch", lambda d: d["runs_out"][0].update(kg_short=1.0)),
    ("a change that has no proof", "stretch",
     lambda d: d["latest_change"].update(proof_strength=0.0)),
    ("a price that is not certified", "stretch",
     lambda d: d["break_even"][0]["certificate_above"].update(relative_gap=0.1)),
    ("neither a plan nor why not", "no stretch", lambda d: d.update(failure=None)),
    ("a nine in ten that is too cheap", "winter",
     lambda d: d["chances"]["least_cost_nine_in_ten"].update(at_most=1.0)),
    ("an order that feeds too few", "winter",
     lambda d: d["chances"].update(draws_fed_by_all_orders=3)),
    ("a plan below its bound", "winter", lambda d: d.update(lower_bound=d["cost"] + 1)),
]


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--program", type=pathlib.Path, required=True)
    arguments.add_argument("--tree", type=pathlib.Path, required=True)
    asked = arguments.parse_args()

    schema = json.loads((asked.tree / "docs/reference/report.schema.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    open_schema = jsonschema.Draft202012Validator(schema)
    closed_schema = jsonschema.Draft202012Validator(closed(schema))

    program = Program(asked.program.resolve())
    example = str(asked.tree / "scenarios/examples/ninefields.yaml")
    documents = {
        "ration": program.answer(0, "ration", example),
        "none": program.answer(1, "ration", "-", text=no_ration),
        "short": program.answer(1, "ration", "-", text=short_of_hay),
        "two changes": program.answer(
            1, "ration", str(asked.tree / "tests/cases/no-ration-two-wishes/two-wishes.yaml")),
        "exact": program.answer(0, "ration", "--exact",
                                str(asked.tree / "scenarios/examples/summerfield.yaml")),
        "exact none": program.answer(1, "ration", "--exact", "-", text=no_ration),
        "grazing": program.answer(0, "ration", str(asked.tree / "scenarios/examples/summerfield.yaml")),
        "asked": program.answer(0, "ration", str(asked.tree / "scenarios/examples/whatif.yaml")),
        "as if": program.answer(1, "ration", "--as-if", "3",
                                str(asked.tree / "scenarios/examples/whatif.yaml")),
        "too much grass": program.answer(1, "ration", "-", text=too_much_grass),
        "offers": program.answer(0, "offers", example),
        "curves": program.answer(
            0, "offers", "--mixes", "0", "--price", "oats", "--price", "barley, rolled",
            "--price", "our hay: 100 to 400 per tonne", "--limit", "forage share",
            "--limit", "forage", "--limit", "NSC", "--limit", "energy margin", "--limit",
            "zinc ceiling", "--limit", "bucket feeds", "-", text=counter_yard),
        "curves for none": program.answer(
            1, "offers", "--price", "oat straw", "--price", "salt", "--limit", "energy margin",
            "--limit", "bucket feeds", "-", text=no_ration),
        "offers without": program.answer(1, "offers", "--without", "hay", example),
        "needs": program.answer(0, "needs", example),
        "audit": program.answer(1, "audit", example),
        "feeds": program.answer(0, "feeds"),
        "feed": program.answer(0, "feeds", "oats, whole"),
        "explained table": program.answer(0, "feeds", "--explain", "alfalfa chaff"),
        "explained hay": program.answer(0, "feeds", "--explain", "our hay", "--in", "-",
                                        text=own_feeds),
        "explained bag": program.answer(0, "feeds", "--explain", "hill cubes", "--in", "-",
                                        text=own_feeds),
        "origins": program.answer(0, "feeds", "--sources"),
        "soaked": program.answer(0, "ration", "-", text=soaked),
        "prices": program.answer(0, "feeds", "--prices", "-", text=priced),
        "winter": program.answer(1, "winter", "-", text=winter),  # one horse is the vet's
        "no winter": program.answer(1, "winter", "-", text=no_winter),
        "stretch": program.answer(1, "stretch", "-", text=stretch),  # one horse is the vet's
        "no stretch": program.answer(1, "stretch", "-", text=no_stretch),
        "check": program.answer(0, "check", example),
        "mistakes": program.answer(1, "check", "-", text=with_mistakes),
        "unreadable": program.answer(3, "ration", "-", text=with_mistakes),
    }

    faults = []
    for where, document in documents.items():
        # The closed schema says all that the open one says, and more.
        for error in closed_schema.iter_errors(document):
            at = "/".join(str(part) for part in error.absolute_path)
            faults.append(f"{where}: {at}: {error.message[:300]}")
        faults += faults_of(where, document)
    statuses = {horse["status"] for name in ("ration", "none", "short")
                for horse in documents[name]["horses"]}
    if statuses != {"found", "none", "refused"}:
        faults.append(f"the documents show only {sorted(statuses)}")

    for what, where, damage in damages:
        damaged = copy.deepcopy(documents[where])
        damage(damaged)
        if open_schema.is_valid(damaged):
            faults.append(f"the schema does not notice: {what}")
    for what, where, damage in false_sums:
        damaged = copy.deepcopy(documents[where])
        damage(damaged)
        if not list(faults_of(where, damaged)):
            faults.append(f"the sums do not notice: {what}")
    added = {**documents["ration"], "tip": "hay"}
    if not open_schema.is_valid(added) or closed_schema.is_valid(added):
        faults.append("a key that is not described: the open schema takes it, the closed one not")

    for fault in faults[:40]:
        print(fault)
    print(f"{len(documents)} documents, {len(damages) + len(false_sums)} damages, "
          f"{len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
