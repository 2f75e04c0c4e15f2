// For the workbook as a site, written by hand as the container that JupyterLab loads: no build, nothing bundled.
// It says what the first start takes, leads back to the start page and from chapter to chapter, and offers a newer edition beside
// a copy that was changed.
(() => {
  const ROOT = new URL("../", location.href), FOLDER = "workbook/";
  const LOOK = `.site-lines { padding: 4px 14px; background: var(--jp-layout-color1, white); color: var(--jp-content-font-color1, #111);
      font-size: 15px; line-height: 1.4; }
    .site-lines p { margin: 4px 0; } .site-lines a { color: var(--jp-content-link-color, #003f7d); }
    .site-lines button { font: inherit; margin: 0 8px 4px 0; padding: 3px 10px; border: 1px solid #8a8a8a; border-radius: 3px; cursor: pointer;
      background: var(--jp-layout-color2, #eee); color: inherit; }
    .site-lines button:focus-visible { outline: 3px solid #d97706; outline-offset: 2px; }`;
  const LISTS = new URL("api/contents/", ROOT).href, KEPT = "workbook-lists"; // what is in which folder; the page's keeper leaves it out
  const KEEPER = "precache"; // its own store
  let shared = {};

  // Lists of files are kept as well, or nothing could be opened without a network.
  const plainFetch = window.fetch;
  window.fetch = async (request, more) => {
    const address = new URL(request.url ?? request, location.href).href;
    if (!window.caches || !address.startsWith(LISTS)) return plainFetch(request, more);
    const kept = await caches.open(KEPT);
    try {
      const reply = await plainFetch(request, more);
      if (reply.ok) await kept.put(address, reply.clone());
      return reply;
    } catch (error) {
      const last = await kept.match(address);
      if (!last) throw error;
      return last;
    }
  };

  async function library(name) {
    const versions = Object.values(shared[name] ?? {});
    if (!versions.length) throw new Error(`JupyterLab shares no ${name}`);
    return (await versions[0].get())();
  }

  function made(tag, text = "", properties = {}) {
    return Object.assign(document.createElement(tag), { textContent: text }, properties);
  }

  // The lines at the top of a chapter, in the page from the start so that a screen reader hears what is put there.
  function linesAbove(panel) {
    const lines = made("div", "", { className: "site-lines" });
    lines.setAttribute("role", "status");
    const back = made("p");
    back.append(made("a", "All chapters", { href: new URL("index.html", ROOT).href }));
    lines.append(back);
    const page = panel.content.node;
    (page.querySelector(".jp-WindowedPanel-outer") ?? page).prepend(lines);
    return lines;
  }

  // JupyterLab would open a chapter's link in the tree of files, which a site does not have. The chapter opens in another tab, so
  // that this one keeps its panels.
  function leadToChapters() {
    const files = new URL(`files/${FOLDER}`, ROOT).href, own = chapterAddress(FOLDER);
    const lead = (event) => {
      const link = event.target.closest?.(".jp-MarkdownOutput a[href]"), to = link?.href ?? "";
      if (to.startsWith(files) && /\.ipynb([?#]|$)/.test(to)) link.href = own + to.slice(files.length).replace(/\?[^#]*/, "");
      if (link?.href.startsWith(own)) event.stopImmediatePropagation();
    };
    for (const kind of ["click", "auxclick"]) document.addEventListener(kind, lead, true);
  }

  function chapterAddress(path) {
    return new URL(`notebooks/index.html?path=${encodeURIComponent(path)}`, ROOT).href;
  }

  function answers(sessionContext) {
    const kernel = sessionContext.session?.kernel;
    return kernel && ["idle", "busy"].includes(kernel.status);
  }

  // What the start of Python takes, until it is there.
  function sayStart(panel, lines) {
    const line = made("p", "Python is being started in this page. The first visit fetches about 70 MB, later ones much less. You can read on meanwhile.");
    lines.append(line);
    const watch = setInterval(() => {
      if (!panel.isDisposed && !answers(panel.sessionContext)) return;
      clearInterval(watch);
      line.remove();
      keepForLater();
    }, 200);
  }

  // What came before the page's keeper (a service worker) was there is asked for once more, so that it can be kept for a time without a network.
  async function keepForLater() {
    if (!navigator.serviceWorker) return; // not over plain http from another machine
    await navigator.serviceWorker.ready;
    const loaded = performance.getEntriesByType("resource").map((one) => one.name);
    const wanted = [location.href, ROOT.href, new URL("index.html", ROOT).href, ...loaded].map((one) => one.replace(/#.*$/, ""));
    for (const address of new Set(wanted)) {
      if (!address.startsWith(ROOT.href) || (await caches.match(address))) continue;
      try { await fetch(address); } catch { /* the next visit tries again */ }
    }
  }

  async function editions() {
    try {
      return await (await fetch(new URL("api/editions.json", ROOT), { cache: "no-cache" })).json();
    } catch {
      return {}; // without a network no other edition can be opened
    }
  }

  // The name of a copy that is not taken yet.
  async function freeName(contents, name) {
    for (let count = 1; ; count++) {
      const free = `${FOLDER}${name} (my copy${count > 1 ? ` ${count}` : ""}).ipynb`;
      try { await contents.get(free, { content: false }); } catch { return free; }
    }
  }

  // A chapter as it is on the site now. Keeper and browser may both have an older one: each is brought up to date.
  async function fetchAnew(path) {
    const address = new URL(`files/${path}`, ROOT).href;
    await fetch(address, { cache: "reload" }); // the browser's, and with it what the keeper fetches from now on
    const reply = await fetch(`${address}?anew=${Date.now()}`, { cache: "no-store" });
    if (window.caches) await (await caches.open(KEEPER)).put(address, reply.clone());
    return reply.json();
  }

  async function showNewest(panel, newest, chapter) {
    await panel.context.revert();
    if (panel.content.model.getMetadata("edition") !== newest) panel.content.model.fromJSON(chapter);
  }

  // The reader's copy is older than the chapter on the site: say so, and offer both.
  async function offerNewer(panel, lines, contents) {
    const path = panel.context.path, name = path.slice(FOLDER.length).replace(/\.ipynb$/, "");
    const newest = (await editions())[name];
    if (!path.startsWith(FOLDER) || !newest || panel.content.model.getMetadata("edition") === newest) return;
    const chapter = await fetchAnew(path);
    if ((await contents.get(path, { content: true })).content.metadata.edition === newest) { // nothing was changed here
      if (!panel.context.model.dirty) await showNewest(panel, newest, chapter);
      return;
    }
    const line = made("p", "You changed this chapter here, and there is a newer edition of it.");
    const both = made("button", "Open the new edition, keep mine beside it", { type: "button" });
    const stay = made("button", "Stay with mine", { type: "button" });
    lines.append(line, both, stay);
    stay.addEventListener("click", () => [line, both, stay].forEach((part) => part.remove()));
    both.addEventListener("click", async () => {
      both.disabled = stay.disabled = true;
      const mine = await freeName(contents, name);
      try {
        await contents.save(mine, { type: "notebook", format: "json", content: panel.content.model.toJSON() });
        await contents.delete(path); // what is left under this name is the site's own
        await showNewest(panel, newest, chapter);
      } catch (error) {
        line.textContent = `That did not work, and nothing is lost: ${error.message}`;
        both.disabled = stay.disabled = false;
        return;
      }
      both.remove();
      stay.remove();
      line.textContent = "This is the new edition. Your copy is kept: ";
      line.append(made("a", mine.slice(FOLDER.length), { href: chapterAddress(mine) }));
    });
  }

  async function extension() {
    const { INotebookTracker } = await library("@jupyterlab/notebook");
    return {
      id: "workbook-site:plugin",
      autoStart: true,
      requires: [INotebookTracker],
      activate(app, tracker) {
        document.head.append(made("style", LOOK));
        leadToChapters();
        tracker.widgetAdded.connect(async (_, panel) => {
          await panel.context.ready;
          await panel.revealed;
          const lines = linesAbove(panel);
          sayStart(panel, lines);
          await offerNewer(panel, lines, app.serviceManager.contents);
        });
      },
    };
  }

  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["workbook-site"] = {
    init: (scope) => { shared = scope; },
    get: async (name) => {
      if (name !== "./extension") throw new Error(`workbook-site has no ${name}`);
      const plugin = await extension();
      return () => ({ __esModule: true, default: plugin });
    },
  };
})();
