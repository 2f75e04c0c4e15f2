// A panel's words and its picture: a still layer, and a moving one whose elements are made once and then only changed.
const SVG = "http://www.w3.org/2000/svg";

function part(tag, name, attributes = {}) {
  const made = document.createElement(tag);
  made.className = name;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

function change(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "text") element.textContent = value;
    else if (value === null) element.removeAttribute(name);
    else element.setAttribute(name, value);
  }
}

function build(layer, described) {
  const made = described.map(({ tag, fixed, clip }) => {
    const element = document.createElementNS(SVG, tag);
    change(element, fixed);
    if (!clip) return [element, element];
    const [x, y, width, height] = clip;
    const box = document.createElementNS(SVG, "svg");
    change(box, { x, y, width, height, viewBox: clip.join(" ") });
    box.append(element);
    return [element, box];
  });
  layer.replaceChildren(...made.map(([, outer]) => outer));
  return made.map(([element]) => element);
}

// What stands for this panel on a page that is not running, in the cells just below: a figure, and its caption.
function stillPicture(el, name) {
  let cell = el.closest(".jp-Cell");
  for (let i = 0; cell && i < 4; i++) {
    cell = cell.nextElementSibling;
    const image = cell?.querySelector(`img[src*="${name}.svg"]`);
    if (!image) continue;
    const figure = image.closest("p") ?? image, caption = figure.nextElementSibling;
    const isCaption = caption?.childNodes.length === 1 && caption.firstChild.nodeName === "EM";
    return isCaption ? [figure, caption] : [figure];
  }
  return null;
}

const REST = 60; // ms without a move, the model being where the slider is, before the next steps are asked for
const NARROW = 760; // pixels; on a narrower page the picture is drawn for a phone
const SETTLED = 700; // ms without another verdict before a screen reader is told it
const STILL = 300; // ms without a move before the bands are asked for
const STEPS = 4; // kept at a time: both sides of where two sliders stand

