/* The batches of an order before they are kept: what each is cut into, what is
 * left over, when each is mixed and boxed, and what to do when it gets late. */

import { html } from "../../lib/view.js";
import { clock } from "../../lib/clock.js";
import { writeClock } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";
import { mass } from "../mix/words.js";
import { piecesSentence } from "./line.js";
import { RunStrip } from "./runstrip.js";
import { Takes } from "./takes.js";

function boxesOf(pieces) {
    return pieces.reduce((sum, cut) => sum + cut.boxes, 0);
}

function Batch({ one, units }) {
    const { batch, pieces, standard, odd_kg } = one;
    const size = t("{flour} of flour, {dough} of dough", {
        flour: mass(batch.flour_kg, units),
        dough: mass(batch.dough_kg, units) });
    return html`
        <li>
            <b>${standard ? t("{name}: {size}", { name: standard, size })
        : size}</b>
            <span>${piecesSentence(pieces)}</span>
            <span class="quiet">${tn("{n} box", "{n} boxes",
        boxesOf(pieces))}${odd_kg > 0.005 && html`, ${t("{odd} of dough over",
        { odd: mass(odd_kg, units) })}`}${batch.minors_lot_id > 0 && html`, ${
        t("with a bag of minors")}`}</span>
            <${Takes} takes=${one.takes} dough_kg=${batch.dough_kg}
                units=${units} />
        </li>`;
}

function Surplus({ account }) {
    const over = account.filter((one) => one.surplus > 0);
    return over.map((one) => html`
        <p key=${one.product_id}>${tn("{n} {name} more than wanted goes into " +
        "stock.", "{n} {name} more than wanted go into stock.", one.surplus,
    { name: one.name })}</p>`);
}

/* One way out of each kind; the products that one is about come together. An
 * earlier start that is over helps nobody. */
function waysOut(all) {
    const advice = all.filter((one) =>
        !one.start_ms || one.start_ms > clock.now());
    const products = (code) => [...new Set(advice.filter((one) =>
        one.code === code && one.product).map((one) => one.product))];
    return advice.filter((one, i) =>
        advice.findIndex((other) => other.code === one.code) === i)
        .map((one) => ({ ...one, products: products(one.code) }));
}

function Way({ way, onStart, onOrder }) {
    const { code, message, start_ms, products } = way;
    return html`
        <li class="row">
            <span>${start_ms
        ? t("{advice} First mix at {time}.", { advice: message,
            time: writeClock(start_ms) })
        : products.length ? t("{product}: {advice}",
            { product: products.join(", "), advice: message })
            : message}</span>
            ${start_ms && html`
                <button type="button" onClick=${() => onStart(start_ms)}>
                    ${t("Start then")}</button>`}
            ${["small_first", "large_first"].includes(code) && html`
                <button type="button" onClick=${() => onOrder(code)}>
                    ${t("Do it so")}</button>`}
        </li>`;
}

function Late({ run, onStart, onOrder }) {
    const late = run.batches.flatMap((line) => line.stacks)
        .filter((stack) => stack.late);
    return late.length > 0 && html`
        <div class="slip stack" data-level="wrong">
            <p>${tn("{n} stack would have to be closed after the last person " +
        "leaves, at {time}.", "{n} stacks would have to be closed after the " +
        "last person leaves, the latest at {time}.", late.length,
    { time: writeClock(Math.max(...late.map((one) => one.close_ms))) })}</p>
            <ul class="stack">${waysOut(run.advice).map((way) => html`
                <${Way} key=${way.code} way=${way} onStart=${onStart}
                    onOrder=${onOrder} />`)}
            </ul>
        </div>`;
}

export function Preview({ plan, units, onStart, onOrder }) {
    const notes = [...plan.notes, ...plan.run.notes]
        .filter((one) => one.message && one.code !== "closes_late");
    return html`
        <div class="stack preview">
            <h3>${tn("{n} batch", "{n} batches", plan.batches.length)}</h3>
            <ol class="plan">${plan.batches.map((one, i) => html`
                <${Batch} key=${i} one=${one} units=${units} />`)}
            </ol>
            <${Surplus} account=${plan.account} />
            <${RunStrip} run=${plan.run} />
            <${Late} run=${plan.run} onStart=${onStart} onOrder=${onOrder} />
            ${notes.map((one, i) => html`
                <p key=${i} class=${one.level === "warn" ? "slip" : "note"}>
                    ${one.message}</p>`)}
        </div>`;
}
