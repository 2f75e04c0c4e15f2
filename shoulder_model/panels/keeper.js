// What the browser keeps of a record: it sends the kernel what is there, and does each step of the kernel's as one transaction.
// Every step gives the store a new version, so a page sees that another one was there.

const NAME = "shoulder-model-practice", STORES = ["answers", "aside", "state"];
const PART = 500, SLOW = 1000, PATIENCE = 10000; // entries of a message; milliseconds until a line says so, and until nothing is kept
const LATE = "Your last answer is not kept yet. Leave this page open.";
const NO_ROOM = "the browser has no room left", OTHER = "the browser could not write it";
const failed = (error) => `Not kept: ${error?.name === "QuotaExceededError" ? NO_ROOM : OTHER}. The next answer tries again. `
  + "Save your record before you close this page: What is weak, then Save my record (CSV).";

function asked(request) {
  return new Promise((good, bad) => {
    request.onsuccess = () => good(request.result);
    request.onerror = () => bad(request.error);
  });
}

function opened() {
  return new Promise((good, bad) => {
    setTimeout(() => bad(new Error("no answer")), PATIENCE);
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      const answers = request.result.createObjectStore("answers", { keyPath: "place", autoIncrement: true });
      answers.createIndex("uid", "uid", { unique: true });
      request.result.createObjectStore("aside", { autoIncrement: true });
      request.result.createObjectStore("state");
    };
    asked(request).then(good, bad);
  });
}

// What `work` gives inside a transaction, once that is complete; nothing of it is kept where a part of it fails.
async function within(work, mode = "readwrite") {
  const base = await opened();
  try {
    const step = base.transaction(STORES, mode, { durability: "strict" });
    const over = new Promise((good, bad) => {
      step.oncomplete = () => good();
      step.onabort = () => bad(step.error ?? new Error("stopped"));
    });
    const [answers, aside, state] = STORES.map((name) => step.objectStore(name));
    const doing = work({ answers, aside, state }).catch((error) => {
      try { step.abort(); } catch { /* it has stopped by itself */ }
      throw error;
    });
    const [done] = await Promise.all([doing, over]);
    return done;
  } finally {
    base.close();
  }
}

const version = async (state) => (await asked(state.get("version"))) ?? 0;

function add({ answers }, { rows }) {
  for (const [uid, text] of rows) {
    const request = answers.add({ uid, text });
    request.onerror = (event) => {
      if (request.error.name !== "ConstraintError") return;
      event.preventDefault(); // it is there already
      event.stopPropagation();
    };
  }
}

const steps = {
  add,
  order(stores, message) {
    stores.answers.clear();
    add(stores, message);
  },
  erase({ answers, aside }) {
    answers.clear();
    aside.clear();
  },
  async aside({ answers, aside }, { places }) {
    for (const place of places) {
      const entry = await asked(answers.get(place));
      if (entry) aside.add(entry);
      answers.delete(place);
    }
  },
};

function initialize({ model }) {
  const page = `${Math.random()}`, channel = new BroadcastChannel(NAME);
  let seen = -1, last = Promise.resolve(), lasting = false; // `seen`: the version that the kernel knows

  // One thing after the other, so that the kernel hears of them in the order in which the store did them.
  const inTurn = (work) => { last = last.then(work, work); return last; };

  // Send all that is kept. `again`: the step that the kernel has to send once more, "all" for one that another page never did.
  async function sendAll(again) {
    const [now, entries, aside] = await within(async ({ answers, aside: away, state }) =>
      [await version(state), await asked(answers.getAll()), await asked(away.count())], "readonly");
    const found = entries.map(({ place, text }) => [place, `${text}`]);
    do {
      const part = found.splice(0, PART);
      model.send({ kind: "rows", page, entries: part, more: found.length > 0, version: now, aside, again });
    } while (found.length);
    seen = now;
  }

  async function look() {
    const now = await within(({ state }) => version(state), "readonly");
    if (now !== seen) await sendAll(0);
  }

  async function keep(message) {
    const late = setTimeout(() => model.set("line", LATE), SLOW);
    try {
      const [before, after] = await within(async (stores) => {
        const now = await version(stores.state);
        if (message.kind === "order" && message.base !== now) return [now, now];
        await steps[message.kind](stores, message);
        stores.state.put(now + 1, "version");
        return [now, now + 1];
      });
      model.set("line", "");
      if (after === before) return await sendAll(message.step);
      if (before === seen) seen = after;
      else await sendAll(0); // another page was there
      model.send({ kind: "kept", step: message.step, version: seen });
      channel.postMessage("");
      if (!lasting) navigator.storage?.persist?.().catch(() => {}); // asked for once there is something to keep
      lasting = true;
    } catch (error) {
      model.set("line", failed(error));
      model.send({ kind: "failed", step: message.step });
    } finally {
      clearTimeout(late);
    }
  }

  const hear = (message) => inTurn(() => keep(message));
  const wake = () => { if (!document.hidden && seen >= 0) inTurn(() => look().catch(() => {})); };
  model.on("msg:custom", hear);
  channel.onmessage = wake;
  document.addEventListener("visibilitychange", wake);
  inTurn(() => sendAll("all").catch(() => model.send({ kind: "refused" })));
  return () => {
    model.off("msg:custom", hear);
    document.removeEventListener("visibilitychange", wake);
    channel.close();
  };
}

function render({ model, el }) {
  const line = document.createElement("p");
  line.className = "practice-kept";
  line.setAttribute("role", "status");
  const show = () => { line.textContent = model.get("line"); };
  el.append(line);
  model.on("change:line", show);
  show();
  return () => model.off("change:line", show);
}

export default { initialize, render };
