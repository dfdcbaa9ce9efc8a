/* The demand of one product: fourteen days with their band, its week, what was
 * learned, and how the last forecasts did. */

import { html, useEffect, useState } from "../../lib/view.js";
import { call, onChanged } from "../../lib/api.js";
import { weekdays } from "../../lib/dates.js";
import { writeNumber } from "../../lib/quantity.js";
import { t, tn } from "../../lib/say.js";
import { Empty } from "../../parts/empty.js";
import { Pick } from "../../parts/pick.js";
import { Days } from "./days.js";
import { Known } from "./known.js";
import { Past } from "./past.js";

const TOUCHES = /^(|(sale|sales|demand|event|override|product|count|shop|build_to)\..*)$/;

function useDemand() {
    const [demand, set] = useState(null);
    const [refusal, setRefusal] = useState(null);
    useEffect(() => {
        let wanted = true;
        const ask = () => call("demand.get", { check_weeks: 4 }).then(
            (got) => {
                if (!wanted)
                    return;
                set(got);
                setRefusal(null);
            }, (problem) => wanted && setRefusal(problem));
        ask();
        const stop = onChanged((op) => TOUCHES.test(op) && ask());
        return () => {
            wanted = false;
            stop();
        };
    }, []);
    return { demand, refusal };
}

const BASIS = {
    own: (f) => tn("From {n} day of its own.", "From {n} days of its own.",
        f.history_days),
    like: () => t("New: its week is taken from the product it is like."),
    par: () => t("New: taken from the balls to have each morning, so the " +
        "band is wide."),
    nothing: () => t("I do not know: no sales, no counts, no balls to have, " +
        "and no product it is like."),
};

function Week({ forecast }) {
    const most = Math.max(...forecast.weekday_factors);
    return html`
        <section class="stack" aria-labelledby="pattern-head">
            <h2 id="pattern-head" class="section-head">${t("Its week")}</h2>
            <ul class="pattern">${weekdays().map((day, i) => html`
                <li key=${day}>
                    <span>${day}</span>
                    <span class="pattern-bar" style=${{
        "--share": forecast.weekday_factors[i] / most }}></span>
                    <b class="number">${t("{factor} ×", { factor:
        writeNumber(forecast.weekday_factors[i], 2) })}</b>
                </li>`)}
            </ul>
            <p class="quiet">${t("Against a mean day of {level} balls. The " +
        "level changes by {trend} % a week now.", {
        level: writeNumber(forecast.days[0].level, 0),
        trend: writeNumber(forecast.trend_percent_per_week, 1) })}</p>
        </section>`;
}

function Product({ product }) {
    const { forecast } = product;
    return html`
        <p class="quiet">${BASIS[forecast.basis](forecast)}</p>
        ${forecast.days.length > 0 && html`
            <${Days} forecast=${forecast} />
            <div class="demand-beside">
                <${Week} forecast=${forecast} />
                <${Past} forecast=${forecast} />
            </div>`}`;
}

function None() {
    return html`
        <${Empty} title=${t("What the next two weeks may want")}
            text=${t("From what was sold, or from the evening counts alone, " +
        "this page says for each day how many balls are likely, and how " +
        "sure that is. Begin with the register's file.")} />
        <p><a class="button" href="/week/sales">
            ${t("Take a register's file in")}</a></p>`;
}

export function Demand() {
    const { demand, refusal } = useDemand();
    const [chosen, choose] = useState(null);
    if (refusal && !demand)
        return html`
            <p class="trouble" role="alert">${refusal.message}</p>`;
    if (!demand)
        return null;
    if (demand.products.every((one) => one.forecast.basis === "nothing"))
        return html`<${None} />`;
    const product = demand.products.find((one) => one.product_id === chosen) ??
        demand.products[0];
    return html`
        <div class="stack-wide demand-page">
            <section class="stack" aria-labelledby="demand-head">
                <h2 id="demand-head" class="section-head">
                    ${t("What may be wanted")}</h2>
                <div class="demand-head">
                    <${Pick} name=${t("Product")}
                        value=${String(product.product_id)}
                        options=${demand.products.map((one) =>
        [String(one.product_id), one.forecast.name])}
                        onPick=${(id) => choose(Number(id))} />
                    <a href="/week/sales">
                        ${t("Take a register's file in")}</a>
                </div>
                <${Product} product=${product} />
            </section>
            <${Known} demand=${demand} />
        </div>`;
}
