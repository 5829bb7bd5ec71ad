// How wide a line is, counted in its own type size, whatever font this machine has. The
// style sheets divide the room by it, so that a line too wide shrinks until it fits.

const SPARE = 1.01; // widths are rounded to whole pixels here and there
const measured = new Set();
const widest = new Map();

// Sets the custom property `name` of `box` to the width of the line in `node`. Figures are
// all equally wide, and a sign that comes and goes must not make the type jump: so a line
// is measured once for each shape, and keeps the room for a sign it once had.
export function tellWidth(box, name, node) {
  if (!node) return;
  const style = getComputedStyle(node);
  const shape = `${name} ${style.fontWeight} ${node.textContent.replace(/\d/g, "0")}`;
  const unsigned = shape.replace("-", "");
  if (!measured.has(shape)) {
    const width = widthOf(node) / Number.parseFloat(style.fontSize);
    if (width === 0) return; // not shown now
    measured.add(shape);
    widest.set(unsigned, Math.max(width * SPARE, widest.get(unsigned) ?? 0));
  }
  const known = widest.get(unsigned).toFixed(3);
  if (box.style.getPropertyValue(name) !== known) box.style.setProperty(name, known);
}

function widthOf(node) {
  const range = document.createRange();
  range.selectNodeContents(node);
  return range.getBoundingClientRect().width;
}
