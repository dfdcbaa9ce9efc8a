/* What is in the cold room, by product and how far it is. */

import { html } from "../../lib/view.js";
import { writeMoment } from "../../lib/dates.js";
import { t } from "../../lib/say.js";
import { Readiness } from "../../parts/readiness.js";
import { AskNeed } from "../count/why.js";

const ORDER = ["use_first", "best", "ready", "not_yet", "past"];

/* Balls by readiness, what is used first at the top. */
export function byReadiness(ages) {
    return ORDER.map((readiness) => ({ readiness, balls: ages
        .filter((age) => age.readiness === readiness)
        .reduce((sum, age) => sum + age.balls, 0) }))
        .filter(({ balls }) => balls > 0);
}

function Product({ line }) {
    return html`
        <li>
            <h3>${line.name} <b>${line.balls}</b></h3>
            ${line.ages.length > 0
        ? html`<ul>${byReadiness(line.ages).map(({ readiness, balls }) =>
            html`<li key=${readiness}>
                <${Readiness} readiness=${readiness} />
                <span>${balls}</span></li>`)}</ul>`
        : html`<p class="quiet">${t("none left")}</p>`}
            ${line.need > 0 && html`<p class="short-note">
                <${AskNeed} line=${line}>${t("{n} short",
        { n: line.need })}<//></p>`}
        </li>`;
}

/* How the numbers came about: counted, added to, and run down by the pull sheet
 * without a tap. */
function since(stock, counted_ms) {
    if (!counted_ms)
        return t("Never counted; from the cards alone.");
    const assumed = stock.some((line) =>
        line.ages.some((age) => age.assumed_gone > 0));
    return assumed
        ? t("Counted {time}; what was boxed since is added, what the pull sheet takes is taken off (assumed).",
            { time: writeMoment(counted_ms) })
        : t("Counted {time}; what was boxed since is added.",
            { time: writeMoment(counted_ms) });
}

export function Stock({ stock, counted_ms }) {
    return html`
        <section class="stack" aria-labelledby="stock-head">
            <h2 id="stock-head" class="section-head">${t("In the cold room")}
                <a class="word" href="/count">${t("Count")}</a></h2>
            <p class="quiet">${since(stock, counted_ms)}</p>
            <ul class="in-stock">${stock.map((line) => html`
                <${Product} key=${line.product_id} line=${line} />`)}
            </ul>
        </section>`;
}
