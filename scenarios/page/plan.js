"use strict";
// What takes its time: begun, followed and stopped. One at a time; what is begun anew
// takes the place of what was begun before.
window.haymowPlans = ({ ask, show, fail }) => {
  const at = (id) => document.getElementById(id);
  const every = 300; // milliseconds between two questions how far it is
  let number = null; // of the plan that is awaited
  let what = null;
  let turn = 0; // of those begun here, whose answers may come out of order
  let began = 0;

  const tell = (words, seconds) => {
    // Set only when it is another: it is read aloud.
    if (at("planat").textContent !== words) at("planat").textContent = words;
    at("plantime").textContent = seconds ? `${seconds} s` : "";
  };
  const working = (is) => {
    at("planstop").hidden = !is;
    at("planstop").disabled = false;
    at("planagain").hidden = is;
  };
  const end = (words) => {
    number = null;
    working(false);
    tell(words);
    at("plan").hidden = !words;
  };

  const follow = async (mine) => {
    let said;
    try {
      said = await ask("/planned", { plan: mine });
    } catch (error) {
      if (mine === number) end("not worked out");
      return fail(error);
    }
    if (mine !== number) return;
    if (said.state === "done") {
      end(said.answer.stopped ? "stopped" : "");
      return show(said.answer);
    }
    if (said.state === "gone") return end("stopped: another plan was begun, or this one was never begun");
    const seconds = Math.round((performance.now() - began) / 1000);
    tell(said.stopping ? "stopping" : said.at || "waiting for the plan before to stop", seconds);
    setTimeout(() => follow(mine), every);
  };

  const begin = async (asked) => {
    const mine = ++turn;
    what = asked;
    number = null;
    began = performance.now();
    at("plan").hidden = false;
    working(true);
    tell("beginning");
    let plan;
    try {
      ({ plan } = await ask("/plan", asked));
    } catch (error) {
      end("not worked out");
      throw error;
    }
    if (mine !== turn) return ask("/stop", { plan });
    number = plan;
    await follow(plan);
  };
  // What is under way is of no use any more.
  const drop = () => {
    ++turn;
    if (number !== null) ask("/stop", { plan: number }).catch(fail);
    end("");
  };

  at("planstop").onclick = () => {
    at("planstop").disabled = true;
    if (number !== null) ask("/stop", { plan: number }).catch(fail);
  };
  at("planagain").onclick = () => begin(what).catch(fail);
  addEventListener("pagehide", () => {
    if (number !== null) navigator.sendBeacon("/stop", JSON.stringify({ plan: number }));
  });
  return { begin, drop };
};
