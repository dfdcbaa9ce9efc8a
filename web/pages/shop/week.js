/* Opening hours: seven lines, first in and last out. */

import { html, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { weekdays } from "../../lib/dates.js";
import { t } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { toast } from "../../parts/toast.js";
import { readClockTime, writeClockTime } from "./fields.js";
import { Head } from "./section.js";

const DAY_MINUTES = 1440;
const shown = (value) => value === undefined ? "" : writeClockTime(value);

function textsOf(openings) {
    return weekdays().map((_, weekday) => {
        const row = openings.find((one) => one.weekday === weekday);
        return { opens: shown(row?.opens_minute),
            leaves: shown(row?.leaves_minute) };
    });
}

/* Out before in is out after midnight. Throws with a sentence. */
function rowOf({ opens, leaves }, weekday) {
    if (opens.trim() === "" && leaves.trim() === "")
        return null;
    const opens_minute = readClockTime(opens);
    const leaves_minute = readClockTime(leaves);
    return { weekday, opens_minute, leaves_minute:
        leaves_minute > opens_minute ? leaves_minute
            : leaves_minute + DAY_MINUTES };
}

function Weekday({ name, text, error, onText }) {
    return html`
        <li class="hours">
            <span>${name}</span>
            <${Blank} heard number name=${t("{day}, first in", { day: name })}
                text=${text.opens} placeholder=${t("closed")}
                onType=${(opens) => onText({ ...text, opens })} />
            <${Blank} heard number name=${t("{day}, last out", { day: name })}
                text=${text.leaves} error=${error}
                onType=${(leaves) => onText({ ...text, leaves })} />
        </li>`;
}

export function Week({ openings }) {
    const [typed, setTyped] = useState(null);
    const [errors, setErrors] = useState([]);
    const texts = typed ?? textsOf(openings);

    async function save() {
        const wrong = [];
        const rows = texts.map((text, weekday) => {
            try {
                return rowOf(text, weekday);
            } catch (error) {
                wrong[weekday] = error.message;
                return null;
            }
        }).filter(Boolean);
        setErrors(wrong);
        if (wrong.length)
            return;
        try {
            const reply = await write("opening.replace", { rows });
            if (!reply.queued)
                setTyped(null);
            toast(reply.queued ? t("Kept on this tablet.") : t("Saved."));
        } catch (refusal) {
            toast(refusal.message);
        }
    }

    return html`
        <section id="hours" class="stack" aria-labelledby="hours-head">
            <${Head} id="hours" title=${t("Hours")} about=${t("When the " +
        "first comes and the last leaves. Before mixing you are told when a " +
        "stack would have to close after everybody has gone.")} />
            <ul class="week-hours">
                <li class="hours quiet" aria-hidden="true"><span></span>
                    <span>${t("first in")}</span>
                    <span>${t("last out")}</span></li>
                ${weekdays("long").map((name, weekday) => html`
                <${Weekday} key=${weekday} name=${name}
                    text=${texts[weekday]} error=${errors[weekday]}
                    onText=${(text) => setTyped(texts.map((was, i) =>
        i === weekday ? text : was))} />`)}
            </ul>
            ${typed && html`
                <button type="button" class="do" onClick=${save}>
                    ${t("Save the hours")}</button>`}
        </section>`;
}
