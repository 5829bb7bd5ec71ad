// A recorded audit on the wall's own page.

import { Recorded } from "./recorded.js";
import { WallScreen } from "./wall_screen.js";

new Recorded(document.body.dataset.audit, new WallScreen(document.body).handlers);
