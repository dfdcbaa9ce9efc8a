/* Temperatures on the numeric pad; something is given back for each. */

import { html, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { toCelsius } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Cup } from "../../parts/cup.js";
import { Pad } from "../../parts/pad.js";
import { Next } from "./next.js";
import { kilojoules, waterSentence, WaterPlan } from "./water.js";
import { degrees, newestReading, readingName, temperature, usualReading }
    from "./words.js";

/* What the water and the mixer were before a reading, to tell what moved. */
export function before(card, kind) {
    return { kind, answer: card.water.answer };
}

function compared(celsius, wanted_c, units) {
    const gap = celsius - wanted_c;
    if (Math.abs(gap) < 0.25)
        return t("Right where it should be.");
    const by = degrees(gap, units);
    return gap > 0 ? t("{by} warmer than wanted.", { by })
        : t("{by} colder than wanted.", { by });
}

function doughGave(card, celsius, units) {
    const { work_j_per_kg_dough, dough_goal_c } = card.batch;
    const first = compared(celsius, dough_goal_c, units);
    return work_j_per_kg_dough === null ? first
        : t("{compared} The mixer gave {work}; the next batch's water " +
            "follows from it.", { compared: first,
            work: kilojoules(work_j_per_kg_dough) });
}

/* The sentence that a reading is answered with, once the card is read anew. */
export function gaveBack({ kind, answer }, card, units) {
    const celsius = newestReading(card, kind)?.celsius;
    const now = card.water.answer;
    if (kind === "dough_c" && celsius !== undefined)
        return doughGave(card, celsius, units);
    if (kind === "water_c" && celsius !== undefined && now)
        return compared(celsius, now.liquid_c, units);
    if (!now)
        return null;
    const is = waterSentence(now, units);
    const was = answer && waterSentence(answer, units);
    return was === null || was === is
        ? t("The water stays at {water}.", { water: is })
        : t("The water is now {water}; it was {before}.",
            { water: is, before: was });
}

/* assumed: what is taken without a reading, or null. */
export function Reading({ card, kind, units, assumed, onRead }) {
    const [open, setOpen] = useState(false);
    const { reply: shop } = useAnswer("shop.get", {});
    const own = newestReading(card, kind);
    const celsius = own?.celsius ?? assumed?.celsius ?? null;
    function done(value) {
        setOpen(false);
        onRead(kind, toCelsius(value, units));
    }
    return html`
        <button type="button" class="reading" aria-haspopup="dialog"
            onClick=${() => setOpen(true)}>
            <span>${readingName(kind)}</span>
            <b>${celsius === null ? "\u2013"
        : temperature(celsius, units)}</b>
            <small>${own ? t("read for this batch")
        : assumed?.read ? t("today's reading")
            : celsius === null ? t("not read yet") : t("assumed")}</small>
        </button>
        ${open && html`
            <${Pad} title=${readingName(kind)} negative=${false}
                unit=${units === "us" ? "°F" : "°C"}
                ...${usualReading(shop, kind, units)}
                onDone=${done} onClose=${() => setOpen(false)} />`}`;
}

/* The first look at a batch: what is warm and cold today. */
export function ReadScreen({ card, units, onRead, onTap }) {
    const { inputs, flour_read, room_read, tap_read } = card.water;
    const assumed = (celsius, read) => inputs ? { celsius, read } : null;
    const begun = card.batch.started_ms > 0;
    return html`
        <p>${t("How warm are they now? The water follows.")}</p>
        <div class="readings">
            <${Reading} card=${card} kind="flour_c" units=${units}
                assumed=${assumed(inputs?.flour_c, flour_read)}
                onRead=${onRead} />
            <${Reading} card=${card} kind="room_c" units=${units}
                assumed=${assumed(inputs?.room_c, room_read)}
                onRead=${onRead} />
            <${Reading} card=${card} kind="tap_c" units=${units}
                assumed=${assumed(inputs?.tap_c, tap_read)}
                onRead=${onRead} />
        </div>
        <${WaterPlan} card=${card} units=${units} />
        ${!begun && html`
            <${Next}><button type="button" class="do big" onClick=${() =>
        onTap("batch.begin", { batch_id: card.batch.id })}>
                ${t("Begin batch {number}", { number: card.batch.number })}
            </button><//>`}`;
}

/* Off the mixer: the reading that teaches. */
export function ProbeScreen({ card, stop, units, onRead, onTap, onMark }) {
    const read = newestReading(card, "dough_c");
    return html`
        <p>${t("Deep in the middle, until the number stands still. " +
            "Wanted: {goal}.",
        { goal: temperature(card.batch.dough_goal_c, units) })}</p>
        <div class="readings">
            <${Reading} card=${card} kind="dough_c" units=${units}
                assumed=${null} onRead=${onRead} />
            <${Cup} batch=${card.batch} units=${units} onTap=${onTap} />
        </div>
        <${Next}><button type="button" class="do big" disabled=${!read}
            onClick=${() => onMark(stop, "done")}>${t("Go on")}</button><//>`;
}
