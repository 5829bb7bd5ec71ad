// The console page.

import { Desk } from "./desk.js";
import { part } from "./dom.js";

new Desk(part("console"), document.body.dataset.machine);
