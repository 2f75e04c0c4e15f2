// A place to drop a set-up file, and the way saved files take to the reader's downloads.
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
    const data = new DataView(await file.arrayBuffer());
    model.set("opened", { name: file.name, text: await file.text(), data, count: (model.get("opened").count ?? 0) + 1 });
    model.save_changes();
  }
  input.addEventListener("change", () => open(input.files[0]).then(() => { input.value = ""; }));
  label.addEventListener("dragover", (event) => event.preventDefault());
  label.addEventListener("drop", (event) => { event.preventDefault(); open(event.dataTransfer.files[0]); });

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
