// Small helpers for building and changing the page.

export function part(name, root = document) {
  return root.querySelector(`[data-part="${name}"]`);
}

export function el(tag, attributes = {}, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

export function svg(tag, attributes = {}, ...children) {
  return fill(document.createElementNS("http://www.w3.org/2000/svg", tag), attributes, children);
}

function fill(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) node.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) node.setAttribute(name, value);
  }
  node.append(...children.filter((child) => child !== null));
  return node;
}

// What draws a page is shared: a part that one page does not have is left out there.
export function show(node, shown) {
  if (node) node.hidden = !shown;
}

// Buttons come shut: pressed before there is a script to hear it, a form would be sent by the
// browser itself, a PIN in its address.
export function openButtons() {
  for (const each of document.querySelectorAll("button:disabled")) each.disabled = false;
}

// Writes only on a change, so that a screen reader is not made to repeat itself.
export function setText(node, text) {
  if (node && node.textContent !== text) node.textContent = text;
}

export function setData(node, name, value) {
  if (node && node.dataset[name] !== value) node.dataset[name] = value;
}

// Rebuilds a node's children only when what they are made of has changed.
export function rebuild(node, source, make) {
  if (!node) return false;
  const key = JSON.stringify(source);
  if (node.dataset.made === key) return false;
  node.dataset.made = key;
  node.replaceChildren(...make(source));
  return true;
}
