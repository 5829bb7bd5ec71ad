// Console and practice mill side by side.

import { Desk } from "./desk.js";
import { part } from "./dom.js";
import { Panel } from "./panel.js";

const machine = document.body.dataset.machine;
new Desk(part("console"), machine);
new Panel(part("practice"), machine);
