// The page of the practice panel: it shows one view, as the kernel says, and sends what the reader does. It works nothing out.

const SHORT = 15; // letters of a cell that stays on one line
const WARN = [600, 300, 60]; // seconds left that are said aloud

function made(tag, name = "", text = "") {
  const element = document.createElement(tag);
  if (name) element.className = name;
  element.textContent = text;
  if (["button", "input", "select", "li", "h2", "a"].includes(tag)) element.dataset.lmSuppressShortcuts = "true";
  if (tag === "button") element.type = "button";
  return element;
}

function within(parent, ...children) {
  parent.append(...children.filter(Boolean));
  return parent;
}

function list(tag, name, lines) {
  return within(made(tag, name), ...lines.map((line) => made("li", "", line)));
}

function table({ heads, rows }) {
  const head = within(made("tr"), ...heads.map((words) => { const cell = made("th", "", words); cell.scope = "col"; return cell; }));
  const body = rows.map((row) => within(made("tr"), ...row.map((words, place) => {
    const cell = made(place ? "td" : "th", words.length < SHORT ? "short" : "", words);
    if (!place) cell.scope = "row";
    return cell;
  })));
  return within(made("table"), within(made("thead"), head), within(made("tbody"), ...body));
}

function picture(svg, name = "") {
  const figure = made("figure", name);
  figure.innerHTML = svg; // made by the kernel from shapes, every text in it escaped
  return figure;
}

