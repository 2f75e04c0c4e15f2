// Two commands for JupyterLab's toolbar, sleeping panels, ways between chapters. Written by hand as the container that JupyterLab
// loads: no build, nothing bundled.
(() => {
  const REMEMBERED = "workbook-shows-code", LECTURE = "lecture/lecture.ipynb";
  let shared = {}, section = heading(location.hash); // where to open the next chapter; JupyterLab soon takes it out of the address

  // What an address asks for after its "#".
  function heading(hash) {
    try { return decodeURIComponent(hash.slice(1)); } catch { return ""; }
  }

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
    .workbook-without-code .jp-CodeCell .jp-OutputPrompt { visibility: hidden; }
    .workbook-heard { position: absolute; width: 1px; height: 1px; margin: 0; overflow: hidden; clip-path: inset(50%); }`;

  // Panels without their kernel. The page keeps the last picture of each with the chapter, as an image in which nothing runs.
  const LAST = "last_picture", PIXELS = 1.25; // for a point of it
  const SLOW = 4000; // ms a live panel may take to come back
  const VIEW = ".jp-OutputArea-output.lm-Panel"; // what shows a widget
  const ASLEEP = `${VIEW}:not(:has(*)) { font-size: 0; }
    .asleep .jupyter-widgets-disconnected::before { content: none !important; }
    .asleep-line { font-weight: 600; margin: 6px 0; } .asleep-picture { display: block; background: white; max-width: 100%; height: auto; }`;

  function drawn(picture) {
    const layers = [...picture.querySelectorAll(".layers svg[viewBox]")].filter((one) => !one.parentElement.closest("svg"));
    if (!layers.length || !layers[0].getClientRects().length) return null;
    const text = layers.map((one) => new XMLSerializer().serializeToString(one)).join("");
    const box = layers[0].getAttribute("viewBox").split(" ");
    return {
      svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${box.join(" ")}" width="${PIXELS * box[2]}" height="${PIXELS * box[3]}">${text}</svg>`,
      verdict: picture.querySelector(".verdict").textContent,
      words: picture.querySelector('svg[role="img"]').getAttribute("aria-label") ?? "",
      still: picture.dataset.still ?? "",
    };
  }

  function codeCells(panel) {
    return panel.content.widgets.filter((cell) => cell.model.type === "code");
  }

  function rememberPictures(panel) {
    for (const cell of codeCells(panel)) {
      if (cell.node.querySelector(".asleep-picture")) continue;
      const last = [...cell.node.querySelectorAll(".pull-picture")].map(drawn).find(Boolean);
      if (last) cell.model.setMetadata(LAST, last);
      else if (cell.model.getMetadata(LAST)) cell.model.deleteMetadata(LAST);
    }
  }

  function asleepLine(cell, withPicture) {
    const { outputs } = cell.model, texts = Array.from({ length: outputs.length }, (_, at) => String(outputs.get(at).data["text/plain"] ?? ""));
    const is = (name) => texts.some((text) => text.startsWith(`${name}(`));
    const called = is("PracticePanel") ? "Practice" : is("Guess") && !withPicture ? "This guess" : "This panel";
    const line = Object.assign(document.createElement("p"), { className: "asleep-line" });
    line.textContent = `${called} is asleep. Press Run everything to wake it.`;
    return line;
  }

  // The figure that stands for the panel in a text below, and its caption, are not shown beside its last picture.
  function hideFigure(cell, name) {
    let below = cell.node;
    for (let i = 0; name && below && i < 4; i++) {
      below = below.nextElementSibling;
      const figure = below?.querySelector(`img[src*="${CSS.escape(name)}.svg"]`)?.closest("p"), caption = figure?.nextElementSibling;
      if (figure) figure.style.display = "none";
      if (caption?.childNodes.length === 1 && caption.firstChild.nodeName === "EM") caption.style.display = "none";
    }
  }

  // A chapter that was saved with its panels and opened without them.
  function showSleepers(panel, since) {
    for (const cell of codeCells(panel)) {
      for (const output of cell.node.querySelectorAll(VIEW)) {
        const slow = output.textContent.startsWith("Loading widget") && performance.now() - since > SLOW;
        if (output.childElementCount || !(slow || output.textContent.startsWith("Error displaying widget"))) continue;
        const last = cell.model.getMetadata(LAST), parts = [asleepLine(cell, Boolean(last))];
        if (last) {
          const image = Object.assign(document.createElement("img"), { className: "asleep-picture", alt: String(last.words) });
          image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(String(last.svg))}`;
          parts.push(Object.assign(document.createElement("p"), { textContent: String(last.verdict) }), image);
          hideFigure(cell, String(last.still));
        }
        output.replaceChildren(...parts);
      }
    }
  }

  // The kernel has gone while the panels were open: their pictures stay, and nothing on them moves.
  function putToSleep(panel) {
    for (const cell of codeCells(panel)) {
      for (const output of cell.node.querySelectorAll(VIEW)) {
        if (output.querySelector(".asleep-line") || !output.querySelector(".pull-panel, .guess, .practice")) continue;
        for (const part of output.children) part.inert = true;
        output.classList.add("asleep");
        output.prepend(asleepLine(cell, [...output.querySelectorAll(".pull-picture")].some((one) => one.getClientRects().length)));
      }
    }
  }

  function mindSleepers(panel) {
    const { context, sessionContext } = panel, opened = performance.now();
    const GONE = ["restarting", "autorestarting", "terminating", "dead"];
    const watch = setInterval(() => showSleepers(panel, opened), 500);
    panel.disposed.connect(() => clearInterval(watch));
    context.saveState.connect((_, state) => { if (state === "started") rememberPictures(panel); });
    sessionContext.statusChanged.connect((_, status) => { if (GONE.includes(status)) putToSleep(panel); });
    sessionContext.kernelChanged.connect((_, { newValue }) => { if (!newValue) putToSleep(panel); });
  }

  function look(shown) {
    document.body.classList.toggle("workbook-without-code", !shown);
  }

  function showCode(notebook, shown) {
    for (const cell of notebook.widgets) if (cell.model.type === "code") cell.inputHidden = !shown;
  }

  // Whether the kernel of a page answers: before that, JupyterLab would take cells and lose them.
  function answers({ session }) {
    const kernel = session?.kernel;
    return kernel?.connectionStatus === "connected" && !["unknown", "starting", "restarting", "autorestarting", "dead"].includes(kernel.status);
  }

  // Waits for the kernel; false where the page is closed, or has none, before it answers.
  async function kernelAnswers(panel) {
    const { sessionContext } = panel;
    await sessionContext.ready;
    while (!answers(sessionContext)) {
      if (panel.isDisposed || sessionContext.hasNoKernel || sessionContext.session?.kernel?.status === "dead") return false;
      await new Promise((go) => setTimeout(go, 100));
    }
    return true;
  }

  function scrolled(notebook) {
    return notebook.node.querySelector(".jp-WindowedPanel-outer") ?? notebook.node;
  }

  // A function that tells whether the reader has moved in ``box`` since.
  function readerMoves(box) {
    let moved = false;
    const mine = () => { moved = true; };
    for (const kind of ["wheel", "touchmove", "keydown", "pointerdown"]) box.addEventListener(kind, mine, { once: true });
    return () => moved;
  }

  // Runs every cell and leaves the reader, and the cell that is active, where they were.
  async function runEverything(panel, actions) {
    const { content: notebook, sessionContext } = panel;
    const active = notebook.activeCellIndex, box = scrolled(notebook);
    const anchor = [...box.querySelectorAll(".jp-Cell")].find((cell) => cell.getBoundingClientRect().bottom > box.getBoundingClientRect().top);
    const was = anchor?.getBoundingClientRect().top ?? 0;
    const done = actions.runCells(notebook, notebook.widgets, sessionContext);
    const stay = () => {
      if (anchor) box.scrollTop += anchor.getBoundingClientRect().top - was;
    };
    const moved = readerMoves(box), watch = setInterval(() => { if (!moved()) stay(); }, 50);
    try { await done; } finally {
      if (!moved()) notebook.activeCellIndex = active;
      setTimeout(() => clearInterval(watch), 800); // panels still grow for a moment
    }
    return done;
  }

  // An address that ends in a section's number ("#3.3") or heading ("#Glossary") opens the chapter there, and stays while pictures
  // come in above.
  function goToSection(panel) {
    const wanted = section, box = scrolled(panel.content);
    section = "";
    if (!wanted) return;
    const called = ({ textContent: text }) => text.startsWith(`${wanted} `) || text.replace(/\u00B6$/, "").replace(/ /g, "-") === wanted;
    const moved = readerMoves(box);
    let left = 20000; // ms until it is given up
    const watch = setInterval(() => {
      const found = [...box.querySelectorAll(".jp-MarkdownOutput :is(h2, h3)")].find(called);
      if (found && !moved()) found.scrollIntoView({ block: "start" });
      left = found ? Math.min(left - 100, 3000) : left - 100;
      if (moved() || left <= 0 || panel.isDisposed) clearInterval(watch);
    }, 100);
  }

  // From chapter to chapter in one tab. A link to a heading of a chapter that is not open yet would stop at the chapter's top, and the
  // browser's Back would change the address only.
  function mindLinks(app, tracker) {
    document.addEventListener("click", (event) => {
      const link = event.target.closest?.(".jp-MarkdownOutput a[href*='.ipynb']");
      if (link) section = heading(link.hash);
    }, true);
    window.addEventListener("popstate", () => {
      const [, path] = location.pathname.match(/\/tree\/(.+\.ipynb)$/) ?? [], shown = tracker.currentWidget?.context.path;
      if (path && decodeURI(path) !== shown) app.commands.execute("docmanager:open", { path: decodeURI(path) });
    });
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

  // On a phone JupyterLab's bars at both sides would take a fifth of the width. The workspace remembers which were taken away,
  // so that they come back where there is room, on another screen too.
  const PHONE = "(max-width: 480px)", BARS = "workbook-buttons:side-bars";
  async function sideBars(app, state) {
    await app.restored;
    const phone = matchMedia(PHONE), { shell } = app;
    const toggle = (sides) => Promise.all(sides.map((side) => app.commands.execute("application:toggle-side-tabbar", { side })));
    async function fit() {
      const taken = (await state.fetch(BARS)) ?? [];
      if (phone.matches) {
        const shown = ["left", "right"].filter((side) => !shell.isEmpty(side) && shell.isSideTabBarVisible(side));
        await state.save(BARS, [...new Set([...taken, ...shown])]);
        await toggle(shown);
      } else if (taken.length) {
        await state.remove(BARS);
        await toggle(taken.filter((side) => !shell.isSideTabBarVisible(side)));
      }
    }
    phone.addEventListener("change", fit);
    await fit();
  }

  async function extension() {
    const { INotebookTracker, NotebookActions } = await library("@jupyterlab/notebook");
    const { IStateDB } = await library("@jupyterlab/statedb");
    return {
      id: "workbook-buttons:plugin",
      autoStart: true,
      requires: [INotebookTracker, IStateDB],
      activate(app, tracker, state) {
        let shown = remembered();
        const doing = new Map(); // pages whose button was pressed -> what it says until everything has run
        const heard = Object.assign(document.createElement("p"), { className: "workbook-heard", role: "status" });
        document.body.append(heard);
        function say(panel, words, aloud = words) {
          if (words) doing.set(panel, words);
          else doing.delete(panel);
          heard.textContent = aloud;
          app.commands.notifyCommandChanged("workbook:run-everything");
        }
        async function run(panel) {
          if (doing.has(panel)) return;
          let end = "The chapter did not run.";
          try {
            say(panel, "Starting …");
            await kernelAnswers(panel);
            if (panel.isDisposed) return;
            say(panel, "Running …"); // where there is no kernel, JupyterLab asks for one
            end = (await runEverything(panel, NotebookActions)) ? "Everything has run." : "It stopped: a cell failed, or Python ended.";
          } finally { say(panel, "", end); }
        }
        document.head.append(Object.assign(document.createElement("style"), { textContent: `${LOOK} ${ASLEEP}` }));
        look(shown);
        sideBars(app, state);
        mindLinks(app, tracker);
        app.commands.addCommand("workbook:run-everything", {
          label: () => doing.get(tracker.currentWidget) ?? "Run everything",
          caption: "Run every cell of this chapter; you stay where you are. A chapter that was just opened first starts Python",
          isEnabled: () => !doing.has(tracker.currentWidget),
          execute: () => tracker.currentWidget && run(tracker.currentWidget),
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
          mindSleepers(panel);
          goToSection(panel);
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
