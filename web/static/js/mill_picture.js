// The practice mill as somebody stands before it, and beside it as seen from the right: the head
// leans as it truly does, many times over. What it is drawn by comes from the service.

import { rebuild, setData, svg } from "./dom.js";

const RING = { x: 128, y: 158, wide: 62, deep: 17 };
const LIFT = 9; // so high hangs a contact that is in the air

export function drawMill(node, { picture, bolts }) {
  rebuild(node, true, parts);
  const head = (name) => node.querySelector(`[data-head=${name}]`).style;
  head("side").transform = `rotate(${picture.side_deg}deg)`;
  head("nod").transform = `rotate(${-picture.nod_deg}deg)`;
  const turned = (picture.azimuth_deg * Math.PI) / 180;
  const gauge = node.querySelector("[data-gauge]");
  const at = [RING.x + RING.wide * Math.cos(turned), RING.y - RING.deep * Math.sin(turned) - (picture.down ? 0 : LIFT)];
  gauge.style.transform = `translate(${at[0]}px, ${at[1]}px)`;
  node.querySelector("[data-arm]").setAttribute("d", `M${RING.x} 118 H${at[0]} V${at[1] - 24}`);
  for (const each of node.querySelectorAll("[data-bolt]")) setData(each, "how", bolts[each.dataset.bolt]);
}

function parts() {
  return [
    svg("path", { class: "bed", d: "M20 150 H236 L250 186 H6 Z" }),
    svg("path", { class: "body", d: "M92 0 H164 V44 H92 Z" }),
    svg("ellipse", { class: "ring", cx: RING.x, cy: RING.y, rx: RING.wide, ry: RING.deep }),
    svg("g", { "data-head": "side" },
      svg("path", { class: "head", d: "M86 14 H170 V88 L152 100 H104 L86 88 Z" }),
      svg("path", { class: "nose", d: "M116 100 H140 V118 H116 Z" }),
      bolt("side", 100, 30), bolt("side", 156, 30), bolt("side", 100, 74), bolt("side", 156, 74)),
    svg("path", { "data-arm": true, class: "arm-rod", d: "" }),
    svg("g", { "data-gauge": true },
      svg("path", { class: "stem", d: "M0 0 V-14" }), svg("rect", { class: "gauge", x: -9, y: -36, width: 18, height: 22, rx: 4 })),
    svg("path", { class: "bed", d: "M268 160 H352 V172 H268 Z" }),
    svg("path", { class: "body", d: "M326 24 H360 V160 H326 Z" }),
    svg("g", { "data-head": "nod" },
      svg("path", { class: "head", d: "M286 34 H332 V96 L322 106 H298 L286 96 Z" }),
      svg("path", { class: "nose", d: "M302 106 H318 V124 H302 Z" }), bolt("nod", 322, 48), bolt("nod", 322, 84)),
  ];
}

function bolt(axis, cx, cy) {
  return svg("circle", { "data-bolt": axis, cx, cy, r: 5 });
}
