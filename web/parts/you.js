/* Who is at this tablet, and how they read: language, units, light. Whoever
 * taps their name brings their own language and units. */

import { html, usePerson } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { setPerson } from "../lib/person.js";
import { t } from "../lib/say.js";
import { Choice } from "./choice.js";

const NOBODY = { id: 0, name: "" };

function Who({ who }) {
    const { reply: shop } = useAnswer("shop.get", {});
    const people = (shop?.persons ?? [])
        .filter((one) => one.here);
    if (people.length === 0)
        return null;
    function choose(id) {
        const one = people.find((person) => person.id === id) ?? NOBODY;
        setPerson(one.id ? { person_id: one.id, name: one.name,
            lang: one.lang, units: one.units }
            : { person_id: 0, name: "" });
    }
    return html`
        <${Choice} shown legend=${t("Who is here?")} value=${who.person_id}
            options=${[...people.map((one) => [one.id, one.name]),
        [0, t("Nobody says")]]}
            onChoose=${choose} />`;
}

export function You() {
    const who = usePerson();
    return html`
        <div class="stack">
            <${Who} who=${who} />
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
