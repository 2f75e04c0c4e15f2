// The lecture's page: one screen at a time over everything else, keys, clock, hands. `intoScreens` stands above this script.
const WIDE = 1280, HIGH = 720;
const KEYS = [
  ["Page down, → or space", "on"], ["Page up or ←", "back"], ["S", "skip the rest of this step"],
  ["A to E", "count hands for that answer; arrows change the number"], ["N", "the tutor's note"], ["O", "all steps"],
  ["P", "stop the clock, start it again"], ["Tab", "into a panel; Esc comes out again"], ["Esc", "leave the lecture; the button brings it back"],
];
const SPREAD = ["text", "ask", "answer", "end"]; // kinds of screen that may need more than one
const BLANK = { at: [-1, 0, 0], votes: {}, minutes: {}, started: 0, held: 0, stopped: 0, date: "" };
const KEPT = "workbook-lecture";

// A number stays on one line with its unit.
function together(words) {
  return words.replace(/ (N m|kg|cm|mm|%|×)(?![\w×])/g, "\u00a0$1").replaceAll("N m", "N\u00a0m");
}

function piece(tag, name, words = "") {
  const made = document.createElement(tag);
  if (name) made.className = name;
  made.textContent = together(words);
  if (tag === "button") made.type = "button";
  return made;
}

function counted(count, thing) {
  return `${count} ${thing}${count === 1 ? "" : "s"}`;
}

