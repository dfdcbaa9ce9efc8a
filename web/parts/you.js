/* How the person at this tablet reads: language, units, light. */

import { html, usePerson } from "../lib/view.js";
import { setPerson } from "../lib/person.js";
import { t } from "../lib/say.js";
import { Choice } from "./choice.js";

export function You() {
    const who = usePerson();
    return html`
        <div class="stack">
            <${Choice} shown legend=${t("Units")} value=${who.units}
                options=${[["us", t("lb, oz, °F, in")],
        ["metric", t("kg, g, °C, cm")]]}
                onChoose=${(units) => setPerson({ units })} />
            <${Choice} shown legend=${t("Language")} value=${who.lang}
                options=${[["en", "English"], ["es", "Español"]]}
                onChoose=${(lang) => setPerson({ lang })} />
            <${Choice} shown legend=${t("Light")} value=${who.theme}
                options=${[["auto", t("Like the tablet")],
        ["day", t("Day")], ["night", t("Night")]]}
                onChoose=${(theme) => setPerson({ theme })} />
            <p class="quiet">${t("Either way of writing is understood " +
        "everywhere: 10 lb, 1 lb 4 oz, 4.5 kg, 80 F, 26 C.")}</p>
        </div>`;
}
