// Measures of what can be read on a page. Each returns its findings in words, or a size.

const LINE = /[gjpqy,;()]/; // what reaches below the line

// Every piece of text shown, with the box of its ink: from the height of capitals to the
// line, or below it. While a box asks something, only that is there to be read.
function texts() {
  const found = [];
  const shown = document.querySelector("dialog[open]") ?? document.body;
  const walker = document.createTreeWalker(shown, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode;
    const owner = node.parentElement;
    const say = node.textContent.trim();
    if (!say || owner.closest("script, style")) continue;
    if (!owner.checkVisibility({ visibilityProperty: true }) || unseen(owner)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const scale = owner.getScreenCTM?.()?.d ?? 1;
    const size = parseFloat(getComputedStyle(owner).fontSize) * scale;
    for (const { left, right, top, bottom } of range.getClientRects()) {
      const below = LINE.test(say) ? 0.02 : 0.2;
      const ink = { left, right, top: top + 0.17 * size, bottom: bottom - below * size };
      if (ink.right > ink.left && ink.bottom > ink.top) found.push({ say, owner, ink, size });
    }
  }
  return found;
}

// What is there for those who hear the page, and shown to nobody.
function unseen(node) {
  for (let box = node; box; box = box.parentElement) {
    if (getComputedStyle(box).clipPath === "inset(50%)") return true;
  }
  return false;
}

function clipped() {
  const wrong = [];
  for (const { say, owner, ink } of texts()) {
    if (ink.left < -1 || ink.right > innerWidth + 1) wrong.push(`beyond the edge: ${say}`);
    const shape = owner instanceof SVGElement ? shapeUnder(owner) : null;
    const around = shape?.getBoundingClientRect();
    if (around && (ink.left < around.left || ink.right > around.right)) wrong.push(`out of its box: ${say}`);
    for (let box = owner; box && box !== document.body; box = box.parentElement) {
      const style = getComputedStyle(box);
      if (style.overflowX === "visible" && style.overflowY === "visible") continue;
      const edge = box.getBoundingClientRect();
      const scrolls = /auto|scroll/.test(style.overflowY);
      const side = ink.left < edge.left - 1 || ink.right > edge.right + 1;
      if (side) wrong.push(`cut off at the side: ${say}`);
      const ends = ink.top < edge.top - 1 || ink.bottom > edge.bottom + 1;
      if (ends && !scrolls) wrong.push(`cut off: ${say}`);
    }
  }
  return wrong;
}

// The bar that stays in place while the rest scrolls beneath it, by design.
function bar(node) {
  if (!node) return null;
  return getComputedStyle(node).position === "sticky" ? node : bar(node.parentElement);
}

function overlapping() {
  const wrong = [];
  const all = texts().map((text) => ({ ...text, bar: bar(text.owner) }));
  all.forEach((a, i) => all.slice(i + 1).forEach((b) => {
    if (a.owner === b.owner || a.bar !== b.bar) return;
    const wide = Math.min(a.ink.right, b.ink.right) - Math.max(a.ink.left, b.ink.left);
    const high = Math.min(a.ink.bottom, b.ink.bottom) - Math.max(a.ink.top, b.ink.top);
    if (wide > 1 && high > 1) wrong.push(`one over the other: ${a.say} / ${b.say}`);
  }));
  return wrong;
}

function outOfView() {
  return texts()
    .filter(({ ink }) => ink.top < 0 || ink.bottom > innerHeight)
    .map(({ say }) => say);
}

function numbers(css) {
  return css.match(/[\d.]+/g).map(Number);
}

// Relative luminance and contrast ratio as WCAG 2.2 defines them (from memory).
function luminance(rgb) {
  const [r, g, b] = rgb
    .map((value) => value / 255)
    .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

// In a drawing: the last shape that was drawn before the text and lies under its middle.
function shapeUnder(node) {
  const at = node.getBoundingClientRect();
  const [x, y] = [at.left + at.width / 2, at.top + at.height / 2];
  return [...node.ownerSVGElement.querySelectorAll("rect, path, circle")]
    .filter((shape) => node.compareDocumentPosition(shape) & Node.DOCUMENT_POSITION_PRECEDING)
    .filter((shape) => getComputedStyle(shape).fill !== "none")
    .map((shape) => ({ shape, box: shape.getBoundingClientRect() }))
    .filter(({ box }) => box.left <= x && x <= box.right && box.top <= y && y <= box.bottom)
    .at(-1)?.shape;
}

function ground(node) {
  const drawn = node instanceof SVGElement;
  const shape = drawn ? shapeUnder(node) : null;
  if (shape) return numbers(getComputedStyle(shape).fill);
  for (let box = drawn ? node.ownerSVGElement : node; box; box = box.parentElement) {
    const [r, g, b, opaque = 1] = numbers(getComputedStyle(box).backgroundColor);
    if (opaque === 1) return [r, g, b];
    if (opaque > 0) throw new Error("cannot judge a half-transparent ground");
  }
  return [255, 255, 255];
}

function faint(least) {
  const wrong = [];
  for (const { say, owner } of texts()) {
    const style = getComputedStyle(owner);
    const ink = numbers(owner instanceof SVGElement ? style.fill : style.color).slice(0, 3);
    const [light, dark] = [ink, ground(owner)].map(luminance).sort((one, two) => two - one);
    const ratio = (light + 0.05) / (dark + 0.05);
    if (ratio < least) wrong.push(`contrast only ${ratio.toFixed(2)}: ${say}`);
  }
  return wrong;
}

function lowControls(least) {
  return [...document.querySelectorAll("button, input, a")]
    .filter((node) => node.checkVisibility() && node.getClientRects().length)
    .map((node) => ({ node, high: (node.closest("label") ?? node).getBoundingClientRect().height }))
    .filter(({ high }) => high < least)
    .map(({ node, high }) => `only ${high} px high: ${node.textContent.trim() || node.name}`);
}

function smallestType() {
  return Math.min(...texts().map(({ size }) => size));
}

function beyondRight() {
  return document.scrollingElement.scrollWidth - innerWidth;
}

function digitHeight() {
  const style = getComputedStyle(document.querySelector("[data-part=digits]"));
  const paper = document.createElement("canvas").getContext("2d");
  paper.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  return paper.measureText("0").actualBoundingBoxAscent;
}

// Every text that stands on a wall, with the height of its capitals: the font's own metrics times the
// size it is computed to have. What is set narrower stays as high.

function far() {
  const paper = document.createElement("canvas").getContext("2d");
  const known = new Map();
  const part = (style) => {
    const font = `${style.fontWeight} 100px ${style.fontFamily}`;
    if (!known.has(font)) {
      paper.font = font;
      known.set(font, paper.measureText("H").actualBoundingBoxAscent / 100);
    }
    return known.get(font);
  };
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const owner = walker.currentNode.parentElement;
    const say = walker.currentNode.textContent.trim();
    if (!say || owner.closest("script, style") || unseen(owner)) continue;
    if (!owner.checkVisibility({ visibilityProperty: true })) continue;
    const style = getComputedStyle(owner);
    found.push({
      say, cap: part(style) * parseFloat(style.fontSize) / innerHeight,
      kind: owner.closest("[data-part=title], [data-part=digits], .unit, .togo, .stop-at, .shift-line, .verdict-word, .alert .head, [data-kind=refused], [data-kind=settling], [data-kind=taken], .station-count")
        && !owner.closest(".unit") ? "act" : "know",
    });
  }
  return found;
}
