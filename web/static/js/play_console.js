// A recorded audit on the console's own page, with nothing on it to press.

import { ConsoleScreen } from "./console_screen.js";
import { part } from "./dom.js";
import { Recorded } from "./recorded.js";

new Recorded(document.body.dataset.audit, new ConsoleScreen(part("console")).handlers);
