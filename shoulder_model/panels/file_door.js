// A place to drop a file or to type its path, and the way saved files take to the reader's downloads.
function render({ model, el }) {
  const label = document.createElement("label");
  label.className = "file-door";
  const input = document.createElement("input");
  input.type = "file";
  [label.textContent, input.accept] = model.get("words");
  label.append(input);
  el.append(label);

  async function open(file) {
    if (!file) return;
    const fits = file.size <= model.get("largest"); // a larger message would cost the page its kernel
    model.send({ kind: "opened", name: file.name }, undefined, fits ? [await file.arrayBuffer()] : []);
  }
  input.addEventListener("change", () => open(input.files[0]).then(() => { input.value = ""; }));
  label.addEventListener("dragover", (event) => event.preventDefault());
  label.addEventListener("drop", (event) => { event.preventDefault(); open(event.dataTransfer.files[0]); });

  if (model.get("path")) {
    const path = document.createElement("input");
    path.className = "file-path";
    path.type = "text";
    path.spellcheck = false;
    path.placeholder = "or its path, then Enter";
    path.setAttribute("aria-label", "Path of a file to open, then Enter");
    path.addEventListener("keydown", (event) => {
      event.stopPropagation(); // letters are for the box, not for the notebook
      if (event.key === "Enter") model.send({ kind: "path", typed: path.value });
    });
    el.append(path);
  }

  function save(message, buffers) {
    if (message.kind !== "save") return;
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([buffers[0]], { type: message.mime }));
    link.download = message.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  }
  model.on("msg:custom", save);
  return () => model.off("msg:custom", save);
}
export default { render };
