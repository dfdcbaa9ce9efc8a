/* Today's four thermometers. Each feeds the water of every batch that is not
 * mixed yet. */

import { html, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { writeClock } from "../../lib/dates.js";
import { useAnswer } from "../../lib/answer.js";
import { toCelsius } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Pad } from "../../parts/pad.js";
import { readingName, temperature, usualReading } from "../mix/words.js";

/* The cold room is the day's own; a batch does not ask for it. */
const KINDS = ["flour_c", "room_c", "tap_c", "cold_c"];

function Field({ kind, reading, units, onOpen }) {
    return html`
        <button type="button" class="reading" aria-haspopup="dialog"
            onClick=${onOpen}>
            <span>${readingName(kind)}</span>
            <b>${reading ? temperature(reading.celsius, units) : "\u2013"}</b>
            <small>${reading
        ? t("at {time}", { time: writeClock(reading.occurred_ms) })
        : t("not read yet")}</small>
        </button>`;
}

export function Readings({ readings, units }) {
    const [open, setOpen] = useState(null);
    const [said, setSaid] = useState({ text: "", doubt: false });
    const { reply: shop } = useAnswer("shop.get", {});
    const of = (kind) => readings.find((one) => one.kind === kind);

    async function done(kind, value) {
        setOpen(null);
        try {
            const reply = await write("reading.save", { batch_id: 0, kind,
                celsius: toCelsius(value, units) });
            setSaid(reply.queued
                ? { text: t("Kept on this tablet."), doubt: false }
                : { doubt: Boolean(reply.message), text: reply.message ??
                    (kind === "cold_c"
                        ? t("Taken.")
                        : t("Taken. The water of every batch not yet mixed " +
                            "follows.")) });
        } catch (refusal) {
            setSaid({ text: refusal.message, doubt: true });
        }
    }

    return html`
        <section class="stack" aria-labelledby="readings-head">
            <h2 id="readings-head" class="section-head">
                ${t("How warm is it?")}</h2>
            <div class="four-readings">${KINDS.map((kind) => html`
                <${Field} key=${kind} kind=${kind} reading=${of(kind)}
                    units=${units} onOpen=${() => setOpen(kind)} />`)}
            </div>
            <p role="status" class=${said.doubt ? "slip" : "quiet"}>
                ${said.text}</p>
            ${open && html`
                <${Pad} title=${readingName(open)}
                    unit=${units === "us" ? "°F" : "°C"}
                    ...${usualReading(shop, open, units)}
                    negative=${open === "cold_c"}
                    onDone=${(value) => done(open, value)}
                    onClose=${() => setOpen(null)} />`}
        </section>`;
}
