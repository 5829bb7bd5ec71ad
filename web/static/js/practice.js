// The practice mill alone, with the live number above it.

import { part } from "./dom.js";
import { LiveNumber } from "./live.js";
import { Panel } from "./panel.js";
import { Stream } from "./stream.js";

const machine = document.body.dataset.machine;
const number = new LiveNumber(document.body);
new Panel(part("practice"), machine);
new Stream(machine, {
  snapshot(fresh) { number.show(fresh, fresh.pages.console); },
  live(live) { number.update(live); },
  settling(state) { number.setSettling(state.settling); },
  beat() { number.beat(); },
  alive(alive, why) { number.setAlive(alive, why); },
});
