// A slider with its name, a box to type in, and for a main one named stops, Play and Back to start.
const SWEEP = 6000, TICK = 100; // ms: how long Play takes from end to end, and between two steps
const STILLS = 4; // pictures on that way for those who want less motion

function made(tag, name, text = "") {
  const element = document.createElement(tag);
  element.className = name;
  element.textContent = text;
  if (tag === "button") element.type = "button";
  if (tag === "button" || tag === "input") element.dataset.lmSuppressShortcuts = "true"; // JupyterLab folds chapters with arrows
  return element;
}

function render({ model, el }) {
  const at = (name) => model.get(name);
  el.classList.add("pull-slider");
  el.classList.toggle("main", at("main"));
  const name = made("span", "name", at("description")), track = made("div", "track");
  const range = made("input", "range"), number = made("input", "number");
  const unit = made("span", "unit", at("unit")), also = made("span", "also");
  range.type = "range";
  number.type = "text";
  number.inputMode = "decimal";
  const called = `${at("description")}${at("unit") ? `, ${at("unit")}` : ""}`;
  range.setAttribute("aria-label", called);
  number.setAttribute("aria-label", `${called}: type the number`);
  el.setAttribute("role", "group");
  el.setAttribute("aria-label", at("description"));
  const unread = made("span", "unread"); // what was typed and is no number
  unread.setAttribute("role", "alert");
  track.append(range);
  el.append(name, track, number, unit, also);

  function ends() {
    for (const end of ["min", "max", "step"]) range[end] = at(end);
    stops.replaceChildren(...Object.entries(at("stops")).map(([words, value]) => {
      const stop = made("button", "stop", words);
      stop.setAttribute("aria-label", `${words}: ${written(value)} ${at("unit")}`.trim());
      stop.style.setProperty("--place", (value - at("min")) / (at("max") - at("min")));
      stop.addEventListener("click", () => { halt(); put(value); });
      return stop;
    }));
  }

  function written(value) {
    return value.toFixed(at("digits")).replace("-", "\u2212");
  }

  let shown = null;
  function show() {
    const value = at("value"), [factor, words] = at("also");
    range.value = value;
    if (document.activeElement !== number) number.value = written(value);
    if (value !== shown) unread.textContent = "";
    shown = value;
    also.textContent = words ? `${(value * factor).toFixed(0)} ${words}` : "";
    range.setAttribute("aria-valuetext", [`${written(value)} ${at("unit")}`.trim(), also.textContent].filter(Boolean).join(", "));
  }

  function onStep(value) {
    const step = at("step"), steps = Math.round((value - at("min")) / step);
    return Number(Math.min(Math.max(at("min") + steps * step, at("min")), at("max")).toFixed(6));
  }

  function put(value) {
    model.set("value", onStep(value));
    model.save_changes();
    show();
  }

  function moved() {
    show();
    tell();
  }

  // Tell the panel's picture where the slider stands, whoever moved it, and which steps may come next: the same way again first.
  let last = at("value"), way = 1;
  function tell() {
    const value = at("value"), step = at("step");
    if (value !== last) way = Math.sign(value - last);
    last = value;
    const near = [way, -way].map((side) => onStep(value + side * step)).filter((one) => one !== value);
    el.dispatchEvent(new CustomEvent("pull-slider", { bubbles: true, detail: { slider: at("description"), value, near } }));
  }

  // A number with a point or a comma; what is none is told, and the old number comes back.
  function typed() {
    const text = number.value.trim(), plain = text.replace("\u2212", "-").replace(",", ".");
    const read = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain);
    if (read) put(Number(plain));
    unread.textContent = read || !text ? "" : `\u201C${text.slice(0, 20)}\u201D is not a number.`;
    number.value = written(at("value"));
  }

  let running = null, home = at("value"); // where a chapter has put it, or another pull
  const stops = made("div", "stops"), play = made("button", "play", "Play"), back = made("button", "back", "Back to start");
  function halt() {
    clearInterval(running);
    running = null;
    play.textContent = "Play";
  }
  function run() {
    if (running) return halt();
    if (at("value") >= at("max") - at("step") / 2) put(at("min"));
    play.textContent = "Pause";
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches; // then a few steps, slowly, in place of a sweep
    const stride = calm ? (at("max") - at("min")) / STILLS : Math.max(at("step"), ((at("max") - at("min")) * TICK) / SWEEP);
    let place = at("value");
    running = setInterval(() => {
      place += stride;
      put(place);
      if (place >= at("max")) halt();
    }, calm ? SWEEP / STILLS : TICK);
  }

  range.addEventListener("focus", tell);
  range.addEventListener("input", () => { halt(); put(Number(range.value)); });
  number.addEventListener("change", () => { halt(); typed(); });
  number.addEventListener("keydown", (event) => { if (event.key === "Enter") { halt(); typed(); } });
  play.addEventListener("click", run);
  back.addEventListener("click", () => { halt(); put(home); });
  if (at("main")) {
    track.append(stops);
    el.append(play, back);
  }
  el.append(unread);
  ends();
  show();
  const moveHome = () => { home = at("start"); };
  model.on("change:start", moveHome);
  model.on("change:value", moved);
  model.on("change:also", show);
  model.on("change:min change:max change:step change:stops", ends);
  return () => {
    halt();
    model.off("change:start", moveHome);
    model.off("change:value", moved);
    model.off("change:also", show);
    model.off("change:min change:max change:step change:stops", ends);
  };
}
export default { render };