function render({ model, el }) {
  el.classList.add("pull-picture");
  const lines = {
    verdict: part("div", "verdict"),
    small: part("div", "small"),
    bands: part("div", "bands"),
    trouble: part("div", "trouble", { role: "alert" }),
  };
  const heard = part("div", "pull-heard", { role: "status" }); // one for the panel's whole life
  const picture = part("div", "layers"), frame = part("div", "frame");
  const layer = document.createElementNS(SVG, "svg");
  layer.setAttribute("role", "img");
  picture.append(frame, layer);
  el.append(lines.verdict, lines.small, lines.bands, lines.trouble, heard, picture);
  let elements = [], replaced = null, gone = false;
  let told = [], shown = []; // attributes of each element: as the model told them last, as they stand
  let said = {}, at = {}; // the model's words with them, and where the sliders stood then
  let ahead = new Map(), early = []; // steps not yet taken; elements that show one
  let narrow = false, settling = null, toldAloud = null, opened = null;
  let last = null, waiting = [], rest = null; // the slider moved last; its steps to ask for, and when
  let bands = "off", still = null, movedAt = -STILL; // how the bands stand; when they are asked for; the last move

  // Bring elements to what the model told, with the moves of a step that it has not told yet on top.
  function settle(places, step = new Map()) {
    for (const place of places) {
      const wanted = { ...told[place], ...step.get(place) }, changed = {};
      for (const name of Object.keys({ ...shown[place], ...wanted })) {
        const value = wanted[name] ?? null;
        if ((shown[place][name] ?? null) !== value) changed[name] = value;
      }
      shown[place] = wanted;
      change(elements[place], changed);
    }
  }

  function say(all) {
    for (const [name, line] of Object.entries(lines)) {
      if (line.textContent !== (all[name] ?? "")) line.textContent = all[name] ?? "";
    }
    if (layer.getAttribute("aria-label") !== all.words) layer.setAttribute("aria-label", all.words);
    opened ??= all.verdict;
    clearTimeout(settling);
    settling = setTimeout(tell, SETTLED);
  }

  // What the picture says now, once; the words it opens with are there to be read and interrupt nobody. Bands on their way come first.
  function tell() {
    const now = `${lines.verdict.textContent} ${lines.bands.textContent}`.trim();
    if (bands === "awaited" || now === toldAloud) return;
    if (toldAloud !== null || lines.verdict.textContent !== opened) heard.textContent = now;
    toldAloud = now;
  }

  // While nothing moves, the kernel works on the bands a little at a time, each time it is asked.
  function awaitBands() {
    clearTimeout(still);
    if (bands === "awaited") still = setTimeout(() => model.send({ kind: "settled" }), movedAt + STILL - performance.now());
  }

  function moved() {
    movedAt = performance.now();
    awaitBands();
  }

  // Show the model's own state, in these elements and in those that show a step ahead of it.
  function showTold(places = []) {
    settle(new Set([...early, ...places]));
    early = [];
  }

  // The kernel draws for a narrow page or a wide one; a panel that is not seen yet has no width.
  const width = new ResizeObserver(() => {
    const is = el.clientWidth < NARROW;
    if (!el.clientWidth || is === narrow || el.closest(".lecture")) return;
    narrow = is;
    el.classList.toggle("narrow", narrow);
    model.send({ kind: "fit", narrow });
  });

  // The bands, or a sign that they take longer. The slider may have left for another place: then they only count as told.
  function receiveBands(message) {
    if (message.said) {
      for (const [place, attributes] of message.moves) Object.assign(told[place], attributes);
      said = message.said;
      if (last && !modelIsHere()) return;
      ahead.clear(); // they do not take the bands away
      showTold(message.moves.map(([place]) => place));
      say(said);
      waiting = last?.near ?? [];
      askSoon();
    }
    awaitBands();
  }

  function receive(message) {
    if (message.kind !== "ahead") {
      bands = message.bands ?? "off";
      el.dataset.bands = bands;
    }
    if (message.kind === "bands") return receiveBands(message);
    if (message.kind === "ahead") {
      ahead.set(`${message.slider} ${message.value}`, message);
      if (ahead.size > STEPS) ahead.delete(ahead.keys().next().value);
      if (modelIsHere()) ask();
      return;
    }
    if (message.kind === "all") {
      const [width, height] = message.size;
      frame.innerHTML = message.frame;
      layer.setAttribute("viewBox", `0 0 ${width} ${height}`);
      picture.style.setProperty("--shape", width / height);
      elements = build(layer, message.layer);
      [told, shown, early] = [elements.map(() => ({})), elements.map(() => ({})), []];
      el.dataset.still = message.still;
      hideStill(message.still);
    }
    if (!elements.length) return;
    ahead.clear(); // they were steps from another place
    for (const [place, attributes] of message.moves) Object.assign(told[place], attributes);
    at = message.at;
    el.dataset.at = JSON.stringify(at);
    showTold(message.moves.map(([place]) => place));
    moved();
    if (!message.said) return;
    say((said = message.said));
    askSoon();
  }

  function modelIsHere() {
    return last && at[last.slider] === last.value;
  }

  function ask() {
    const next = waiting.shift();
    if (next !== undefined) model.send({ kind: "ahead", slider: last.slider, value: next });
  }

  function askSoon() {
    clearTimeout(rest);
    if (modelIsHere()) rest = setTimeout(ask, REST);
  }

  // A slider of this panel stands at `value` now, or is about to be moved; `near` are its next steps to either side.
  function follow({ target, detail: { slider, value, near } }) {
    if (el.closest(".pull-panel") !== target.closest(".pull-panel")) return;
    const step = ahead.get(`${slider} ${value}`);
    if (step) {
      const moves = new Map(step.moves);
      settle(new Set([...early, ...moves.keys()]), moves);
      early = [...moves.keys()];
      say(step.said);
    } else if (early.length && at[slider] === value) { // the model never left it, so it will not speak
      showTold();
      say(said);
    }
    last = { slider, value, near };
    waiting = near;
    moved();
    askSoon();
  }

  function hideStill(name, tries = 30) {
    if (replaced || gone || !name || !tries) return;
    replaced = el.isConnected ? stillPicture(el, name) : null;
    if (replaced) for (const part of replaced) part.classList.add("replaced-by-panel");
    else setTimeout(() => hideStill(name, tries - 1), 100);
  }

  model.on("msg:custom", receive);
  document.addEventListener("pull-slider", follow);
  model.send({ kind: "ready" });
  width.observe(el);
  return () => {
    gone = true;
    width.disconnect();
    clearTimeout(rest);
    clearTimeout(settling);
    clearTimeout(still);
    model.off("msg:custom", receive);
    document.removeEventListener("pull-slider", follow);
    for (const part of replaced ?? []) part.classList.remove("replaced-by-panel");
  };
}
export default { render };
