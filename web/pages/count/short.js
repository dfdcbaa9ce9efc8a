/* What is short on the next day a batch of today can serve. */

import { html } from "../../lib/view.js";
import { writeMoment, writeWeekday } from "../../lib/dates.js";
import { go } from "../../lib/route.js";
import { t } from "../../lib/say.js";
import { keepBatches } from "../batches/keep.js";
import { orderOf, orderPath } from "./tally.js";
import { AskNeed } from "./why.js";

function sentence(one) {
    const values = { name: one.name, need: one.need, usable: one.usable,
        wanted: one.build_to, day: writeWeekday(one.target_day) };
    if (one.build_to === 0)
        return t("{name}: nothing is written down for {day}; {usable} will " +
            "be good.", values);
    return one.need > 0
        ? t("{name}: {need} short for {day}. {usable} of {wanted} will be " +
            "good then.", values)
        : t("{name}: enough for {day}, {usable} of {wanted}.", values);
}

export function Short({ sheet }) {
    const anyShort = sheet.products.some((one) => one.need > 0);
    async function make() {
        if (await keepBatches({ pieces: orderOf(sheet.products) }))
            go("/batches");
    }
    return html`
        <section class="stack short" aria-labelledby="short-head">
            <h2 id="short-head" class="section-head">${anyShort
        ? t("Short") : t("Nothing is short")}
                ${sheet.counted_ms > 0 && html`
                    <small class="quiet">${t("counted {time}",
        { time: writeMoment(sheet.counted_ms) })}</small>`}</h2>
            <ul>${sheet.products.map((one) => html`
                <li key=${one.product_id} data-short=${one.need > 0}>
                    <${AskNeed} line=${one}>${sentence(one)}<//></li>`)}
            </ul>
            ${anyShort && html`
                <div class="row">
                    <button type="button" class="do big" onClick=${make}>
                        ${t("Make these batches")}</button>
                    <a class="button" href=${orderPath(sheet.products)}>
                        ${t("Look at them first")}</a>
                </div>`}
        </section>`;
}
