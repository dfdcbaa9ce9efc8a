/* Names in a register's file that are not the shop's: what each means. */

import { html, useEffect, useState } from "../../lib/view.js";
import { call } from "../../lib/api.js";
import { t, tn } from "../../lib/say.js";

function useShop() {
    const [shop, set] = useState({ products: [], outlets: [] });
    useEffect(() => {
        call("shop.get").then(set, () => undefined);
    }, []);
    return shop;
}

const UNKNOWN = "0";
const OTHER = "other";

function meaning({ name }) {
    if (name.passed_over)
        return OTHER;
    return String(name.kind === "product" ? name.product_id : name.outlet_id);
}

function Stranger({ one, shop, onMean }) {
    const { name } = one;
    const ours = name.kind === "product" ? shop.products : shop.outlets;
    const options = [[UNKNOWN, t("not known: keep its rows aside")],
        ...ours.map((row) => [String(row.id), row.name]),
        ...name.kind === "product" ? [[OTHER, t("not of our dough")]] : []];
    const mean = (value) => onMean({ ...name, passed_over: value === OTHER,
        [name.kind === "product" ? "product_id" : "outlet_id"]:
            value === OTHER ? 0 : Number(value) });
    return html`
        <li class="stranger">
            <span><b>${name.written}</b> <span class="quiet">${tn("{n} row",
        "{n} rows", one.rows)}</span></span>
            <label class="field">
                <span class="only-heard">${t("{name} is",
        { name: name.written })}</span>
                <select onChange=${(event) => mean(event.target.value)}>
                    ${options.map(([value, words]) => html`
                        <option key=${value} value=${value}
                            selected=${value === meaning(one)}>
                            ${words}</option>`)}
                </select>
            </label>
            ${name.kind === "product" && name.product_id > 0 && html`
                <label class="field">
                    <span class="only-heard">${t("Balls in one {name}",
        { name: name.written })}</span>
                    <input inputmode="numeric" class="number"
                        value=${name.balls_each} onChange=${(event) => onMean({
        ...name, balls_each: Math.min(100, Math.max(1,
            Math.round(Number(event.target.value)) || 1)) })} />
                </label>`}
        </li>`;
}

export function Names({ names, onNames }) {
    const shop = useShop();
    if (!names.length)
        return null;
    const put = (i, name) => onNames(names.map((one, k) =>
        k === i ? { ...one, name } : one));
    return html`
        <section class="stack" aria-labelledby="names-head">
            <h2 id="names-head" class="section-head">
                ${t("Names that are not yours")}</h2>
            <p class="quiet">${t("Say once what each means, and how many " +
        "balls are in one. It is remembered.")}</p>
            <ul>${names.map((one, i) => html`
                <${Stranger} key=${`${one.name.kind} ${one.name.written}`}
                    one=${one} shop=${shop}
                    onMean=${(name) => put(i, name)} />`)}
            </ul>
        </section>`;
}
