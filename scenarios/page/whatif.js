"use strict";
// The sliders: what is asked of the file as it would be with them. Their ends and steps,
// and what stands in the file, the server says.
window.haymowWhatIf = ({ look, edit, guarded, make }) => {
  const at = (id) => document.getElementById(id);
  let set = {}; // by name, where somebody put them: {of, value}
  let drawn = ""; // what the sliders are drawn from
  let looking = false;
  let again = false;

  // One question at a time, and then the newest: an answer is sooner there than a queue of them.
  const ask = async () => {
    again = looking;
    if (looking) return;
    looking = true;
    try {
      do {
        again = false;
        await look();
      } while (again);
    } finally {
      looking = false;
    }
  };

  const words = (slider, value) => `${value.toFixed(slider.decimals)} ${slider.unit}`;

  const row = (slider, i) => {
    const id = `slider-${i}`;
    const input = make("input", {
      type: "range", id, min: slider.least, max: slider.most, step: slider.step,
    });
    input.value = slider.value; // after its ends, which would cut it off
    const shown = make("output", { htmlFor: id });
    shown.setAttribute("aria-live", "off"); // the slider says it itself
    const keep = make("button", { type: "button" });
    const back = make("button", { type: "button", textContent: "Back" });
    back.setAttribute("aria-label", `Back: ${slider.words}`);
    const say = (value) => {
      shown.textContent = words(slider, value);
      input.setAttribute("aria-valuetext", `${words(slider, value)}${value === slider.stands ? ", not moved" : ""}`);
      back.hidden = value === slider.stands;
      keep.hidden = back.hidden || !slider.path;
      keep.textContent = `Write ${words(slider, value)} into the file`;
    };
    const move = guarded(() => {
      const value = Number(input.value);
      set[slider.name] = { of: slider.of, value };
      say(value);
      return ask();
    });
    input.addEventListener("input", move);
    back.onclick = () => {
      input.value = slider.stands;
      move();
      input.focus();
    };
    keep.onclick = guarded(async () => {
      input.focus();
      const value = Number(input.value).toFixed(slider.decimals);
      await edit({ path: slider.path, words: `${value} per ${slider.pack}` });
      delete set[slider.name]; // it follows the file from now on
    });
    const note = make("small", { id: `${id}-note`, textContent: slider.note });
    input.setAttribute("aria-describedby", note.id);
    say(slider.value);
    return make("div", { className: "slider" },
      make("label", { htmlFor: id, textContent: slider.words }), shown, input, note, keep, back);
  };

  // Drawn anew only where the file is another: a slider under somebody's finger stays.
  const show = (said) => {
    const { sliders, shown } = said;
    const frame = JSON.stringify(sliders.map(({ value, ...rest }) => rest));
    if (frame !== drawn) {
      drawn = frame;
      const focused = document.activeElement && document.activeElement.id;
      at("sliders").replaceChildren(...sliders.map(row));
      if (focused && focused.startsWith("slider-")) at(focused)?.focus();
    }
    at("whatifshown").innerHTML = shown; // the server has escaped every text in it
  };

  at("whatif").addEventListener("toggle", guarded(() => {
    if (!at("whatif").open) at("whatifshown").replaceChildren();
    return ask();
  }));

  return {
    /// What to ask the server for; nothing where the sliders are not to be seen.
    asked: (view) => {
      if (view !== "ration" || !at("whatif").open) return undefined;
      const asked = { prices: {} };
      for (const [name, { of, value }] of Object.entries(set)) {
        if (of === "price") asked.prices[name] = value;
        else asked.forage_share = value;
      }
      return asked;
    },
    show,
    /// Another file: nothing is moved.
    forget: () => {
      set = {};
      drawn = "";
    },
  };
};
