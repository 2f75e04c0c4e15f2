// Spreads blocks over screens of a fixed height. A plain script: a page takes it in as it is, with one name.
//
// intoScreens(blocks, newScreen)
//   blocks     list of elements in reading order; they are moved, not copied
//   newScreen  adds an empty screen and returns its body: in the document, of fixed height, its overflow hidden
//
// A heading, or a line that is bold or ends in a colon, stays with what follows it. What is taller than a screen is split: a list
// by its items, a table by its rows with the head again, printed lines by lines, text by words. A picture is shrunk to a whole
// screen if it has to be, never to the rest of one; its caption stays with it as far as there is room, and may go on.
function intoScreens(blocks, newScreen) {
  const HEAD = /^H[1-6]$/, PICTURE = /^(svg|img|figure)$/i;
  const LEAST = 0.3; // share of a screen worth filling with the first part of what is split
  let body = null;

  const isEmpty = () => !body.childElementCount;
  const bottomOf = (element) => {
    const box = element.getBoundingClientRect();
    return box.bottom + (parseFloat(getComputedStyle(element).marginBottom) || 0);
  };
  const floor = () => {
    const box = body.getBoundingClientRect(), style = getComputedStyle(body);
    return box.top + body.clientTop + body.clientHeight - (parseFloat(style.paddingBottom) || 0);
  };
  const fits = () => body.scrollHeight <= body.clientHeight && bottomWithoutMargin(body.lastElementChild) <= floor() + 0.5;
  const bottomWithoutMargin = (element) => (element ? element.getBoundingClientRect().bottom : -Infinity);
  const isCaption = (element) => element?.nodeName === "P" && element.childNodes.length === 1 && element.firstChild.nodeName === "EM";
  const isBoldLine = (element) =>
    element.childNodes.length === 1 && /^(STRONG|B)$/.test(element.firstChild.nodeName) && !/[.!?]\s*$/.test(element.textContent);
  const leadsOn = (element) =>
    element &&
    (HEAD.test(element.nodeName) || (element.nodeName === "P" && (/:\s*$/.test(element.textContent) || isBoldLine(element))));

  function turn() {
    // a new screen; what leads on to the next block goes with it, unless that is all there is
    const led = [];
    for (let last = body?.lastElementChild; leadsOn(last); last = last.previousElementSibling) led.unshift(last);
    if (body && led.length === body.childElementCount) led.length = 0;
    body = newScreen();
    body.append(...led);
  }

  const onlyLed = () => [...body.children].every(leadsOn);

  function partsOf(block) {
    if (/^(UL|OL|DL|BLOCKQUOTE|DIV|SECTION|ARTICLE)$/.test(block.nodeName)) return block.childElementCount ? [...block.children] : null;
    if (block.nodeName === "TABLE") return [...block.querySelectorAll(":scope > tbody > tr, :scope > tr")];
    return null;
  }

  function shellOf(block, from) {
    const shell = block.cloneNode(false);
    if (from) shell.removeAttribute("id");
    if (block.nodeName === "OL") shell.start = (block.start || 1) + from;
    if (block.nodeName !== "TABLE") return [shell, shell];
    const head = block.querySelector(":scope > thead");
    if (head) shell.append(head.cloneNode(true));
    const rows = document.createElement("tbody");
    shell.append(rows);
    return [shell, rows];
  }

  function roomLeft() {
    return (floor() - (isEmpty() ? body.getBoundingClientRect().top : bottomOf(body.lastElementChild))) / body.clientHeight;
  }

  function splitParts(block, parts) {
    let [shell, place] = shellOf(block, 0);
    body.append(shell);
    parts.forEach((part, number) => {
      place.append(part);
      if (fits()) return;
      part.remove();
      const dangling = [];
      for (let last = place.lastElementChild; last && last.nodeName === "DT"; last = place.lastElementChild) {
        dangling.unshift(last);
        last.remove();
      }
      if (place.childElementCount) {
        body = newScreen();
      } else {
        shell.remove();
        if (!onlyLed()) turn();
      }
      [shell, place] = shellOf(block, number);
      body.append(shell);
      place.append(...dangling, part);
      if (!fits()) [shell, place] = splitDeep(shell, place, part);
    });
  }

  function splitDeep(shell, place, part) {
    // one item, or row, that is taller than a screen: its words go on, in the same kind of shell
    for (let rest = cut(part); rest; rest = cut(part)) {
      const next = shell.cloneNode(false), inner = place === shell ? next : place.cloneNode(false);
      if (inner !== next) next.append(inner);
      body = newScreen();
      body.append(next);
      inner.append(rest);
      [shell, place, part] = [next, inner, rest];
      if (fits()) break;
    }
    return [shell, place];
  }

  function cut(element) {
    // leaves in `element` the words that stand above the floor, and returns the rest in an element of its kind, or null
    const walk = document.createTreeWalker(element, NodeFilter.SHOW_TEXT), texts = [];
    while (walk.nextNode()) texts.push(walk.currentNode);
    const lengths = texts.map((text) => text.data.length), total = lengths.reduce((sum, one) => sum + one, 0);
    const range = document.createRange(), low = floor();
    const at = (offset) => {
      let left = offset;
      for (let i = 0; i < texts.length; i++) {
        if (left < lengths[i] || i === texts.length - 1) return [texts[i], Math.min(left, lengths[i])];
        left -= lengths[i];
      }
      return [element, 0];
    };
    const below = (offset) => {
      const [text, place] = at(offset);
      range.setStart(text, place);
      range.setEnd(text, Math.min(place + 1, text.data.length));
      const box = range.getBoundingClientRect();
      return box.height > 0 && box.bottom > low - 0.5;
    };
    let first = 0, last = total;
    while (first < last) {
      const middle = (first + last) >> 1;
      if (below(middle)) last = middle;
      else first = middle + 1;
    }
    const whole = texts.map((text) => text.data).join(""), lines = element.nodeName === "PRE";
    const end = whole.slice(0, first);
    const sentence = Math.max(end.lastIndexOf(". "), end.lastIndexOf("! "), end.lastIndexOf("? "));
    const space = lines ? end.lastIndexOf("\n") : sentence > 0.6 * first ? sentence + 1 : end.lastIndexOf(" ");
    if (first >= total || space <= 0) return null;
    const [text, place] = at(space + 1);
    range.setStart(text, place);
    range.setEndAfter(element.lastChild);
    const rest = element.cloneNode(false);
    rest.removeAttribute("id");
    rest.append(range.extractContents());
    if (lines) element.textContent = element.textContent.replace(/\n+$/, "");
    return rest.textContent.trim() ? rest : null;
  }

  function splitText(block) {
    for (let rest = cut(block); rest; rest = cut(block)) {
      body = newScreen();
      body.append(rest);
      block = rest;
      if (fits()) return;
    }
  }

  function split(block) {
    const parts = partsOf(block);
    block.remove();
    if (roomLeft() < LEAST && !onlyLed()) turn();
    if (parts) {
      splitParts(block, parts);
    } else {
      body.append(block);
      if (!fits()) splitText(block);
    }
  }

  function shrink(picture) {
    const inner = picture.nodeName === "FIGURE" ? picture.querySelector("svg, img") ?? picture : picture;
    const over = Math.max(picture.getBoundingClientRect().bottom - floor(), body.scrollHeight - body.clientHeight);
    const height = inner.getBoundingClientRect().height - Math.max(over, 0);
    inner.style.maxHeight = `${Math.max(height, 40)}px`;
  }

  function placePicture(picture, captions) {
    body.append(picture, ...captions);
    if (fits()) return;
    const alone = onlyLedBefore(picture);
    if (!alone) {
      picture.remove();
      captions.forEach((caption) => caption.remove());
      turn();
      body.append(picture, ...captions);
      if (fits()) return;
    }
    captions.forEach((caption) => caption.remove());
    if (!fits()) shrink(picture);
    captions.forEach((caption) => place(caption));
  }

  const onlyLedBefore = (element) => {
    for (let one = element.previousElementSibling; one; one = one.previousElementSibling) if (!leadsOn(one)) return false;
    return true;
  };

  function place(block) {
    body.append(block);
    if (fits()) return;
    const height = block.getBoundingClientRect().height, used = block.getBoundingClientRect().top - body.getBoundingClientRect().top;
    const splits = partsOf(block)?.length > 2 && used < LEAST * body.clientHeight;
    if (height <= body.clientHeight && !splits && !onlyLedBefore(block)) {
      block.remove();
      turn();
      body.append(block);
      if (fits()) return;
    }
    split(block);
  }

  const list = [...blocks];
  body = newScreen();
  for (let i = 0; i < list.length; i++) {
    const block = list[i];
    if (!PICTURE.test(block.nodeName)) {
      place(block);
      continue;
    }
    const captions = [];
    while (isCaption(list[i + 1])) captions.push(list[++i]);
    placePicture(block, captions);
  }
}
