// What is said to a guess, in one line for its whole life; and the folded answers in the cells below it, up to the next guess or
// the next heading, which it opens.
function render({ model, el }) {
  el.classList.add("guess-verdict");
  el.style.cssText = "font-size: var(--jp-content-font-size1, 14px); line-height: 1.4; color: var(--jp-content-font-color1, #111); margin: 2px;";
  el.setAttribute("role", "status");
  const say = () => { el.textContent = model.get("value"); };
  say();
  model.on("change:value", say);
  function open(message) {
    if (message.kind !== "open") return;
    let cell = el.closest(".jp-Cell")?.nextElementSibling;
    for (; cell; cell = cell.nextElementSibling) {
      if (cell.querySelector(".guess-verdict, .jp-MarkdownOutput > :is(h1, h2, h3)")) break;
      for (const answer of cell.querySelectorAll("details")) {
        if (answer.querySelector("summary")?.textContent.startsWith("Answer")) answer.open = true;
      }
    }
  }
  model.on("msg:custom", open);
  return () => {
    model.off("msg:custom", open);
    model.off("change:value", say);
  };
}
export default { render };
