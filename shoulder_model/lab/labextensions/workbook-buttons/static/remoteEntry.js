// Two commands for JupyterLab's toolbar, written by hand as the container that JupyterLab loads: no build, nothing bundled.
(() => {
  const REMEMBERED = "workbook-shows-code", LECTURE = "lecture/lecture.ipynb";
  let shared = {};

  async function library(name) {
    const versions = Object.values(shared[name] ?? {});
    if (!versions.length) throw new Error(`JupyterLab shares no ${name}`);
    return (await versions[0].get())();
  }

  function remembered() {
    try { return localStorage.getItem(REMEMBERED) === "yes"; } catch { return false; }
  }

  function remember(shown) {
    try { localStorage.setItem(REMEMBERED, shown ? "yes" : "no"); } catch { /* for this page only, then */ }
  }

  // Without the code nothing is left of a folded cell but its output.
  const LOOK = `.workbook-without-code .jp-CodeCell .jp-Cell-inputWrapper:has(.jp-InputPlaceholder) { display: none; }
    .workbook-without-code .jp-CodeCell .jp-OutputPrompt { visibility: hidden; }`;

  function look(shown) {
    document.body.classList.toggle("workbook-without-code", !shown);
  }

  function showCode(notebook, shown) {
    for (const cell of notebook.widgets) if (cell.model.type === "code") cell.inputHidden = !shown;
  }

  // Runs every cell and leaves the reader, and the cell that is active, where they were.
  async function runEverything(panel, actions) {
    const { content: notebook, sessionContext } = panel;
    const active = notebook.activeCellIndex, box = notebook.node.querySelector(".jp-WindowedPanel-outer") ?? notebook.node;
    const anchor = [...box.querySelectorAll(".jp-Cell")].find((cell) => cell.getBoundingClientRect().bottom > box.getBoundingClientRect().top);
    const was = anchor?.getBoundingClientRect().top ?? 0;
    const done = actions.runCells(notebook, notebook.widgets, sessionContext);
    const stay = () => {
      if (anchor) box.scrollTop += anchor.getBoundingClientRect().top - was;
    };
    let moved = false;
    const mine = () => { moved = true; };
    for (const kind of ["wheel", "touchmove", "keydown", "pointerdown"]) box.addEventListener(kind, mine, { once: true });
    const watch = setInterval(() => { if (!moved) stay(); }, 50);
    try { await done; } finally {
      if (!moved) notebook.activeCellIndex = active;
      setTimeout(() => clearInterval(watch), 800); // panels still grow for a moment
    }
    return done;
  }

  // What a class sees until the lecture's first screen is up, or until its cell has failed.
  async function curtain(done) {
    const made = document.createElement("div");
    made.textContent = "The lecture is being opened. This takes some seconds.";
    made.style.cssText = "position: fixed; inset: 0; z-index: 100000; background: white; color: #111; font: 28px sans-serif; padding: 2em;";
    document.body.append(made);
    const look = setInterval(() => { if (document.querySelector(".lecture.open")) end(); }, 100);
    function end() {
      clearInterval(look);
      made.remove();
    }
    if (!(await done)) end();
    else setTimeout(end, 20000); // whatever is there by then is shown
  }

  // The lecture's page runs by itself, and again when its kernel has been started again.
  async function lecture(panel, actions) {
    const { content: notebook, sessionContext } = panel;
    const run = () => {
      const done = sessionContext.ready.then(() => actions.runCells(notebook, notebook.widgets, sessionContext));
      curtain(done);
    };
    let restarting = false;
    sessionContext.statusChanged.connect((_, status) => {
      if (status.includes("restarting")) restarting = true;
      else if (restarting && status === "idle") {
        restarting = false;
        // JupyterLab says that it restarts the kernel, behind the lecture, and would keep the keys.
        document.querySelectorAll(".jp-Dialog .jp-mod-accept").forEach((button) => button.click());
        run();
      }
    });
    run();
  }

  async function extension() {
    const { INotebookTracker, NotebookActions } = await library("@jupyterlab/notebook");
    return {
      id: "workbook-buttons:plugin",
      autoStart: true,
      requires: [INotebookTracker],
      activate(app, tracker) {
        let shown = remembered();
        document.head.append(Object.assign(document.createElement("style"), { textContent: LOOK }));
        look(shown);
        app.commands.addCommand("workbook:run-everything", {
          label: "Run everything",
          caption: "Run every cell of this chapter; you stay where you are",
          execute: () => tracker.currentWidget && runEverything(tracker.currentWidget, NotebookActions),
        });
        app.commands.addCommand("workbook:show-code", {
          label: () => (shown ? "Hide the code" : "Show the code"),
          caption: "Show or hide the Python behind the numbers; remembered for the next chapter",
          isToggled: () => shown,
          execute: () => {
            shown = !shown;
            remember(shown);
            look(shown);
            tracker.forEach((panel) => showCode(panel.content, shown));
            app.commands.notifyCommandChanged("workbook:show-code");
          },
        });
        tracker.widgetAdded.connect(async (_, panel) => {
          await panel.context.ready;
          await panel.revealed;
          if (panel.context.path.endsWith(LECTURE)) return lecture(panel, NotebookActions);
          if (shown) showCode(panel.content, shown);
        });
      },
    };
  }

  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["workbook-buttons"] = {
    init: (scope) => { shared = scope; },
    get: async (name) => {
      if (name !== "./extension") throw new Error(`workbook-buttons has no ${name}`);
      const plugin = await extension();
      return () => ({ __esModule: true, default: plugin });
    },
  };
})();
