/* Emergency dough: needed today, so how much yeast and how warm. */

import { html, useState } from "../lib/view.js";
import { writeNumber, writeQuantity } from "../lib/quantity.js";
import { t } from "../lib/say.js";
import { Why } from "../parts/why.js";
import { useBanded } from "./banded.js";
import { Field } from "./field.js";
import { whyRows } from "./taught.js";
import { intoLife } from "./used.js";
import { betweenHours, rulesOf, sourceOfRules, summaryOf } from "./words.js";

const yeastOf = (formula) =>
    formula.lines.find((line) => line.kind.startsWith("yeast_"));

const percent = (value) => t("{n} %", { n: writeNumber(value, 2) });

function inputsOf(request, used, reply, banded, units) {
    const degrees = (c) => writeQuantity(c, "temperature", units);
    return [
        [t("Usable after"), writeQuantity(request.usable_in_h, "time", units)],
        [t("Kitchen"), degrees(request.room_c)],
        [t("Each ball weighs"), writeQuantity(request.piece_g / 1000, "mass",
            units)],
        [t("Dough temperature"), degrees(reply.dough_c)],
        ...whyRows((used?.values ?? []).filter(({ yeast }) => yeast), units),
        ...(banded ? [[t("Ready, nine lives in ten"),
            betweenHours(banded.life.band.window.ready_h)],
        [t("Past, nine lives in ten"),
            betweenHours(banded.life.band.window.end_h)]] : []),
    ];
}

function Answer({ request, used, reply, banded, units, onUse }) {
    const [why, setWhy] = useState(false);
    const yeast = yeastOf(request.formula);
    const { window } = reply.life;
    const said = t("{yeast} {percent}, dough at {celsius}", {
        yeast: yeast.material, percent: percent(reply.percent),
        celsius: writeQuantity(reply.dough_c, "temperature", units) });
    return html`
        <p class="comes-to"><button type="button" class="plain ask"
            aria-haspopup="dialog" onClick=${() => setWhy(true)}>
            ${said}</button></p>
        <p>${reply.warmer
        ? t("Instead of {percent} in the formula; more yeast alone would not " +
            "do, so the dough is warmer too.",
        { percent: percent(yeast.percent) })
        : t("Instead of {percent} in the formula.",
            { percent: percent(yeast.percent) })}</p>
        <p aria-live="polite">${summaryOf({ window,
        band: banded?.life.band })}</p>
        ${onUse && html`<button type="button" onClick=${() => onUse(reply)}>
            ${t("Write it into the formula")}</button>`}
        ${why && html`
            <${Why} title=${t("Emergency dough")} value=${said}
                inputs=${inputsOf(request, used, reply, banded, units)}
                equation=${t("Yeast at the usual warmth first; when that " +
        "needs more than {most}, that much and a warmer dough, until it is " +
        "ready at the hour. {rule}", { most: percent(2),
        rule: rulesOf(window.end_reason, reply.life.limits).ready_h })}
                rule=${t("1 to 1.5 % instant yeast, dough at {celsius}, " +
        "usable after 60 to 90 minutes and up to 6 hours", { celsius:
        writeQuantity(35, "temperature", units) })}
                source=${sourceOfRules()} onClose=${() => setWhy(false)} />`}`;
}

/* formula: as the operations take it; used: reply of learn.used, or null;
 * onUse(reply) or null. */
export function HurryAnswer({ formula, piece_g, room_c, used, units,
    onUse }) {
    const [usable_in_h, setHours] = useState(2);
    const [room, setRoom] = useState(room_c);
    const request = { formula, piece_g, usable_in_h, room_c: room,
        ...intoLife(used) };
    const { reply, refusal, banded } = useBanded("formula.hurry",
        (members) => ({ ...request, members }));
    return html`
        <div class="blanks">
            <${Field} name=${t("Usable after")} value=${usable_in_h}
                dimension="time" bare="h" low=${0.25} high=${12} units=${units}
                onValue=${setHours} />
            <${Field} name=${t("Kitchen")} value=${room}
                dimension="temperature" low=${10} high=${45} units=${units}
                onValue=${setRoom} />
        </div>
        ${refusal && html`<p class="trouble" role="alert">
            ${refusal.message}</p>`}
        ${reply && !refusal && html`
            <${Answer} request=${request} used=${used} reply=${reply} banded=${banded}
                units=${units} onUse=${onUse} />`}`;
}
