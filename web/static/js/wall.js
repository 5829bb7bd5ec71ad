// The wall screen: everything in one view, and nothing to press but a pedal that types.

import { Foot } from "./foot.js";
import { Stream } from "./stream.js";
import { WallScreen } from "./wall_screen.js";

const root = document.body;
root.style.setProperty("--far", root.dataset.far);
const screen = new WallScreen(root);

new Stream(root.dataset.machine, screen.handlers);
if (root.dataset.pedal === "on") {
  new Foot(root.dataset.machine, {
    snapshot: () => screen.snapshot,
    alive: () => screen.number.connected,
    tell: (outcome, say) => screen.tell(outcome, say),
  });
}
