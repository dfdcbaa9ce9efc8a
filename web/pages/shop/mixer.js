/* A mixer: its kind and bowl, and how much dough it takes. What its plate or
 * manual says, typed with a note, replaces the makers' charts; a mixer that
 * neither knows is warned about, never blocked. */

import { html, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { bareUnit, readQuantity, writeNumber, writePercentNumber,
    writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Amount } from "../../parts/amount.js";
import { wordOf } from "../formulas/words.js";
import { amount, orUnknown, pick, text, tick } from "./fields.js";
import { Controls, useForm } from "./form.js";

const mixerKinds = () => [["planetary", t("planetary")],
    ["spiral", t("spiral")], ["horizontal", t("horizontal")],
    ["fork", t("fork")]];
const duties = () => [["light", t("light")], ["heavy", t("heavy")]];
const mass = (kg, units) => writeQuantity(kg, "mass", units);

const fields = () => [text("name", () => t("What people call it"),
    { most: 60 }),
pick("kind", () => t("Kind"), mixerKinds),
pick("duty", () => t("Class"), duties),
orUnknown(amount("bowl_litres", () => t("Size of the bowl"), "volume",
    { bare: { us: "qt" } })),
amount("bowl_kg", () => t("The empty bowl weighs"), "mass"),
amount("min_dough_kg", () => t("Least dough it mixes well, if known"),
    "mass", { optional: true }),
tick("second_speed", () => t("Has a second speed")),
tick("here", () => t("Still in use")),
text("plate_note", () => t("Where its limits were read"),
    { most: 200, optional: true, wide: true,
        hint: () => t("For example: plate on the column, or manual page 12.") })];

/* --- own limits ------------------------------------------------------------ */

function Limit({ limit, units, onLimit, onRemove }) {
    return html`
        <li class="blanks">
            <${Amount} name=${t("At absorption, %")} units=${units}
                shown=${limit.absorption_percent === null ? ""
        : writePercentNumber(limit.absorption_percent)}
                read=${(typed) => readQuantity(typed, "percent", "%")}
                onValue=${(absorption_percent) =>
        onLimit({ ...limit, absorption_percent })} />
            <${Amount} name=${t("most dough")} units=${units}
                shown=${limit.dough_kg === null ? ""
        : mass(limit.dough_kg, units)}
                read=${(typed) => readQuantity(typed, "mass",
        bareUnit("mass", units))}
                onValue=${(dough_kg) => onLimit({ ...limit, dough_kg })} />
            <button type="button" class="word" onClick=${onRemove}>
                ${t("Take it out")}</button>
        </li>`;
}

let keys = 0;
const newLimit = (rating) => ({ key: ++keys, absorption_percent: null,
    dough_kg: null, ...rating });

export function limitsOf(all, mixer_id) {
    return all.mixer_limits.filter((one) => one.mixer_id === mixer_id);
}

function Limits({ limits, units, onLimits }) {
    const change = (key, one) => onLimits(limits.map((was) =>
        was.key === key ? one : was));
    return html`
        <fieldset class="stack">
            <legend class="strong">${t("From its plate or manual")}</legend>
            <p class="quiet">${t("The most dough of one batch, stiffest " +
        "dough first. Leave it empty to go by the makers' charts.")}</p>
            <ul>${limits.map((one) => html`
                <${Limit} key=${one.key} limit=${one} units=${units}
                    onLimit=${(now) => change(one.key, now)}
                    onRemove=${() => onLimits(limits.filter((was) =>
        was.key !== one.key))} />`)}
            </ul>
            <button type="button" class="word"
                onClick=${() => onLimits([...limits, newLimit()])}>
                ${t("Add a limit")}</button>
        </fieldset>`;
}

/* What the charts say of a mixer without own limits. */
const USUAL_ABSORPTION = 60;

function limitRequest(row, ratings) {
    return { dough: { absorption_percent: USUAL_ABSORPTION }, mixer: {
        kind: row.kind, duty: row.duty,
        ...(row.bowl_litres ? { bowl_litres: row.bowl_litres } : {}),
        ratings, note: ratings.length ? row.plate_note || "\u2013" : null } };
}

function complete(limits) {
    return limits.filter((one) => one.absorption_percent && one.dough_kg)
        .map(({ absorption_percent, dough_kg }) =>
            ({ absorption_percent, dough_kg }));
}

function Takes({ row, ratings, units }) {
    const { reply } = useAnswer("mixer.limit", limitRequest(row, ratings));
    if (!reply)
        return null;
    if (reply.origin === "unknown")
        return html`<p class="slip" data-level="ask">${t("How much dough it " +
            "takes is not known. Type what its plate or manual says; until " +
            "then each batch warns, and none is blocked.")}</p>`;
    const values = { absorption: USUAL_ABSORPTION,
        most: mass(reply.max_dough_kg, units) };
    return html`<p class="note">${reply.origin === "plate"
        ? t("At {absorption} % absorption it takes {most} of dough, by its " +
            "plate.", values)
        : t("At {absorption} % absorption it takes {most} of dough, by the " +
            "makers' charts.", values)}</p>`;
}

function MixerEditor({ row, all, units, fields: list, op, onSaved }) {
    const [limits, setLimits] = useState(() =>
        limitsOf(all, row.id ?? 0).map(({ rating }) => newLimit(rating)));
    const form = useForm({ fields: list, row, units, op, onSaved,
        toRequest: (mixer) => ({ mixer, limits: complete(limits)
            .map((rating) => ({ rating })) }) });
    const half = limits.length > complete(limits).length;
    function submit(event) {
        event.preventDefault();
        form.save();
    }
    return html`
        <form class="stack" onSubmit=${submit} novalidate>
            <${Controls} fields=${list.filter((one) =>
        one.key !== "plate_note")} form=${form} />
            <${Limits} limits=${limits} units=${units}
                onLimits=${setLimits} />
            ${limits.length > 0 && html`
                <${Controls} form=${form} fields=${list.filter((one) =>
        one.key === "plate_note")} />`}
            <${Takes} row=${form.values} ratings=${complete(limits)}
                units=${units} />
            <p class="note">${t("Guard closed; hands and tools out; power " +
        "off before you scrape the bowl.")}</p>
            ${half && html`<p class="trouble">${t("A limit needs both an " +
        "absorption and a weight.")}</p>`}
            ${form.refusal && html`
                <p class="trouble" role="alert">${form.refusal}</p>`}
            <button type="submit" class="do" disabled=${half}>
                ${t("Save")}</button>
        </form>`;
}

function says(row, all, units) {
    const own = limitsOf(all, row.id);
    const bowl = row.bowl_litres
        ? writeQuantity(row.bowl_litres, "volume", units) : t("size unknown");
    const values = { kind: wordOf(mixerKinds(), row.kind), bowl,
        duty: wordOf(duties(), row.duty),
        hours: writeNumber(row.minutes_run / 60, 0) };
    return own.length
        ? t("{kind}, {duty}, bowl {bowl}, limits of its own. Ran {hours} h.",
            values)
        : t("{kind}, {duty}, bowl {bowl}. Ran {hours} h.", values);
}

export const mixers = {
    id: "mixers", op: "mixer.save", Editor: MixerEditor, fields, says,
    title: () => t("Mixers"),
    about: () => t("No batch is planned over what the mixer takes; the " +
        "stiffer the dough, the less that is."),
    add: () => t("Add a mixer"),
    blank: () => ({ name: "", kind: "planetary", duty: "heavy",
        bowl_litres: 0, bowl_kg: 15, second_speed: true, min_dough_kg: null,
        plate_note: null, minutes_run: 0, here: true }),
};
