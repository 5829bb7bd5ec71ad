// The console page.

import { Desk } from "./desk.js";
import { part } from "./dom.js";
import { Stream } from "./stream.js";

const { machine } = document.body.dataset;
new Desk(part("console"), machine, (handlers) => new Stream(machine, handlers));
