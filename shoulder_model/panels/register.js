// A search box over the register: what is typed goes to the kernel, which answers with rows.
function render({ model, el }) {
  el.classList.add("register");
  const box = document.createElement("div");
  const label = document.createElement("label");
  const input = document.createElement("input");
  const status = document.createElement("p");
  const scroll = document.createElement("div");
  input.type = "search";
  input.autocomplete = "off";
  input.id = `register-${Math.random().toString(36).slice(2)}`;
  label.htmlFor = input.id;
  label.textContent = "Search the numbers";
  status.setAttribute("role", "status");
  scroll.className = "scroll";
  scroll.tabIndex = 0;
  scroll.setAttribute("role", "region");
  scroll.setAttribute("aria-label", "Numbers found");
  box.append(label, input);
  el.append(box, status, scroll);
  input.value = model.get("asked");

  let waiting;
  input.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => { model.set("asked", input.value); model.save_changes(); }, 200);
  });

  function cell(kind, text, row) {
    const made = document.createElement(kind);
    made.textContent = text;
    row.append(made);
    return made;
  }

  function show() {
    const { words, heads, rows } = model.get("found");
    if (status.textContent !== words) status.textContent = words;
    const table = document.createElement("table");
    const head = table.createTHead().insertRow();
    for (const text of heads) cell("th", text, head).scope = "col";
    const body = table.createTBody();
    for (const [name, ...others] of rows) {
      const row = body.insertRow();
      cell("th", name, row).scope = "row";
      for (const text of others) cell("td", text, row);
    }
    scroll.replaceChildren(...(rows.length ? [table] : []));
    scroll.hidden = !rows.length;
  }
  model.on("change:found", show);
  show();
  return () => { clearTimeout(waiting); model.off("change:found", show); };
}
export default { render };
