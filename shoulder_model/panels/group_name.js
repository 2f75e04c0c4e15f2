// Says to a screen reader what a box of controls is: the box's name, and names for controls that show none.
const SAYS = /[\p{L}\d]/u;

function render({ model, el }) {
  el.classList.add("group-name");
  el.classList.toggle("heading", model.get("shown"));
  if (model.get("shown")) el.textContent = model.get("words");
  let box = null;

  function nameParts() {
    for (const button of box.querySelectorAll("button[title]"))
      if (!SAYS.test(button.textContent) && button.ariaLabel !== button.title) button.ariaLabel = button.title;
    for (const input of box.querySelectorAll('input:not([aria-label], [type="radio"], [type="checkbox"])')) {
      const label = [...(input.labels ?? [])].map((one) => one.textContent).join(" ");
      if (model.get("for_input")) input.ariaLabel = model.get("for_input");
      else if (!SAYS.test(label)) input.ariaLabel = input.title || input.placeholder;
    }
    for (const label of box.querySelectorAll(".widget-checkbox label")) {
      const tip = model.get("tips")[label.textContent.trim()];
      if (tip) for (const part of [label, ...label.children]) part.title = tip;
    }
    for (const radios of box.querySelectorAll(".widget-radio-box:not([role])")) {
      radios.setAttribute("role", "radiogroup");
      radios.ariaLabel = model.get("for_input") || model.get("words");
    }
  }

  const parts = new MutationObserver(nameParts);
  function name(tries = 50) {
    box = el.parentElement?.closest(".widget-box");
    if (!box) {
      if (tries) setTimeout(() => name(tries - 1), 100);
      return;
    }
    box.setAttribute("role", "group");
    box.setAttribute("aria-label", model.get("words").replace(/:$/, ""));
    nameParts();
    for (const row of [box, ...box.querySelectorAll(".widget-box")]) parts.observe(row, { childList: true });
  }
  setTimeout(name);
  return () => parts.disconnect();
}
export default { render };
