"use strict";
// The fields: the entries of the scenario file. Nothing here knows a horse: which keys
// there are, what they mean and what they may be, the schema says.
window.haymowFields = ({ edit, guarded, tell, make, pause }) => {
  const at = (id) => document.getElementById(id);
  let schema = null;

  // --- what the schema says of a key

  const meant = (node) => {
    const seen = node && node.$ref ? schema.$defs[node.$ref.split("/").pop()] : node;
    return { ...seen, ...(node && node.description ? { description: node.description } : {}) };
  };
  const of = (path) => {
    let here = schema;
    for (const step of path) {
      here = meant(here);
      here = typeof step === "number" ? here.items : (here.properties || {})[step];
      if (!here) return {};
    }
    return meant(here);
  };

  // --- a field, a group, a card

  const idOf = (path) => `f-${path.join("-").replace(/[^\w-]/g, "_")}`;

  const field = (value, path, removable) => {
    const key = path[path.length - 1];
    if (value.kind === "group" && value.entries.length > 0) return inner(value, path, removable);
    const { enum: choices, description } = of(path);
    const id = idOf(path);
    const input = choices
      ? make("select", { id }, ...[...new Set([value.text, ...choices])].map((choice) =>
          make("option", { value: choice, textContent: choice, selected: choice === value.text })))
      : make("input", { id, value: value.text, spellcheck: false });
    input.dataset.line = value.line;
    let refused;
    const change = guarded(async () => {
      if (refused) {
        refused.remove();
        input.removeAttribute("aria-invalid");
      }
      try {
        await edit({ path, [value.kind === "text" ? "words" : "yaml"]: input.value });
      } catch (error) {
        forget(); // the field shows what the file does not have: drawn anew with the next change
        refused = showMistake(input, error.message);
        throw error;
      }
    });
    if (choices) {
      input.addEventListener("change", change);
    } else {
      let timer;
      input.addEventListener("input", () => {
        clearTimeout(timer);
        timer = setTimeout(change, pause);
      });
      input.addEventListener("change", () => {
        clearTimeout(timer);
        change();
      });
    }
    const row = make("div", { className: "field" }, make("label", { htmlFor: id, textContent: key }), input);
    if (removable) {
      row.append(make("button", {
        type: "button", className: "take", textContent: "×", title: `take ${key} away`,
        ariaLabel: `take ${key} away`, onclick: guarded(() => edit({ path, remove: true })),
      }));
    }
    if (description) {
      const hint = make("small", { id: `${id}-hint`, textContent: description });
      input.setAttribute("aria-describedby", hint.id);
      row.append(hint);
    }
    return row;
  };

  // A group within a horse or a feed: fields of its own.
  const inner = (value, path, removable) => {
    const key = path[path.length - 1];
    const box = make("fieldset", { className: "inner" }, make("legend", { textContent: key }),
      ...value.entries.map((entry) => field(entry, [...path, entry.key], value.entries.length > 1)),
      adder(path, value.entries));
    if (removable) {
      box.append(make("div", { className: "more" }, make("button", {
        type: "button", textContent: `Take ${key} away`,
        onclick: guarded(() => edit({ path, remove: true })),
      })));
    }
    return box;
  };

  // A list of keys that are not there yet, and a place for the first value.
  const adder = (path, entries) => {
    const there = new Set(entries.map((entry) => entry.key));
    const { properties, additionalProperties: anyKey } = of(path);
    const keys = Object.keys(properties || {}).filter((key) => !there.has(key));
    if (keys.length === 0 && !anyKey) return "";
    const id = `${idOf(path)}-add`;
    // Feeds and figures have names that the schema does not know.
    const choice = keys.length === 0
      ? make("input", { id, size: 14, ariaLabel: "what to add" })
      : make("select", { id, ariaLabel: "what to add" }, ...keys.map((key) =>
          make("option", { value: key, textContent: key })));
    const words = make("input", { id: `${id}-value`, size: 14, ariaLabel: "its value" });
    const hint = make("small", {});
    const explain = () => {
      const { description, enum: choices } = of([...path, choice.value]);
      hint.textContent = description || (choices || []).join(", ");
    };
    choice.addEventListener("change", explain);
    explain();
    const add = guarded(async () => {
      if (!words.value.trim() || !choice.value.trim()) return tell(`${choice.value}: say what it is, then add it`);
      await edit({ path, key: choice.value, yaml: words.value });
    });
    words.addEventListener("keydown", (event) => {
      if (event.key !== "Enter") return;
      event.preventDefault();
      add();
    });
    return make("div", { className: "more" }, choice, words,
      make("button", { type: "button", textContent: "Add", onclick: add }), hint);
  };

  const titleOf = (item) => {
    const named = (key) => (item.entries || []).find((entry) => entry.key === key)?.text;
    return named("name") || named("feed") || named("what if") || item.text;
  };

  const opened = new Set();
  const card = (item, path, alone) => {
    const entries = item.entries || [];
    const name = idOf(path);
    const box = make("details", { className: "card", open: opened.has(name) },
      make("summary", { textContent: titleOf(item) }));
    box.addEventListener("toggle", () => (box.open ? opened.add(name) : opened.delete(name)));
    for (const entry of entries) box.append(field(entry, [...path, entry.key], entries.length > 1));
    box.append(adder(path, entries));
    const list = path.slice(0, -1);
    const buttons = make("div", { className: "more" }, make("button", {
      type: "button", textContent: "One more like it",
      onclick: guarded(() => edit({ path: list, item: item.text })),
    }));
    if (!alone) {
      buttons.append(make("button", {
        type: "button", textContent: `Take ${titleOf(item)} away`,
        onclick: guarded(() => edit({ path, remove: true })),
      }));
    }
    box.append(buttons);
    return box;
  };

  // --- all of them

  const group = (title, ...inside) =>
    make("fieldset", {}, make("legend", { textContent: title }), ...inside);

  const put = (parent, wanted) => {
    for (const each of [...parent.childNodes]) if (!wanted.includes(each)) each.remove();
    wanted.forEach((each, i) => {
      if (parent.childNodes[i] !== each) parent.insertBefore(each, parent.childNodes[i] || null);
    });
  };

  let drawn = ""; // what the fields are drawn from
  let kept = new Map(); // the parts that are shown, by what they are drawn from
  const show = (entries) => {
    if (!entries) return; // the text is no YAML just now: the fields stay as they were
    if (drawn === JSON.stringify(entries)) return;
    drawn = JSON.stringify(entries);
    const focused = document.activeElement && document.activeElement.id;
    const place = focused && document.activeElement.selectionStart;
    const typed = focused && document.activeElement.value;
    const lists = entries.filter((entry) => entry.kind === "list" && entry.items.every((i) => i.kind === "group"));
    const rest = entries.filter((entry) => !lists.includes(entry));
    const titles = { horses: "Horses", forage: "Forage you have", market: "What can be bought" };
    const order = Object.keys(titles);
    // Of many horses one is changed at a time: the cards of the others stay where they are.
    const now = new Map();
    const keep = (from, draw) => {
      const name = JSON.stringify(from);
      now.set(name, kept.get(name) || draw());
      return now.get(name);
    };
    lists.sort((a, b) => (order.indexOf(a.key) + 9) % 9 - (order.indexOf(b.key) + 9) % 9);
    const groups = lists.map((list) => {
      const box = keep(list.key, () => group(titles[list.key] || list.key));
      const alone = list.items.length === 1;
      put(box, [box.firstChild, ...list.items.map((item, i) =>
        keep([list.key, i, item, alone], () => card(item, [list.key, i], alone)))]);
      return box;
    });
    groups.push(keep([rest, entries.map((entry) => entry.key)], () => group("The yard",
      ...rest.map((entry) => field(entry, [entry.key], true)), adder([], entries))));
    put(at("fields"), groups);
    kept = now;
    const again = focused && at(focused);
    if (again && again !== document.activeElement) {
      // What was typed since the text was sent is newer than what came back.
      if (again.tagName === "INPUT") again.value = typed;
      again.focus();
      if (place !== null && again.setSelectionRange) again.setSelectionRange(place, place);
    }
  };

  const showMistake = (input, words) => {
    input.setAttribute("aria-invalid", "true");
    const mistake = make("div", { className: "mistake", textContent: words });
    input.parentElement.append(mistake);
    return mistake;
  };
  const showMistakes = (errors) => {
    document.querySelectorAll(".field > .mistake").forEach((each) => each.remove());
    document.querySelectorAll("[aria-invalid]").forEach((each) => each.removeAttribute("aria-invalid"));
    const elsewhere = [];
    const inputs = [...document.querySelectorAll("[data-line]")];
    for (const error of errors) {
      const words = [error.message, error.note, error.help && `help: ${error.help}`].filter(Boolean).join("; ");
      const here = inputs.filter((input) => Number(input.dataset.line) === error.line &&
        error.message.includes(input.value))[0] || inputs.filter((input) => Number(input.dataset.line) === error.line)[0];
      if (!here) {
        elsewhere.push(`line ${error.line}: ${words}`);
        continue;
      }
      here.closest("details")?.setAttribute("open", "");
      showMistake(here, words);
    }
    at("wrong").replaceChildren(...elsewhere.map((words) => make("p", { className: "mistake", textContent: words })));
  };

  const forget = () => {
    drawn = "";
    kept = new Map();
  };

  return { learn: (said) => { schema = said; }, show, showMistakes, forget };
};
