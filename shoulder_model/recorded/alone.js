// A page with one recorded panel: a guess first where there is one, and the panel's state in the page's address.
const SETTLE = 250; // ms without a move before the address follows

function numberTyped(text) {
  const plain = text.trim().replace("\u2212", "-").replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

// The panel is shown once there is a verdict.
function guessFirst(form, reveal) {
  const { answer, within, said } = JSON.parse(document.querySelector(".guess-words").textContent);
  const verdict = document.querySelector(".guess-verdict"), typed = form.querySelector(".typed");
  function judge(event) {
    event.preventDefault();
    if (typed) {
      const number = numberTyped(typed.value), text = typed.value.trim().slice(0, 20);
      if (number === null) verdict.textContent = text ? said.no_number.replace("{}", text) : said.nothing;
      else tell(Math.abs(number - answer) <= within ? said.right : said.wrong);
      return;
    }
    const chosen = form.querySelector("input:checked");
    if (!chosen) verdict.textContent = said.nothing;
    else tell(chosen.value === answer ? said.right : said.wrong);
  }
  function tell(text) {
    verdict.textContent = text;
    reveal();
  }
  form.addEventListener("submit", judge);
  form.querySelector(".show").addEventListener("click", () => tell(said.shown));
}

function pairsOf(hash) {
  try {
    return hash.replace(/^#/, "").split("&").map((pair) => pair.split("=").map(decodeURIComponent)).filter((pair) => pair.length === 2);
  } catch {
    return []; // not one of ours
  }
}

function written(pairs) {
  return `#${pairs.map((pair) => pair.map(encodeURIComponent).join("=")).join("&")}`;
}

function opened(panel, hash) {
  const pairs = pairsOf(hash), places = pairs.length && hash.split("&").length === pairs.length ? panel.placesOf(pairs) : null;
  if (places) panel.go(places);
}

function copying(panel) {
  const status = document.querySelector(".copied"), link = document.querySelector(".link");
  document.querySelector(".copy").addEventListener("click", async () => {
    const address = location.href.replace(/#.*$/, "") + written(panel.address());
    try {
      await navigator.clipboard.writeText(address);
      link.hidden = true;
      status.textContent = "The link is copied.";
    } catch {
      link.hidden = false;
      link.value = address;
      link.focus();
      link.select();
      status.textContent = "The link is selected. Copy it with Ctrl+C, on a Mac \u2318C.";
    }
  });
}

async function start(box) {
  let panel = null, later = null;
  function follow(pairs) {
    clearTimeout(later);
    later = setTimeout(() => {
      try { history.replaceState(history.state, "", written(pairs)); } catch { /* a browser that is asked too often */ }
    }, SETTLE);
  }
  panel = await play(box, { picture, slider });
  opened(panel, location.hash);
  panel.moved = follow;
  addEventListener("hashchange", () => opened(panel, location.hash));
  copying(panel);
}

const box = document.querySelector(".recorded"), form = document.querySelector("form.guess"), shown = document.querySelector(".then");
if (form) {
  shown.hidden = true;
  form.hidden = false;
  guessFirst(form, () => { shown.hidden = false; });
}
start(box).catch(() => { box.querySelector(".asleep").textContent = ASLEEP; });
