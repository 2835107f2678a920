"use strict";
// The text of the scenario file, which is all there is to save: it is changed, kept, saved
// and looked at anew. A change of a field (fields.js) changes the text on the server's
// side, so that comments and layout stay.
(() => {
  const at = (id) => document.getElementById(id);
  const pause = 120; // milliseconds of silence before what is typed is looked at
  let file = "";
  let saved = null; // the text as the file has it; null: there is no file yet
  let text = "";
  let before = []; // texts to go back to
  let after = [];
  let looking = 0; // the number of the last look; older answers are not shown

  const ask = async (path, what) => {
    let response;
    try {
      response = await fetch(path, { method: "POST", body: JSON.stringify(what) });
    } catch {
      throw new Error("haymow does not answer: it was stopped. What you typed is still here");
    }
    const said = await response.json();
    if (said.refused) throw new Error(said.refused);
    return said;
  };
  const tell = (words) => { at("told").textContent = words; };
  // That a file was saved stays told until its text is another, also when an answer comes.
  let savedWords = "";
  const tellSaved = () => tell(text === saved ? savedWords : "");
  const guarded = (action) => async (...given) => {
    try {
      await action(...given);
    } catch (error) {
      tell(error.message);
    }
  };
  // One after another, in the order they were asked for: no change is made to a text that
  // another is just changing, and nothing older is kept or saved after what is newer.
  let last = Promise.resolve();
  const inTurn = (action) => {
    last = last.catch(() => {}).then(action);
    return last;
  };
  const make = (tag, properties = {}, ...inside) => {
    const element = Object.assign(document.createElement(tag), properties);
    element.append(...inside);
    return element;
  };

  // --- the text and its answer

  const showAnswer = (said) => {
    document.querySelector(".answer").classList.toggle("old", said.answer === null);
    if (said.answer !== null) {
      at("answer").innerHTML = said.answer; // the server has escaped every text in it
      if (said.what_if) whatIf.show(said.what_if);
      at("answer").classList.toggle("asif", Boolean(said.what_if?.told));
      window.haymowDrawPlots();
    }
    const words = said.what_if?.told || said.told || (said.errors.length
      ? `${said.errors.length} mistake${said.errors.length > 1 ? "s" : ""}: the answer is of before` : "");
    if (words) tell(words);
    else tellSaved();
  };
  const plans = window.haymowPlans({ ask, show: showAnswer, fail: (error) => tell(error.message) });

  let view = "ration";
  let shown = ""; // which views there are, so that they are drawn anew only where they change
  const showViews = (views, now) => {
    view = now;
    if (!views) return; // there are mistakes: what the file can answer is not known
    if (shown !== JSON.stringify(views)) {
      shown = JSON.stringify(views);
      document.querySelectorAll("#views label").forEach((each) => each.remove());
      at("views").append(...views.map(({ name, words }) => make("label", {},
        make("input", { type: "radio", name: "view", value: name, onchange: guarded(() => {
          view = name;
          at("answer").replaceChildren();
          return look();
        }) }), ` ${words}`)));
    }
    document.querySelector(`#views [value=${now}]`).checked = true;
  };

  const look = async () => {
    const number = ++looking;
    const what = { text, file: file || "the page", view };
    const said = await ask("/look", { ...what, what_if: whatIf.asked(view) });
    if (number !== looking) return;
    fields.show(said.entries);
    fields.showMistakes(said.errors);
    showViews(said.views, said.view);
    at("whatif").hidden = said.view !== "ration";
    if (!said.waits) {
      plans.drop();
      return showAnswer(said);
    }
    document.querySelector(".answer").classList.toggle("old", at("answer").hasChildNodes());
    tellSaved();
    await plans.begin({ ...what, view: said.view });
  };

  const showText = () => {
    if (document.activeElement !== at("text")) at("text").value = text;
    at("undo").disabled = before.length === 0;
    at("redo").disabled = after.length === 0;
    document.title = `${text === saved ? "" : "* "}${file || "haymow"}`;
  };

  const take = async (other) => {
    text = other;
    savedWords = "";
    showText();
    // Kept and looked at side by side: neither waits for the other.
    const kept = inTurn(() => file && (text === saved ? ask("/drop", { file }) : ask("/keep", { file, text })));
    await Promise.all([kept, look()]);
  };
  const change = async (other) => {
    if (other === text) return;
    before.push(text);
    after = [];
    await take(other);
  };
  const edit = async (what) => {
    let taken;
    await inTurn(async () => {
      taken = change((await ask("/edit", { text, ...what })).text);
    });
    await taken;
  };
  const fields = window.haymowFields({ edit, guarded, tell, make, pause });
  const whatIf = window.haymowWhatIf({ look, edit, guarded, make });

  // --- files

  const list = async () => {
    const { files } = await ask("/files", {});
    at("files").replaceChildren(...files.map((name) => make("option", { value: name, textContent: name, selected: name === file })));
    return files;
  };
  const open = async (name) => {
    const said = await ask("/open", { file: name });
    file = name;
    at("name").value = name;
    saved = said.new ? null : said.text;
    before = [];
    after = [];
    text = said.text;
    savedWords = "";
    fields.forget();
    whatIf.forget();
    showText();
    at("kept").hidden = said.unsaved === null || said.unsaved === said.text;
    at("take").onclick = guarded(async () => {
      at("kept").hidden = true;
      await change(said.unsaved);
    });
    at("forget").onclick = guarded(async () => {
      at("kept").hidden = true;
      await ask("/drop", { file });
    });
    await look();
  };
  const save = () => inTurn(async () => {
    const name = at("name").value.trim();
    const same = name === file;
    const as = text; // it may change while it is written
    await ask("/save", { file: name, text: as, was: same ? saved : null });
    if (!same && file) await ask("/drop", { file });
    file = name;
    saved = as;
    await list();
    showText();
    savedWords = `${file} is saved`;
    tell(savedWords);
  });

  at("open").onclick = guarded(() => open(at("files").value));
  at("save").onclick = guarded(save);
  const back = guarded(async () => {
    if (!before.length) return;
    after.push(text);
    await take(before.pop());
  });
  const forth = guarded(async () => {
    if (!after.length) return;
    before.push(text);
    await take(after.pop());
  });
  at("undo").onclick = back;
  at("redo").onclick = forth;
  at("fields").addEventListener("submit", (event) => event.preventDefault());
  let timer;
  const textTyped = guarded(() => change(at("text").value));
  at("text").addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(textTyped, pause);
  });
  at("text").addEventListener("change", () => {
    clearTimeout(timer);
    textTyped();
  });
  addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "s") return;
    event.preventDefault();
    const here = document.activeElement;
    here.blur(); // what was just typed is taken first
    here.focus();
    guarded(save)();
  });

  guarded(async () => {
    fields.learn(await (await fetch("/schema.json")).json());
    const files = await list();
    await open(files[0] || "my-yard.yaml");
  })();
})();
