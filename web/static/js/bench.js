// Console and practice mill side by side.

import { Desk } from "./desk.js";
import { part } from "./dom.js";
import { Panel } from "./panel.js";
import { Stream } from "./stream.js";

const machine = document.body.dataset.machine;
new Desk(part("console"), machine, (handlers) => new Stream(machine, handlers));
new Panel(part("practice"), machine);
