/* Planned beside what came, as columns of a sheet: weights, temperatures,
 * times, balls. */

import { html } from "../../lib/view.js";
import { writeClock } from "../../lib/dates.js";
import { writeNumber, writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { newestReading, readingName } from "../mix/words.js";
import { degrees, mass, onScale, temperature } from "./words.js";

const NONE = "\u2013";

/* A difference with its sign; nothing when there is none. */
function signed(difference, write) {
    if (difference === null)
        return NONE;
    if (difference === 0)
        return t("none");
    return difference > 0 ? `+${write(difference)}`
        : `\u2212${write(-difference)}`;
}

function Table({ caption, heads, rows, foot }) {
    return html`
        <div class="wide" tabindex="0" role="group" aria-label=${caption}>
        <table class="ledger">
            <caption class="only-heard">${caption}</caption>
            <thead><tr>${heads.map((head, i) => html`
                <th scope="col" key=${i} class=${i ? "number quiet" : "quiet"}>
                    ${head}</th>`)}</tr></thead>
            <tbody>${rows.map(({ name, under, cells }) => html`
                <tr key=${`${name} ${under}`}>
                    <th scope="row">${name}
                        ${under && html`<small class="quiet">${under}</small>`}
                    </th>
                    ${cells.map((cell, i) => html`
                        <td class="number" key=${i}>${cell}</td>`)}
                </tr>`)}
            </tbody>
            ${foot}
        </table>
        </div>`;
}

const heads = (first) => [first, t("planned"), t("came"), t("off by")];

/* --- weights ------------------------------------------------------------- */

function weightRow({ weighing, stage, scale, lot, division_kg }, units) {
    const write = (kg) => division_kg ? onScale(kg, division_kg, units)
        : mass(kg, units);
    const { planned_kg, weighed_kg } = weighing;
    const off = weighed_kg === null ? null
        : division_kg ? Math.round((weighed_kg - planned_kg) / division_kg) *
            division_kg : weighed_kg - planned_kg;
    return { name: weighing.material,
        under: [stage, scale, lot && t("lot {lot}", { lot })]
            .filter(Boolean).join(", "),
        cells: [write(planned_kg), weighed_kg === null ? NONE
            : write(weighed_kg), signed(off, write)] };
}

export function Weights({ card, units }) {
    return html`
        <${Table} caption=${t("Weights, planned beside what came")}
            heads=${heads(t("ingredient"))}
            rows=${card.weighings.map((row) => weightRow(row, units))} />
        <p class="quiet">${t("Each in the steps of its scale.")}</p>`;
}

/* --- temperatures -------------------------------------------------------- */

const KINDS = ["flour_c", "room_c", "tap_c", "water_c", "bowl_c", "dough_c"];

function plannedTemperature(kind, { batch }) {
    return { water_c: batch.water_c, dough_c: batch.dough_goal_c }[kind] ??
        null;
}

export function Temperatures({ card, units }) {
    const shown = (c) => c === null ? NONE : temperature(c, units);
    const rows = KINDS.map((kind) => ({ kind,
        planned: plannedTemperature(kind, card),
        came: newestReading(card, kind)?.celsius ?? null }))
        .filter(({ planned, came }) => planned !== null || came !== null);
    return html`
        <${Table} caption=${t("Temperatures, planned beside what came")}
            heads=${heads(t("reading"))}
            rows=${rows.map(({ kind, planned, came }) => ({
        name: readingName(kind),
        cells: [shown(planned), shown(came),
            signed(planned === null || came === null ? null
                : Math.round((came - planned) * 10) / 10,
            (c) => degrees(c, units))] }))} />`;
}

/* --- times --------------------------------------------------------------- */

/* Minutes from the mixer's stop to the last box, as a line on the bench with
 * a mark where the bench's minutes end. */
function Bench({ took, allowed }) {
    const whole = Math.max(took, allowed) * 1.1;
    const part = (minutes) => `${100 * minutes / whole}%`;
    const late = took > allowed;
    return html`
        <p>${late
        ? t("{took} from the mixer's stop to the last box; the bench has " +
            "{allowed}.", { took: writeQuantity(took / 60, "time", "us"),
            allowed: writeQuantity(allowed / 60, "time", "us") })
        : t("{took} from the mixer's stop to the last box, within the " +
            "bench's {allowed}.", {
            took: writeQuantity(took / 60, "time", "us"),
            allowed: writeQuantity(allowed / 60, "time", "us") })}</p>
        <div class="bench-line" aria-hidden="true" data-late=${late}>
            <span class="bench-took" style=${{ width: part(took) }}></span>
            <span class="bench-end" style=${{ left: part(allowed) }}></span>
        </div>`;
}

/* As the clocks show them, so a difference is that of what stands there. */
const minute = (ms) => Math.floor(ms / 60000);

function timeRow(name, at, planned) {
    return { name, cells: [planned ? writeClock(planned) : NONE,
        at ? writeClock(at) : NONE,
        at && planned ? signed(minute(at) - minute(planned), (n) =>
            t("{n} min", { n })) : NONE] };
}

export function Times({ card, shop }) {
    const { batch, clock } = card;
    const took = Math.round((batch.last_box_ms - batch.stopped_ms) / 60000);
    return html`
        <${Table} caption=${t("Times, planned beside what came")}
            heads=${heads(t("moment"))}
            rows=${[
        timeRow(t("Start"), batch.started_ms, batch.planned_ms),
        timeRow(t("Mixer stopped"), batch.stopped_ms, 0),
        timeRow(t("First box"), batch.first_box_ms, 0),
        timeRow(t("Last box"), batch.last_box_ms, clock.box_by_ms),
        timeRow(t("Closed"), batch.closed_ms,
            batch.close_due_ms)]} />
        ${batch.last_box_ms > 0 && batch.stopped_ms > 0 && html`
            <${Bench} took=${took} allowed=${shop.bench_minutes} />`}`;
}

/* --- balls --------------------------------------------------------------- */

export function Balls({ card, units }) {
    return html`
        <${Table} caption=${t("Balls, planned beside what came")}
            heads=${heads(t("product"))}
            rows=${card.pieces.map(({ piece, name }) => ({ name,
        under: mass(piece.ball_kg, units),
        cells: [String(piece.balls_planned), piece.balls_made ?? NONE,
            signed(piece.balls_made === null ? null
                : piece.balls_made - piece.balls_planned,
            (n) => writeNumber(n, 0))] }))} />`;
}
