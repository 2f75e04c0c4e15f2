// Spreads each group of the deck over slides when the page opens, and moves between slides by keys.
(function () {
  const deck = document.getElementById("deck"), slides = [];

  function newSlide(title, name, kind) {
    const slide = document.createElement("section"), body = document.createElement("div"), foot = document.createElement("p");
    slide.className = `slide ${kind}`;
    const head = title.cloneNode(true);
    if (slides.some((other) => other.dataset.from === name)) head.removeAttribute("id");
    slide.dataset.from = name;
    body.className = "body";
    foot.className = "foot";
    slide.append(head, body, foot);
    deck.append(slide);
    if (head.scrollWidth > head.clientWidth) head.classList.add("long");
    slides.push(slide);
    return body;
  }

  function spread(group, number) {
    const parts = [];
    for (const block of [...group.children]) {
      if (/^H[1-3]$/.test(block.nodeName)) parts.push([block]);
      else parts.at(-1).push(block);
    }
    group.remove();
    parts.forEach(([title, ...blocks], part) => {
      if (blocks.length) intoScreens(blocks, () => newSlide(title, `${number}.${part}`, group.dataset.kind ?? ""));
    });
  }

  function run() {
    [...deck.querySelectorAll(":scope > .group")].forEach(spread);
    slides.forEach((slide, place) => {
      const foot = slide.querySelector(".foot");
      foot.innerHTML = `<span></span><span>${place + 1} / ${slides.length}</span>`;
      foot.firstChild.textContent = deck.dataset.title;
    });
    deck.classList.add("ready");
    fit();
    document.documentElement.dataset.slides = slides.length;
  }

  function fit() {
    deck.style.setProperty("--zoom", Math.min(innerWidth / 1280, innerHeight / 728).toFixed(4));
  }

  function here() {
    const middle = innerHeight / 2;
    const far = (slide) => { const box = slide.getBoundingClientRect(); return Math.abs((box.top + box.bottom) / 2 - middle); };
    return slides.reduce((best, slide, place) => (far(slide) < far(slides[best]) ? place : best), 0);
  }

  const STEPS = { ArrowRight: 1, ArrowDown: 1, PageDown: 1, " ": 1, ArrowLeft: -1, ArrowUp: -1, PageUp: -1, Home: -Infinity, End: Infinity };
  addEventListener("keydown", (event) => {
    const step = STEPS[event.key];
    if (!step || event.ctrlKey || event.metaKey || event.altKey || event.target.closest("input, textarea, a[href]:focus:not(:focus-visible)")) return;
    event.preventDefault();
    const next = Math.max(0, Math.min(slides.length - 1, here() + step));
    slides[next].scrollIntoView({ block: "center" });
  });
  addEventListener("resize", fit);

  // Letters are measured, so the fonts have to be there. They lie in the page, but the browser takes only what it lays out: a line
  // in each of them, laid out now, and then all of them are ready at once.
  const lines = [["400", "normal", ""], ["700", "normal", ""], ["400", "italic", ""], ["400", "normal", " Mono"]].map(
    ([weight, slant, kind]) => `<span style="font: ${slant} ${weight} 24px 'DejaVu Sans${kind}'">a</span>`,
  );
  const probe = document.createElement("p");
  probe.innerHTML = lines.join("");
  document.body.append(probe);
  probe.getBoundingClientRect();
  const once = () => {
    if (!probe.isConnected) return;
    probe.remove();
    run();
  };
  document.fonts.ready.then(once);
  addEventListener("beforeprint", once); // who prints sooner gets slides all the same
})();
