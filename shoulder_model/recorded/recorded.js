// A recorded panel: unpacks what it showed in every state of its grid, and answers the panel's own picture and sliders with it.
// `picture` and `slider` are panels/picture.js and panels/slider.js; what `packing.py` packs is unpacked here.

async function inflated(text) {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

// The head of a record, its tables as `{ rows, columns: [[key, pattern, text of a value]] }`.
async function unpacked(packed) {
  const bytes = await inflated(packed), length = new DataView(bytes.buffer).getUint32(0, true);
  const head = JSON.parse(new TextDecoder().decode(bytes.subarray(4, 4 + length)));
  let at = 4 + length;
  function whole() {
    let value = 0, place = 1, byte;
    do {
      byte = bytes[at++];
      value += (byte & 127) * place;
      place *= 128;
    } while (byte & 128);
    return value % 2 ? -(value + 1) / 2 : value / 2;
  }
  const wholes = (count) => Int32Array.from({ length: count }, whole);
  head.tables = head.tables.map(({ rows, patterns, columns }) => {
    const summed = Array.from({ length: patterns }, () => running(wholes(rows)));
    const most = summed.map((pattern) => pattern.reduce((one, other) => Math.max(one, other), 0) + 1);
    return { rows, columns: columns.map(([key, which, templates, ways]) =>
      [key, summed[which], texts(most[which], templates, ways, wholes)]) };
  });
  return head;
}

function running(steps, from = 1) {
  for (let i = from; i < steps.length; i++) steps[i] += steps[i - from];
  return steps;
}

// What gives the text of a column's value by its number; the texts are put together when they are asked for.
function texts(values, templates, ways, wholes) {
  if (values === 1) return () => templates[0];
  const kinds = templates.length > 1 ? wholes(values) : new Int32Array(values);
  const place = new Int32Array(values), counts = templates.map(() => 0);
  kinds.forEach((kind, value) => { place[value] = counts[kind]++; });
  const parts = templates.map((template, kind) => {
    const pieces = (template ?? "").split(/[\u0001-\u0003]/), digits = [...(template ?? "").matchAll(/[\u0001-\u0003]/g)];
    const numbers = digits.map(() => wholes(counts[kind]));
    if (ways[kind]) for (let i = 2; i < numbers.length; i++) numbers[i].forEach((_, k) => { numbers[i][k] += numbers[i - 2][k]; });
    numbers.forEach((one) => running(one));
    return { absent: template === null, pieces, digits: digits.map(([one]) => one.charCodeAt(0) - 1), numbers };
  });
  return (value) => {
    const { absent, pieces, digits, numbers } = parts[kinds[value]], row = place[value];
    if (absent) return null;
    let text = pieces[0];
    for (let i = 0; i < numbers.length; i++) text += (numbers[i][row] / 10 ** digits[i]).toFixed(digits[i]) + pieces[i + 1];
    return text;
  };
}

// What stands in for a widget's model: values by name, and whoever wants to hear of them.
class StandIn {
  constructor(values, saved, receive) {
    this.values = values;
    this.saved = saved;
    this.receive = receive;
    this.heard = [];
  }
  get(name) { return this.values[name]; }
  set(name, value) { this.values[name] = value; }
  save_changes() { this.saved?.(this); }
  send(message) { this.receive?.(message, this); }
  on(names, call) { for (const name of names.split(" ")) this.heard.push([name, call]); }
  off(names, call) { this.heard = this.heard.filter(([name, one]) => one !== call || !names.split(" ").includes(name)); }
  tell(name, ...given) { for (const [one, call] of [...this.heard]) if (one === name) call(...given); }
}

// The states of a record: where its controls stand, and what is seen and said there.
class States {
  constructor(head) {
    Object.assign(this, head);
    const [wide, narrow, words] = head.tables;
    Object.assign(this, { seen: { wide, narrow }, words: words.columns });
  }
  number(places) {
    return this.controls.reduce((number, { values }, which) => number * values.length + places[which], 0);
  }
  said(number) {
    return Object.fromEntries(this.words.map(([key, pattern, text]) => [key, text(pattern[number])]));
  }
  // What changes in a layout from one state to another, or all of it where there was none.
  moves(layout, from, to) {
    const changed = new Map();
    for (const [key, pattern, text] of this.seen[layout].columns) {
      if (from !== null && pattern[from] === pattern[to]) continue;
      const [element, name] = key.split(" ");
      if (!changed.has(+element)) changed.set(+element, {});
      changed.get(+element)[name] = text(pattern[to]);
    }
    return [...changed];
  }
}

const NEAR = 1e-6; // two values of a slider that are nearer are one

function nearest(values, wanted) {
  if (typeof wanted !== "number") return values.indexOf(wanted);
  return values.reduce((best, value, place) => (Math.abs(value - wanted) < Math.abs(values[best] - wanted) ? place : best), 0);
}

// One panel in its box; `moved(state)` hears where its controls stand, as a list of texts by their short names.
class RecordedPanel {
  constructor(box, states, { picture, slider, moved = () => {} }) {
    Object.assign(this, { box, states, moved, layout: "wide", shown: null, trouble: "" });
    this.places = [...states.start];
    this.view = new StandIn({}, null, (message) => this.answer(message));
    this.inputs = states.controls.map((control, which) => this.input(control, which, slider));
    const here = document.createElement("div");
    box.querySelector(".here").replaceChildren(here);
    picture.render({ model: this.view, el: here });
    this.go(this.places);
    addEventListener("beforeprint", () => this.show("wide"));
    addEventListener("afterprint", () => this.show(this.narrow ? "narrow" : "wide"));
  }

  input(control, which, slider) {
    const { kind, label, values } = control, row = this.box.querySelector(".controls");
    if (kind === "slider") {
      const el = document.createElement("div");
      if (control.slider.main) row.prepend(el);
      else row.append(el);
      const model = new StandIn({ ...control.slider, value: values[this.places[which]] }, ({ values: now }) => this.set(which, nearest(values, now.value)));
      slider.render({ model, el });
      return () => { model.set("value", values[this.places[which]]); model.tell("change:value"); };
    }
    const words = document.createElement("label"), input = document.createElement(kind === "choice" ? "select" : "input");
    if (kind === "choice") {
      input.append(...values.map((value) => new Option(value)));
      words.append(`${label} `, input);
    } else {
      input.type = "checkbox";
      words.append(input, ` ${label}`);
    }
    input.addEventListener("change", () => this.set(which, kind === "choice" ? input.selectedIndex : values.indexOf(input.checked)));
    row.append(words);
    return () => {
      if (kind === "choice") input.selectedIndex = this.places[which];
      else input.checked = values[this.places[which]];
    };
  }

  set(which, place) {
    this.go(this.places.map((old, one) => (one === which ? place : old)));
  }

  // Take the panel to where its controls stand at `places`; a state that the model refuses leaves the picture as it is.
  go(places) {
    this.places = places;
    for (const input of this.inputs) input();
    const number = this.states.number(places), said = this.states.said(number);
    this.trouble = said.trouble;
    if (said.trouble && this.shown === null) return;
    if (said.trouble) this.view.tell("msg:custom", this.message("move", [], { ...this.said, trouble: said.trouble }));
    else {
      const moves = this.states.moves(this.layout, this.shown, number);
      [this.shown, this.said] = [number, said];
      this.box.querySelector(".set-up").textContent = said.set_up;
      this.view.tell("msg:custom", this.message("move", moves, said));
    }
    this.moved(this.address());
  }

  message(kind, moves, said) {
    const sliders = this.states.controls.flatMap(({ kind, label, values }, which) =>
      (kind === "slider" ? [[label, values[this.places[which]]]] : []));
    return { kind, moves, said, at: Object.fromEntries(sliders) };
  }

  answer(message) {
    if (message.kind === "fit") this.narrow = message.narrow;
    if (message.kind === "ready") this.show(this.layout);
    else if (message.kind === "fit") this.show(message.narrow ? "narrow" : "wide");
  }

  show(layout) {
    this.layout = layout;
    this.shown ??= this.states.number(this.states.start);
    this.said ??= this.states.said(this.shown);
    const still = this.states.stills[layout];
    const message = this.message("all", this.states.moves(layout, null, this.shown), { ...this.said, trouble: this.trouble });
    this.view.tell("msg:custom", { ...message, ...still, still: "" });
  }

  address() {
    return this.states.controls.map(({ short, values }, which) => [short, String(values[this.places[which]])]);
  }

  // Where an address of short names and values leads to, or null where it names what is not recorded here.
  placesOf(pairs) {
    const places = [...this.states.start];
    for (const [short, text] of pairs) {
      const which = this.states.controls.findIndex((control) => control.short === short);
      const values = which < 0 ? [] : this.states.controls[which].values;
      const place = values.findIndex((value) => (typeof value === "number"
        ? text.trim() !== "" && Math.abs(Number(text) - value) < NEAR : String(value) === text));
      if (place < 0) return null;
      places[which] = place;
    }
    return places;
  }
}

// Bring the recorded panel in `box` to life; a browser that cannot keeps the still picture, and says so.
async function play(box, parts) {
  const states = new States(await unpacked(box.querySelector(".record").textContent));
  const panel = new RecordedPanel(box, states, parts);
  box.classList.add("moves");
  return panel;
}
