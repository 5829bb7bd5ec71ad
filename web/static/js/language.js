// The language of this screen. Its browser keeps it, and every page comes in it from then on.

import { openButtons } from "./dom.js";

const KEPT_S = 400 * 24 * 3600;

for (const each of document.querySelectorAll("[data-language]")) {
  each.addEventListener("click", () => {
    const only = location.protocol === "https:" ? "; secure" : "";
    document.cookie = `headsweep-language=${each.dataset.language}; path=/; max-age=${KEPT_S}; samesite=strict${only}`;
    location.reload();
  });
}
openButtons();