function render({ model, el }) {
  const root = made("div", "practice"), heard = made("div", "practice-heard"), name = `practice-${Math.random().toString(36).slice(2)}`;
  heard.setAttribute("aria-live", "polite");
  root.setAttribute("role", "region");
  root.setAttribute("aria-label", "Practice");
  within(el, root, heard);
  let ticking = null, ends = 0, read = () => "", touched = false;

  const send = (what, more = {}) => model.send({ do: what, ...more });

  // The page says it again even if the words are the same.
  function say(words) {
    heard.textContent = "";
    if (words) setTimeout(() => { heard.textContent = words; }, 60);
  }

  // What was typed or chosen, for a question that is left.
  const draft = () => ({ text: touched ? read() : "", at: model.get("view").at });

  function action(words, what, more, kind = "") {
    const button = made("button", kind, words);
    button.addEventListener("click", () => {
      send(what, typeof more === "function" ? more() : more);
      if (what === "export") say("Saved as my-practice.csv in your downloads.");
    });
    return button;
  }

  function title(words) {
    const head = made("h2", "", words);
    head.tabIndex = -1;
    return head;
  }

  // How an answer is given: each maker returns an element, and `read` says the answer as text.
  const askers = {
    number(ask) {
      const label = made("label"), box = made("input");
      box.type = "text";
      box.inputMode = "decimal";
      box.size = 12;
      box.autocomplete = "off";
      box.setAttribute("aria-label", `Your answer${ask.unit ? ` in ${ask.unit}` : ""}`);
      box.value = ask.given;
      read = () => box.value;
      box.addEventListener("keydown", (event) => { if (event.key === "Enter") { event.preventDefault(); answer(); } });
      return within(made("p"), within(label, document.createTextNode("Your answer: "), box, document.createTextNode(` ${ask.unit}`)));
    },
    choice(ask) {
      const group = oneOf("Your answer", ask.options, ask.signs, ask.given, "choice", ask.numbered);
      read = () => group.value();
      return group.element;
    },
    reasoned(ask) {
      const [letters, digits] = ask.signs, given = [...ask.given];
      const letter = given.find((sign) => letters.includes(sign)), digit = given.find((sign) => digits.includes(sign));
      const first = oneOf("Your choice", ask.options, letters, letter, "choice");
      const second = oneOf("The reason", ask.reasons, digits, digit, "reason");
      read = () => first.value() + second.value();
      return within(made("div"), first.element, second.element);
    },
    order(ask) {
      let order = [...(ask.given || ask.signs)];
      const field = within(made("fieldset"), made("legend", "", `Put in order: ${ask.ends}`)), rows = made("ol", "order");
      const move = (place, by, focus) => {
        const to = place + by;
        if (to < 0 || to >= order.length) return;
        [order[place], order[to]] = [order[to], order[place]];
        touched = true;
        show(to, focus);
        say(`${ask.things[ask.signs.indexOf(order[to])]}: now ${to + 1} of ${order.length}`);
      };
      const show = (at = -1, part = "li") => {
        rows.replaceChildren(...order.map((sign, place) => {
          const row = made("li"), words = ask.things[ask.signs.indexOf(sign)];
          const up = made("button", "up", "\u2191"), down = made("button", "down", "\u2193");
          up.setAttribute("aria-label", `${words}: up`);
          down.setAttribute("aria-label", `${words}: down`);
          up.disabled = place === 0;
          down.disabled = place === order.length - 1;
          up.addEventListener("click", () => move(place, -1, "up"));
          down.addEventListener("click", () => move(place, 1, "down"));
          row.tabIndex = 0;
          row.setAttribute("aria-label", `${place + 1}: ${words}. Arrow keys move it.`);
          row.addEventListener("keydown", (event) => {
            if (event.target !== row) return;
            const by = { ArrowUp: -1, ArrowDown: 1 }[event.key];
            if (by) { event.preventDefault(); event.stopPropagation(); move(place, by, "li"); }
            if (event.key === "Enter") answer();
          });
          return within(row, made("span", "", `${place + 1}. ${words}`), up, down);
        }));
        if (at < 0) return;
        const row = rows.children[at], wanted = part === "li" ? row : row.querySelector(`.${part}`);
        (wanted.disabled ? row : wanted).focus();
      };
      show();
      read = () => order.join(" ");
      return within(field, rows);
    },
    pick(ask, figure) {
      const chosen = [...ask.given], field = made("fieldset");
      const words = ask.count === 1 ? "Pick one place, here or in the picture" : "Pick two places, here or in the picture";
      within(field, made("legend", "", words));
      const boxes = ask.marks.map(([letter, told]) => {
        const label = made("label", "one"), box = made("input");
        box.type = ask.count === 1 ? "radio" : "checkbox";
        box.name = `${name}-pick`;
        box.value = letter;
        box.addEventListener("change", () => toggle(letter));
        box.addEventListener("keydown", (event) => { if (event.key === "Enter") { event.preventDefault(); answer(); } });
        within(field, within(label, box, made("span", "", `${letter}: ${told}`)));
        return [letter, box];
      });
      const svg = figure.querySelector("svg"), marks = [...figure.querySelectorAll(".mark")];
      const join = document.createElementNS("http://www.w3.org/2000/svg", "line");
      join.setAttribute("class", "joined");
      svg.insertBefore(join, marks[0]);
      function toggle(letter) {
        touched = true;
        const at = chosen.indexOf(letter);
        if (at >= 0 && ask.count > 1) chosen.splice(at, 1);
        else if (at < 0) { chosen.push(letter); while (chosen.length > ask.count) chosen.shift(); }
        show();
      }
      function show() {
        for (const [letter, box] of boxes) box.checked = chosen.includes(letter);
        for (const mark of marks) mark.classList.toggle("on", chosen.includes(mark.dataset.letter));
        const ends = chosen.map((letter) => marks.find((mark) => mark.dataset.letter === letter).querySelector("circle"));
        join.style.display = ends.length === 2 ? "" : "none";
        if (ends.length === 2) ends.forEach((end, place) => {
          join.setAttribute(`x${place + 1}`, end.getAttribute("cx"));
          join.setAttribute(`y${place + 1}`, end.getAttribute("cy"));
        });
      }
      for (const mark of marks) mark.addEventListener("click", () => toggle(mark.dataset.letter));
      show();
      read = () => chosen.join(" ");
      return field;
    },
  };

  function oneOf(words, options, signs, given, group, bare = false) {
    const field = within(made("fieldset"), made("legend", "", words));
    const boxes = options.map((option, place) => {
      const label = made("label", "one"), box = made("input");
      box.type = "radio";
      box.name = `${name}-${group}`;
      box.value = signs[place];
      box.checked = given === signs[place];
      box.addEventListener("keydown", (event) => { if (event.key === "Enter") { event.preventDefault(); answer(); } });
      within(field, within(label, box, made("span", "", bare ? option : `${signs[place]}: ${option}`)));
      return box;
    });
    return { element: field, value: () => boxes.find((box) => box.checked)?.value ?? "" };
  }

  function answer() { send("answer", { text: read(), at: model.get("view").at }); }

  const screens = {
    home(view) {
      const tiles = view.tiles.map(({ what, words, more, off }) => {
        const tile = within(made("button", what === "today" ? "main" : ""), made("b", "", words), made("span", "", more));
        if (off) tile.setAttribute("aria-disabled", "true"); // the keyboard still reaches it, and what stands on it
        tile.addEventListener("click", () => (off ? say(`${words}: ${more}`) : send(what)));
        return tile;
      });
      const choosers = view.choosers.map(({ what, words, options }) => {
        const label = made("label", "", words), select = made("select");
        select.id = `${name}-${what}`;
        label.htmlFor = select.id;
        within(select, ...options.map(([value, text]) => { const one = made("option", "", text); one.value = value; return one; }));
        select.value = options.some(([value]) => value === kept[what]) ? kept[what] : options[0][0];
        select.addEventListener("change", () => { kept[what] = select.value; });
        const go = action("Start", what, () => ({ value: select.value }));
        go.setAttribute("aria-label", `Start: ${words}`);
        return within(made("div", "choose"), label, select, go);
      });
      within(root, title(view.title), ...view.lines.map((line) => made("p", "", line)), within(made("div", "tiles"), ...tiles), ...choosers);
    },
    question(view) {
      const { ask, verdict, exam } = view;
      const figure = view.svg ? picture(view.svg) : null, text = made("div", "text");
      const asked = within(made("div"), ...view.question.map((words) => made("p", "", words)), view.lines.length ? list("ol", "lines", view.lines) : null);
      const head = title(view.title), trouble = made("p", "trouble", view.trouble);
      asked.id = `${name}-asked`;
      trouble.id = `${name}-trouble`;
      head.setAttribute("aria-describedby", asked.id);
      within(text, head, asked);
      const field = askers[ask.kind](ask, figure), over = verdict && verdict.over;
      field.addEventListener("input", () => { touched = true; });
      for (const box of field.querySelectorAll("input")) {
        if (over && box.type !== "text" && verdict.right.includes(box.value)) box.parentElement.classList.add("key");
        if (!view.trouble || box.type !== "text") continue;
        box.setAttribute("aria-invalid", "true");
        box.setAttribute("aria-describedby", trouble.id);
      }
      if (over) for (const part of field.querySelectorAll("input, button")) part.disabled = true;
      if (over) for (const part of field.querySelectorAll("li")) part.tabIndex = -1;
      within(text, field, view.hint ? made("p", "hint", view.hint) : null, verdict ? verdictOf(verdict) : null);
      within(root, within(made("div", figure ? "work with-picture" : "work"), text, figure), trouble, buttonsOf(view));
      if (exam) within(root, dotsOf(exam));
    },
    page(view) {
      within(root, title(view.title), ...view.lines.map((line) => made("p", "", line)));
      if (view.svg) within(root, within(made("div", "work wide"), picture(view.svg)));
      for (const part of view.parts) {
        within(root, made("h3", "", part.words));
        if (part.table) within(root, table(part.table));
        if (part.list) within(root, list("ul", "", part.list));
        if (part.links) within(root, within(made("ul"), ...part.links.map((link) => within(made("li"), linkTo(link)))));
      }
      within(root, within(made("div", "buttons"), ...view.buttons.map(([words, what, kind]) => action(words, what, {}, kind))));
    },
  };

  // To a chapter beside this one, whose name stands in the address: in the path, or on the site behind a question mark.
  function linkTo({ words, notebook, section }) {
    const [, folder = ""] = location.href.match(/^(.*(?:\/|=|%2F))[^/=]*\.ipynb/i) ?? [];
    const href = `${folder}${notebook}.ipynb#${section}`;
    return Object.assign(made("a", "", words), { href, target: "_blank", rel: "noopener" });
  }

  function verdictOf({ mark, words, key, solution, line, read: again }) {
    const box = made("div", `verdict ${mark}`), sign = { right: "\u2713 ", wrong: "\u2717 ", half: "\u00BD " }[mark] ?? "";
    within(box, made("b", "", sign + words), key ? made("p", "", `Answer: ${key}`) : null);
    if (solution.length) {
      const steps = list("ol", "lines", solution);
      if (line) within(steps.children[line - 1], made("b", "slipped", "  \u2190 the slip is here"));
      within(box, steps);
    }
    if (again) within(box, within(made("p"), document.createTextNode("Read again: "), linkTo(again)));
    return box;
  }

  function buttonsOf({ verdict, exam, hint, has_hint: hasHint }) {
    const row = made("div", "buttons");
    if (exam) {
      within(row, action("Keep this answer", "answer", () => ({ text: read(), at: model.get("view").at }), "main"),
        action("Next", "go", () => ({ place: exam.place + 1, ...draft() })));
      row.lastChild.disabled = exam.place + 1 >= exam.answered.length;
    } else if (verdict && verdict.over) {
      within(row, action("Next", "next", {}, "main"));
    } else {
      within(row, action(verdict ? "Check again" : "Check", "answer", () => ({ text: read(), at: model.get("view").at }), "main"));
      if (hasHint && !hint) within(row, action("Hint", "hint", () => ({ text: read() })));
      within(row, action("Show me", "show"));
    }
    return row;
  }

  function dotsOf({ answered, place }) {
    const row = within(made("nav", "dots"));
    row.setAttribute("aria-label", "Questions of the exam");
    return within(row, ...answered.map((done, at) => {
      const dot = action(`${at + 1}`, "go", () => ({ place: at, ...draft() }), done ? "done" : "");
      dot.setAttribute("aria-label", `Question ${at + 1}, ${done ? "answered" : "open"}`);
      if (at === place) dot.setAttribute("aria-current", "true");
      return dot;
    }));
  }

  function bar(view) {
    const line = within(made("div", "bar"), made("span", "about", view.about));
    if (view.left !== null) {
      const clock = made("span", "clock");
      clock.setAttribute("role", "timer");
      within(line, clock);
    }
    return within(line, ...view.away.map(([words, what]) => action(words, what, () => (what === "finish" ? draft() : {}))));
  }

  function tick() {
    const clock = root.querySelector(".clock"), left = Math.max(0, Math.round((ends - performance.now()) / 1000));
    if (!clock) return;
    const words = `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")} left`;
    if (clock.textContent !== words && WARN.includes(left)) say(`${left / 60} ${left === 60 ? "minute" : "minutes"} left`);
    clock.textContent = words;
    if (left === 0) { stop(); send("time"); }
  }

  function stop() {
    clearInterval(ticking);
    ticking = null;
  }

  const kept = {};
  let first = true;

  function show() {
    const view = model.get("view");
    stop();
    read = () => "";
    touched = false;
    root.replaceChildren(bar(view));
    within(root, ...view.notes.map((note) => made("p", "trouble", note)));
    screens[view.screen](view);
    if (view.left !== null) {
      ends = performance.now() + 1000 * view.left;
      ticking = setInterval(tick, 250);
      tick();
    }
    say(view.say);
    if (!first) focus(view);
    first = false;
  }

  // The eye and the screen reader go to what is new: the question, what to do next, or the box again.
  function focus(view) {
    const wanted = { title: "h2", next: ".buttons button", answer: "input:not(:disabled), ol.order li" }[view.focus];
    const target = wanted && root.querySelector(wanted);
    if (!target) return;
    target.focus({ preventScroll: true });
    root.scrollIntoView({ block: "nearest" });
    target.scrollIntoView({ block: "nearest" });
  }

  model.on("change:view", show);
  show();
  return () => { stop(); model.off("change:view", show); };
}

export default { render };
