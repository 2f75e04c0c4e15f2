// Opens the folded answers in the cells below a guess, up to the next guess or the next heading.
function render({ model, el }) {
  el.classList.add("answer-unfolder");
  function open(message) {
    if (message.kind !== "open") return;
    let cell = el.closest(".jp-Cell")?.nextElementSibling;
    for (; cell; cell = cell.nextElementSibling) {
      if (cell.querySelector(".answer-unfolder, .jp-MarkdownOutput > :is(h1, h2, h3)")) break;
      for (const answer of cell.querySelectorAll("details")) {
        if (answer.querySelector("summary")?.textContent.startsWith("Answer")) answer.open = true;
      }
    }
  }
  model.on("msg:custom", open);
  return () => model.off("msg:custom", open);
}
export default { render };
