/* How many balls to have on each weekday: one calm grid, typed. */

import { html, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { weekdays } from "../../lib/dates.js";
import { t } from "../../lib/say.js";
import { toast } from "../../parts/toast.js";

const cell = (product_id, weekday) => `${product_id}:${weekday}`;

function storedTexts(rows) {
    return Object.fromEntries(rows.map((row) =>
        [cell(row.product_id, row.weekday), String(row.balls)]));
}

const MOST = 100000; /* balls of one product on one day */
const readable = (text) => /^\d*$/.test(text.trim()) && Number(text) <= MOST;

/* Rows of the products shown, and those of products no longer made. */
function rowsOf(texts, products, stored) {
    const shown = products.flatMap(({ id }) => weekdays().map((_, weekday) =>
        ({ product_id: id, weekday,
            balls: Number(texts[cell(id, weekday)] ?? 0) })));
    const ids = new Set(products.map(({ id }) => id));
    const others = stored.filter((row) => !ids.has(row.product_id))
        .map(({ product_id, weekday, balls }) =>
            ({ product_id, weekday, balls }));
    return [...shown, ...others].filter((row) => row.balls > 0);
}

function Row({ product, texts, onText }) {
    const long = weekdays("long");
    return html`
        <tr>
            <th scope="row">${product.name}</th>
            ${long.map((day, weekday) => {
        const key = cell(product.id, weekday);
        const text = texts[key] ?? "";
        return html`
                <td key=${key}>
                    <span class="quiet" aria-hidden="true">
                        ${weekdays("narrow")[weekday]}</span>
                    <input inputmode="numeric" autocomplete="off"
                        aria-label=${t("{name} on {day}",
        { name: product.name, day })}
                        aria-invalid=${readable(text) ? null : "true"}
                        value=${text} placeholder="0"
                        onFocus=${(event) => event.target.select()}
                        onInput=${(event) => onText(key, event.target.value)}
                    /></td>`;
    })}
        </tr>`;
}

export function BuildTo({ shop }) {
    const [typed, setTyped] = useState({});
    const [refusal, setRefusal] = useState(null);
    const products = shop.products.filter((one) => one.here);
    const stored = shop.build_tos;
    const texts = { ...storedTexts(stored), ...typed };
    const wrong = Object.values(texts).some((text) => !readable(text));
    const changed = Object.keys(typed).length > 0;

    async function save() {
        try {
            const reply = await write("build_to.replace",
                { rows: rowsOf(texts, products, stored) });
            setRefusal(null);
            if (!reply.queued)
                setTyped({});
            toast(reply.queued ? t("Kept on this tablet.") : t("Saved."));
        } catch (problem) {
            setRefusal(problem);
        }
    }

    return html`
        <section class="stack build-to" aria-labelledby="build-to-head">
            <h2 id="build-to-head" class="section-head">
                ${t("How many to have each morning")}</h2>
            <table>
                <thead><tr class="quiet">
                    <td></td>
                    ${weekdays().map((day) => html`
                        <th scope="col" key=${day}>${day}</th>`)}
                </tr></thead>
                <tbody>${products.map((product) => html`
                    <${Row} key=${product.id} product=${product}
                        texts=${texts} onText=${(key, text) =>
        setTyped((was) => ({ ...was, [key]: text }))} />`)}
                </tbody>
            </table>
            ${wrong && html`<p class="trouble" role="alert">${t("Whole " +
        "numbers from 0 to {most}, please.", { most: MOST })}</p>`}
            ${refusal && html`<p class="trouble" role="alert">
                ${refusal.message}</p>`}
            ${changed && html`
                <div class="row">
                    <button type="button" class="do" disabled=${wrong}
                        onClick=${save}>${t("Save the week")}</button>
                    <button type="button" onClick=${() => setTyped({})}>
                        ${t("Leave it as it was")}</button>
                </div>`}
        </section>`;
}
