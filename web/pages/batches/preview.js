/* The batches of an order before they are kept: what each is cut into, what is
 * left over, when each is mixed and boxed, and what to do when it gets late. */

import { html } from "../../lib/view.js";
import { writeClock } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";
import { mass } from "../mix/words.js";
import { piecesSentence } from "./line.js";
import { RunStrip } from "./runstrip.js";

function boxesOf(pieces) {
    return pieces.reduce((sum, cut) => sum + cut.boxes, 0);
}

function Batch({ one, units }) {
    const { batch, pieces, standard, odd_kg, minors_lot_id } = one;
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
        { odd: mass(odd_kg, units) })}`}${minors_lot_id > 0 && html`, ${
        t("with a bag of minors")}`}</span>
        </li>`;
}

function Surplus({ account }) {
    const over = account.filter((one) => one.surplus > 0);
    return over.map((one) => html`
        <p key=${one.product_id}>${tn("{n} {name} more than wanted goes into " +
        "stock.", "{n} {name} more than wanted go into stock.", one.surplus,
    { name: one.name })}</p>`);
}

function Late({ run, onStart, onOrder }) {
    const late = run.batches.flatMap((line) => line.stacks
        .filter((stack) => stack.late).map((stack) => ({ line, stack })));
    return html`
        ${late.map(({ line, stack }) => html`
            <p class="slip" data-level="wrong" key=${line.name + stack.product}>
                ${t("{product} of batch {batch} would have to be closed at " +
        "{time}, after the last person leaves.", { product: stack.product,
        batch: line.name, time: writeClock(stack.close_ms) })}</p>`)}
        ${run.advice.map((one) => html`
            <div class="slip row" key=${one.code + (one.product ?? "")}>
                <span>${one.start_ms
        ? t("{advice} First mix at {time}.", { advice: one.message,
            time: writeClock(one.start_ms) })
        : one.product ? t("{product}: {advice}", { product: one.product,
            advice: one.message }) : one.message}</span>
                ${one.code === "start_earlier" && one.start_ms && html`
                    <button type="button"
                        onClick=${() => onStart(one.start_ms)}>
                        ${t("Start then")}</button>`}
                ${["small_first", "large_first"].includes(one.code) && html`
                    <button type="button" onClick=${() => onOrder(one.code)}>
                        ${t("Do it so")}</button>`}
            </div>`)}`;
}

export function Preview({ plan, units, onStart, onOrder }) {
    const notes = [...plan.notes, ...plan.run.notes]
        .filter((one) => one.message);
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
