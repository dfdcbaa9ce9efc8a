/* "The cold room is warm" and "if this happens": what a person says, in a few
 * taps. Only the reading is ever stored, and only when they say so. */

import { html, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { writeClock, writeDayName } from "../../lib/dates.js";
import { writeQuantity } from "../../lib/quantity.js";
import { t, tn } from "../../lib/say.js";
import { Field } from "../../life/field.js";
import { roundHours } from "../../life/words.js";
import { Choice } from "../../parts/choice.js";
import { Pick } from "../../parts/pick.js";
import { toast } from "../../parts/toast.js";

const HOUR_MS = 3600000;
const DAY_H = 24;
/* A mishap nobody knows the end of is looked at for a day. */
const UNKNOWN = "";

/* What is warm: its name, what a person sees there first, and its range. */
const AIRS = {
    warm_room: { field: "air_c", first: 10, low: -3, high: 35,
        name: () => t("Air of the cold room") },
    power_cut: { field: "outside_c", first: 24, low: -3, high: 45,
        name: () => t("Air around the cold room") },
    van: { field: "air_c", first: 25, low: -3, high: 50,
        name: () => t("Air in the van") },
    left_out: { field: "air_c", first: 22, low: -3, high: 50,
        name: () => t("Air where it stands") },
};

const kinds = () => [["power_cut", t("Power cut, doors shut")],
    ["van", t("Delivery in a warm van")],
    ["left_out", t("A box forgotten outside")],
    ["warm_room", t("The cold room gets warm")]];

/* Hours against now. */
const FROM = [-24, -12, -8, -6, -4, -3, -2, -1, -0.5, 0, 1, 2, 4, 8, 12, 24];
const TO = [-8, -6, -4, -3, -2, -1, -0.5, 0, 0.5, 1, 2, 3, 4, 6, 8, 12, 18, 24,
    36, 48];

/* kind "warm_room" with `felt` is the room that is warm now. */
export function firstHappening(kind, stacks) {
    const told = stacks.find((one) => one.life);
    return { kind, from_h: kind === "warm_room" ? -2 : 0,
        to_h: kind === "van" ? 1 : kind === "power_cut" ? 4 : null,
        warm_c: AIRS[kind].first,
        stack_id: kind === "left_out" ? told?.stack_id ?? 0 : 0 };
}

const hoursOf = ({ from_h, to_h }) => (to_h ?? DAY_H) - from_h;

/* When it is over, or now when that is past. */
export const overOf = ({ to_h }, now) =>
    now + Math.max(0, to_h ?? DAY_H) * HOUR_MS;

/* As cold.foresee takes it. */
export function requestOf(what, members) {
    return { members, stack_id: what.stack_id, mishap: { kind: what.kind,
        from_h: what.from_h, hours: hoursOf(what),
        [AIRS[what.kind].field]: what.warm_c } };
}

/* --- its blanks ---------------------------------------------------------- */

function timeOf(h, now) {
    const ms = now + h * HOUR_MS;
    const another = writeDayName(ms) !== writeDayName(now);
    const time = another ? `${writeDayName(ms)} ${writeClock(ms)}`
        : writeClock(ms);
    if (h === 0)
        return t("now, {time}", { time });
    return h < 0 ? t("{hours} ago, {time}", { hours: roundHours(-h), time })
        : t("in {hours}, {time}", { hours: roundHours(h), time });
}

function When({ name, value, hours, unknown, now, onHours }) {
    const options = hours.map((h) => [String(h), timeOf(h, now)]);
    if (unknown)
        options.unshift([UNKNOWN, unknown]);
    return html`<${Pick} name=${name} options=${options}
        value=${value === null ? UNKNOWN : String(value)}
        onPick=${(text) =>
        onHours(text === UNKNOWN ? null : Number(text))} />`;
}

function Which({ what, stacks, onChange }) {
    const told = stacks.filter((one) => one.stack_id > 0);
    const options = told.map((one) => [String(one.stack_id),
        one.number ? t("{name}, batch {n}", { name: one.name, n: one.number })
            : one.name]);
    if (what.kind === "van")
        options.unshift(["0", t("all of it")]);
    return html`<${Pick} name=${t("Which stack")} options=${options}
        value=${String(what.stack_id)}
        onPick=${(text) => onChange({ stack_id: Number(text) })} />`;
}

const names = (what, felt) => ({
    warm_room: felt ? [t("Warm since"), t("Mended")]
        : [t("From"), t("Until")],
    power_cut: [t("Power off from"), t("Power back")],
    van: [t("Leaves"), t("Arrives")],
    left_out: [t("Forgotten since"), t("Back in the cold")],
})[what.kind];

function Blanks({ what, felt, stacks, now, units, onChange }) {
    const { kind, from_h, to_h } = what;
    const air = AIRS[kind];
    const [from, to] = names(what, felt);
    const later = TO.filter((h) => h > from_h);
    const change = (h) => onChange({ from_h: h,
        to_h: to_h !== null && to_h <= h ? null : to_h });
    return html`
        <div class="blanks">
            <${Field} key=${kind} name=${felt ? t("It has now") : air.name()}
                value=${what.warm_c} dimension="temperature" low=${air.low}
                high=${air.high} units=${units}
                onValue=${(warm_c) => onChange({ warm_c })} />
            <${When} name=${from} value=${from_h} now=${now} onHours=${change}
                hours=${felt ? FROM.filter((h) => h <= 0) : FROM} />
            <${When} name=${to} value=${to_h} hours=${later} now=${now}
                unknown=${t("not known")}
                onHours=${(h) => onChange({ to_h: h })} />
            ${(kind === "van" || kind === "left_out") && html`
                <${Which} what=${what} stacks=${stacks}
                    onChange=${onChange} />`}
        </div>`;
}

/* --- what it comes to ---------------------------------------------------- */

const boxes = (n) => tn("{n} box", "{n} boxes", n);

/* told: reply of cold.foresee; over_ms: when it is over. */
export function sumSentence(told, over_ms) {
    const parts = { saved: boxes(told.saved_boxes),
        first: boxes(told.use_first_boxes), past: boxes(told.past_boxes) };
    const sum = t("By {time}: saved {saved}, use first {first}, past {past}.",
        { ...parts, time: `${writeDayName(over_ms)} ${writeClock(over_ms)}` });
    return told.unknown_boxes === 0 ? sum
        : t("{sum} No model for {unknown}: the shop's days hold.",
            { sum, unknown: boxes(told.unknown_boxes) });
}

function Keep({ what, units }) {
    const [kept, setKept] = useState(false);
    const said = writeQuantity(what.warm_c, "temperature", units);
    async function keep() {
        try {
            const reply = await write("reading.save", { batch_id: 0,
                kind: "cold_c", celsius: what.warm_c });
            setKept(true);
            toast(reply.message ?? t("The cold room's reading of {celsius} " +
                "is kept.",
                { celsius: said }));
        } catch (refusal) {
            toast(refusal.message);
        }
    }
    return html`
        <button type="button" disabled=${kept} onClick=${keep}>
            ${t("Keep {celsius} as the cold room's reading",
        { celsius: said })}</button>`;
}

/* what: as firstHappening makes it; felt: it is so now; told: the newest reply
 * of cold.foresee or null. */
export function Happens({ what, felt, told, refusal, stacks, now, units,
    onKind, onChange, onClose }) {
    return html`
        <section class="happens stack" aria-labelledby="happens-head">
            <div class="row spread">
                <h2 id="happens-head">${felt ? t("The cold room is warm")
        : t("If this happens")}</h2>
                <button type="button" onClick=${onClose}>
                    ${t("Back to what is")}</button>
            </div>
            ${!felt && html`
                <${Choice} legend=${t("What happens")} value=${what.kind}
                    options=${kinds()} onChoose=${onKind} />`}
            <${Blanks} what=${what} felt=${felt} stacks=${stacks} now=${now}
                units=${units} onChange=${onChange} />
            ${refusal && html`<p class="trouble" role="alert">
                ${refusal.message}</p>`}
            <p class="comes-to" aria-live="polite">
                ${told && what.kind !== "left_out" ? sumSentence(told, overOf(what, now))
        : "\u00a0"}</p>
            <div class="row">
                ${felt && html`<${Keep} key=${what.warm_c} what=${what}
                    units=${units} />`}
                <button type="button" onClick=${() => print()}>
                    ${t("Print this list")}</button>
            </div>
            <p class="quiet">${felt
        ? t("The strips below are drawn as if it went on like this, for a day " +
            "when nobody knows when it is mended; the thin one over each is " +
            "what was planned. Nothing is stored unless you keep the " +
            "reading.")
        : t("The strips below are drawn as if it had happened; the thin one " +
            "over each is what is planned. Nothing is stored.")}${" "}
                ${t("Quality only: whether dough that stood warm may be " +
            "sold is for your food code to say.")}</p>
        </section>`;
}
