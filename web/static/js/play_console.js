// A recorded audit on the console's own page, with nothing on it to press.

import { Desk } from "./desk.js";
import { part } from "./dom.js";
import { Recorded } from "./recorded.js";

new Desk(part("console"), "", (handlers) => new Recorded(document.body.dataset.audit, handlers));