function render({ model, el }) {
  let lecture = null, state = structuredClone(BLANK), shown = null, overlay = "";
  let left = null; // where another page left this lecture
  let root = null, gone = false, saving = null;
  const spread = new Map(); // text that has been spread over screens already
  el.classList.add("lecture-deck");
  const head = piece("div", "lecture-head"), title = piece("h2"), clock = piece("div", "lecture-clock");
  const body = piece("div", "lecture-body"), foot = piece("div", "lecture-foot");
  const where = piece("div", "lecture-where"), line = piece("div", "lecture-said");
  const back = piece("button", "", "Back"), on = piece("button", "", "Next");
  const leave = piece("button", "lecture-return", "Back to the lecture");
  body.setAttribute("role", "region");
  body.setAttribute("aria-live", "polite");
  line.setAttribute("role", "status");
  back.title = "Page up";
  on.title = "Page down";
  head.append(title, clock);
  foot.append(where, line, back, on);
  el.append(head, body, foot, leave);

  // Where the lecture stands

  function put(changes) {
    Object.assign(state, changes);
    remember();
    saving ??= setTimeout(() => {
      saving = null;
      try { model.send({ kind: "state", state }); } catch { /* the kernel is being started again; it will ask */ }
    }, 150);
  }

  function remember() {
    try { sessionStorage.setItem(KEPT, JSON.stringify({ edition: lecture.edition, state })); } catch { /* the kernel has it */ }
  }

  // Where to go on: at what this page has seen itself, if its kernel was started again; a new page begins anew, or is asked.
  function begin(told, opened) {
    let kept = null;
    try { kept = JSON.parse(sessionStorage.getItem(KEPT)); } catch { /* nothing kept */ }
    const mine = !opened && kept?.edition === lecture.edition ? kept.state : null;
    left = !mine && !opened && told.started ? told : null;
    state = { ...structuredClone(BLANK), ...(mine ?? (opened ? told : {})) };
    if (opened) remember();
    if (!screensOf(state.at[0])[state.at[1]]) state.at = [Math.min(state.at[0], steps().length), 0, 0];
  }

  function goOn() {
    if (!left) return;
    state = { ...structuredClone(BLANK), ...left };
    left = null;
    put({});
    show();
  }

  function steps() {
    return lecture ? lecture.steps : [];
  }

  function screensOf(step) {
    if (step < 0) return [{ kind: "title" }];
    if (step >= steps().length) return [{ kind: "end" }];
    return steps()[step].screens;
  }

  function partsOf(step, screen) {
    const one = screensOf(step)[screen];
    return one && SPREAD.includes(one.kind) ? spreadOut(step, screen, one).length : 1;
  }

  function places() { // the place before and after this one
    const [step, screen, part] = state.at;
    const last = (s, k) => [s, k, Math.max(0, partsOf(s, k) - 1)];
    const after = part + 1 < partsOf(step, screen) ? [step, screen, part + 1]
      : screen + 1 < screensOf(step).length ? [step, screen + 1, 0]
      : step < steps().length ? [step + 1, 0, 0] : null;
    const before = part > 0 ? [step, screen, part - 1]
      : screen > 0 ? last(step, screen - 1)
      : step >= 0 ? last(step - 1, screensOf(step - 1).length - 1) : null;
    return [before, after];
  }

  function go(place) {
    if (!place) return;
    if (state.at[0] < 0 && place[0] >= 0 && !state.date) { // a protocol that was opened has its date, and no clock
      put({ started: Date.now(), date: new Date().toISOString().slice(0, 10) });
    }
    put({ at: place });
    overlay = "";
    say("");
    show();
  }

  // Screens

  function lettered(place) {
    return String.fromCharCode(65 + place);
  }

  function spreadOut(step, screen, one) {
    const key = `${step} ${screen}`, votes = ["text", "ask"].includes(one.kind) ? "" : JSON.stringify(state.votes);
    const known = spread.get(key);
    if (known && known.votes === votes) return known.screens;
    const blocks = { text: () => blocksOf(one.html), ask: () => askBlocks(one), answer: () => answerBlocks(step, one), end: endBlocks }[one.kind]();
    const screens = [];
    intoScreens(blocks, () => {
      const made = piece("div", "lecture-screen");
      made.style.visibility = "hidden";
      body.append(made);
      screens.push(made);
      return made;
    });
    for (const made of screens) {
      made.remove();
      made.style.visibility = "";
    }
    spread.set(key, { votes, screens });
    return screens;
  }

  function blocksOf(html) {
    const holder = document.createElement("template");
    holder.innerHTML = together(html);
    return [...holder.content.children];
  }

  function drawn(step, screen, part, one) {
    if (SPREAD.includes(one.kind)) return spreadOut(step, screen, one)[part] ?? piece("div", "lecture-screen");
    const made = piece("div", `lecture-screen ${one.kind}`);
    if (one.kind === "title") {
      made.append(piece("h1", "", lecture.title), piece("p", "", lecture.audience ?? ""));
      const length = lecture.minutes ? `${lecture.minutes} minutes, ` : "";
      made.append(piece("p", "", `${length}${counted(steps().length, "step")}. The clock starts with the first step.`));
      if (left) {
        const place = Math.min(left.at[0] + 1, steps().length);
        made.append(piece("p", "left", `It was left at step ${place} on ${left.date}. Press G to go on there; Page down begins anew.`));
      }
      made.append(keyTable());
    } else if (one.kind === "wait") {
      made.append(piece("p", "", "This is still being made; it comes up by itself."));
    }
    return made;
  }

  function keyTable() {
    const table = piece("table", "lecture-keys");
    for (const [key, does] of KEYS) {
      const row = table.insertRow();
      row.append(piece("th", "", key), piece("td", "", does));
    }
    return table;
  }

  function votesOf(ask) {
    return state.votes[ask.name] ?? ask.answers.map(() => 0);
  }

  function askBlocks(one) {
    const asked = piece("div", "asked");
    asked.append(piece("p", "question", one.question), ...one.answers.map((words, place) => handRow(one, words, place)));
    return [...blocksOf(one.html), asked];
  }

  function handRow(ask, words, place) {
    const row = piece("label", "hands"), number = piece("input");
    number.type = "number";
    number.min = 0;
    number.max = 999;
    number.value = votesOf(ask)[place] || "";
    number.placeholder = "0";
    number.setAttribute("aria-label", `hands for ${lettered(place)}: ${words}`);
    number.addEventListener("input", () => {
      const votes = [...votesOf(ask)];
      votes[place] = Math.min(999, Math.max(0, Math.floor(Number(number.value)) || 0));
      put({ votes: { ...state.votes, [ask.name]: votes } });
    });
    row.append(piece("b", "letter", lettered(place)), piece("span", "words", words), number);
    return row;
  }

  function askOf(step, name) {
    return screensOf(step).find((one) => one.kind === "ask" && one.name === name);
  }

  function answerBlocks(step, one) {
    const ask = askOf(step, one.ask), votes = ask ? votesOf(ask) : [], all = votes.reduce((sum, count) => sum + count, 0);
    const most = Math.max(1, ...votes), blocks = [];
    (ask?.answers ?? []).forEach((words, place) => {
      const row = piece("div", "answer"), said = piece("div", "line"), right = place === one.right;
      row.classList.toggle("right", right);
      said.append(piece("b", "letter", lettered(place)), piece("span", "words", words));
      if (right) said.append(piece("b", "mark", "✓ right"));
      if (all) {
        const bar = piece("span", "bar"), fill = piece("span", "fill");
        fill.style.width = `${(100 * votes[place]) / most}%`;
        bar.append(fill);
        said.append(bar, piece("span", "count", String(votes[place])));
      }
      row.append(said);
      if (one.replies[place]) row.append(piece("div", "reply", one.replies[place]));
      blocks.push(row);
    });
    if (one.html) {
      const reveal = piece("div", "reveal");
      reveal.innerHTML = together(one.html);
      blocks.push(reveal);
    }
    return blocks;
  }

  function endBlocks() {
    const blocks = [piece("h3", "", "The class's answers")];
    let any = false;
    steps().forEach((step, place) => {
      for (const answer of step.screens.filter((one) => one.kind === "answer" && one.right !== null)) {
        const ask = askOf(place, answer.ask), votes = ask ? votesOf(ask) : [];
        const all = votes.reduce((sum, count) => sum + count, 0);
        if (!all) continue;
        any = true;
        const row = piece("p", "tally");
        row.append(piece("b", "", `${votes[answer.right]} of ${all} right`), document.createTextNode(`: ${ask.question}`));
        blocks.push(row);
      }
    });
    if (!any) blocks.push(piece("p", "", "No hands were counted."));
    return blocks;
  }

  function show() {
    if (!root || !lecture) return;
    const [step, screen, part] = state.at, one = screensOf(step)[screen] ?? { kind: "wait" };
    const now = steps()[step];
    title.textContent = step < 0 ? "" : now ? `${now.quiz ? "Exit quiz: " : ""}${now.title}` : "The end";
    body.replaceChildren();
    if (overlay === "steps") body.append(overview());
    else if (one.kind !== "panel") body.append(drawn(step, screen, part, one));
    root.querySelectorAll(".lecture-panel").forEach((panel, place) => {
      panel.classList.toggle("shown", !overlay && one.kind === "panel" && one.panel === place);
    });
    root.querySelector(".lecture-door")?.classList.toggle("shown", !overlay && one.kind === "end");
    if (one.kind === "end" && !overlay) body.append(endButtons());
    if (one.kind === "answer" && step >= 0) noteMinute(one.ask);
    const count = step < 0 ? "" : now ? `step ${step + 1} of ${steps().length}` : "";
    const parts = screensOf(step).length > 1 || partsOf(step, screen) > 1 ? `, ${soFar()}` : "";
    where.textContent = overlay ? "" : count + (count ? parts : "");
    const [before, after] = places();
    back.disabled = !before;
    on.disabled = !after;
    shown = one;
    if (!el.contains(document.activeElement) || !document.activeElement.matches("button")) root.focus({ preventScroll: true });
    tick();
  }

  function soFar() { // how many screens of this step have been shown
    const [step, screen, part] = state.at;
    let before = part + 1, all = 0;
    screensOf(step).forEach((_, place) => {
      const parts = partsOf(step, place);
      all += parts;
      if (place < screen) before += parts;
    });
    return `screen ${before} of ${all}`;
  }

  function overview() {
    const made = piece("div", "lecture-screen steps");
    steps().forEach((step, place) => {
      const minutes = step.minutes ? ` · ${step.minutes} min` : "";
      const one = piece("button", place === state.at[0] ? "here" : "", `${place + 1}  ${step.title}${minutes}`);
      one.addEventListener("click", () => go([place, 0, 0]));
      made.append(one);
    });
    return made;
  }

  function endButtons() {
    const made = piece("div", "lecture-end"), save = piece("button", "", "Save the protocol"), anew = piece("button", "", "Begin anew");
    save.addEventListener("click", () => model.send({ kind: "save", state }));
    let sure = false;
    anew.addEventListener("click", () => {
      if (!sure) {
        sure = true;
        anew.textContent = "Hands and clock will be forgotten. Begin anew?";
        return;
      }
      state = structuredClone(BLANK);
      spread.clear();
      put({});
      show();
    });
    made.append(save, anew);
    return made;
  }

  // Clock

  function elapsed() { // minutes
    const until = state.stopped || Date.now();
    return state.started ? Math.max(0, (until - state.started - state.held) / 60000) : 0;
  }

  function noteMinute(name) {
    if (state.minutes[name] === undefined) put({ minutes: { ...state.minutes, [name]: Math.min(1440, Math.floor(elapsed())) } });
  }

  function tick() {
    if (!lecture) return;
    const passed = elapsed(), whole = Math.floor(passed), seconds = Math.floor((passed - whole) * 60);
    const time = `${whole}:${String(seconds).padStart(2, "0")}`;
    const plan = lecture.minutes ? ` of ${lecture.minutes} min` : "";
    const said = state.started ? `${time}${plan}${againstPlan(passed)}${state.stopped ? " · clock stopped" : ""}` : "";
    if (clock.textContent !== said) clock.textContent = said;
  }

  function againstPlan(passed) {
    const step = state.at[0];
    if (!lecture.minutes || step < 0) return "";
    const from = steps().slice(0, step).reduce((sum, one) => sum + one.minutes, 0), to = from + (steps()[step]?.minutes ?? 0);
    const late = passed - to, early = from - passed;
    if (step < steps().length && late >= 0.5) return ` · ${Math.max(1, Math.round(late))} min behind`;
    return early >= 0.5 ? ` · ${Math.max(1, Math.round(early))} min ahead` : " · on time";
  }

  function stopOrStart() {
    if (!state.started) return;
    if (state.stopped) put({ held: state.held + Date.now() - state.stopped, stopped: 0 });
    else put({ stopped: Date.now() });
    tick();
  }

  // Keys

  function say(words) {
    line.textContent = words;
  }

  function note() {
    const words = steps()[state.at[0]]?.note;
    say(line.textContent && line.textContent === words ? "" : words || "No note for this step.");
  }

  function onKey(event) {
    if (!root?.matches(":popover-open") || event.ctrlKey || event.metaKey || event.altKey) return;
    const target = root.contains(event.target) ? event.target : root;
    const inField = target.matches("input, select, textarea"), onButton = target.matches("button, summary");
    const [before, after] = places();
    const acts = {
      PageDown: () => go(after), PageUp: () => go(before),
      Escape: () => (overlay ? toggle("steps") : inField ? root.focus() : close()),
    };
    if (!inField) {
      Object.assign(acts, { ArrowRight: acts.PageDown, ArrowLeft: acts.PageUp, Home: () => go([-1, 0, 0]) });
      for (const [key, act] of Object.entries({ s: skip, n: note, p: stopOrStart, o: () => toggle("steps") })) acts[key] = act;
      if (left && state.at[0] < 0) acts.g = goOn;
      if (!onButton) acts[" "] = acts.PageDown;
      shown?.answers?.forEach((_, place) => { acts[lettered(place).toLowerCase()] = () => hands(place); });
    } else if (target.closest(".hands") && event.key === "Enter") {
      acts.Enter = () => root.focus();
    }
    const act = acts[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (!act) {
      if (target === root && event.target !== root) event.stopPropagation();
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    act();
  }

  function hands(place) {
    const box = body.querySelectorAll(".hands input")[place];
    box?.focus();
    box?.select();
  }

  function skip() {
    go([Math.min(state.at[0] + 1, steps().length), 0, 0]);
  }

  function toggle(what) {
    overlay = overlay ? "" : what;
    say("");
    show();
  }

  // Over everything else

  function fit() {
    if (!root) return;
    const zoom = Math.min(innerWidth / WIDE, innerHeight / HIGH);
    root.style.zoom = zoom;
    root.style.left = `${(innerWidth / zoom - WIDE) / 2}px`;
    root.style.top = `${(innerHeight / zoom - HIGH) / 2}px`;
  }

  function open() {
    if (gone) return;
    if (!el.isConnected) return requestAnimationFrame(open);
    root = el.closest(".lecture");
    root.tabIndex = -1;
    root.popover = "manual";
    root.dataset.lmSuppressShortcuts = "true"; // JupyterLab's single keys would change the notebook
    root.showPopover();
    root.classList.add("open");
    fit();
    show();
  }

  function close() {
    root.hidePopover();
    root.classList.remove("open");
    root.style.zoom = 1;
    leave.focus();
  }

  function offer({ offered, text }) {
    const made = piece("div", "lecture-screen steps");
    title.textContent = "Which lecture?";
    for (const [name, words] of offered) {
      const one = piece("button", "", words);
      one.addEventListener("click", () => { say("One moment."); model.send({ kind: "choose", name }); });
      made.append(one);
    }
    body.replaceChildren(made);
    say(text);
  }

  function receive(message) {
    if (message.kind === "choose") offer(message);
    else if (message.kind === "said") say(message.text);
    else if (message.kind === "lecture") {
      lecture = message;
      spread.clear();
      begin(message.state, message.opened);
      say("");
      show();
    } else if (message.kind === "step" && lecture) {
      takeIn(message.place, message.step);
    }
  }

  // A step whose panel or section is there now; what stood before it stays as it is, hands that are being typed too.
  function takeIn(place, step) {
    const waited = screensOf(place).findIndex((one) => one.kind === "wait"), more = step.screens.length - screensOf(place).length;
    lecture.steps[place] = step;
    for (const key of [...spread.keys()]) {
      const [its, screen] = key.split(" ").map(Number);
      if (its === place && screen >= waited) spread.delete(key);
    }
    if (place !== state.at[0] || state.at[1] < waited) return;
    if (state.at[1] > waited) state.at[1] += more; // the reader has gone past it already
    show();
  }

  back.addEventListener("click", () => go(places()[0]));
  on.addEventListener("click", () => go(places()[1]));
  leave.addEventListener("click", open);
  window.addEventListener("keydown", onKey, true);
  window.addEventListener("resize", fit);
  const beat = setInterval(tick, 500);
  model.on("msg:custom", receive);
  model.send({ kind: "ready" });
  open();
  return () => {
    gone = true;
    clearInterval(beat);
    clearTimeout(saving);
    window.removeEventListener("keydown", onKey, true);
    window.removeEventListener("resize", fit);
    model.off("msg:custom", receive);
  };
}
export default { render };
