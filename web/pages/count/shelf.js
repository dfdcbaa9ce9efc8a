/* The list on the left: products as headings, one line for each mixing day,
 * what is expected greyed until it is counted. */

import { html, useEffect, useRef, useState } from "../../lib/view.js";
import { civilDay } from "../../lib/dates.js";
import { writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Dialog } from "../../parts/dialog.js";
import { Readiness } from "../../parts/readiness.js";

function Line({ row, balls, current, onPick }) {
    const done = balls !== undefined;
    const button = useRef(null);
    useEffect(() => {
        if (current)
            button.current.scrollIntoView({ block: "nearest" });
    }, [current]);
    return html`
        <li>
            <button type="button" class="shelf-line" ref=${button}
                aria-current=${current ? "true" : null} data-done=${done}
                onClick=${onPick}>
                <span class="shelf-day">${civilDay(row.mixing_day)}</span>
                ${row.readiness
        ? html`<${Readiness} readiness=${row.readiness} />`
        : html`<span class="quiet">${t("none expected")}</span>`}
                <b>${done ? balls : row.expected} <span class="only-heard">
                    ${done ? t("counted") : t("expected")}</span></b>
            </button>
        </li>`;
}

/* Dough of a day that nobody wrote down. */
function OtherDay({ day, product, onDay }) {
    const [open, setOpen] = useState(false);
    const days = [0, 1, 2, 3, 4, 5, 6].map((ago) => day - ago)
        .filter((one) => !product.ages.some((age) => age.mixing_day === one));
    return html`
        <button type="button" class="word" aria-haspopup="dialog"
            onClick=${() => setOpen(true)}>${t("another day")}
            <span class="only-heard">${product.name}</span></button>
        ${open && html`
            <${Dialog} title=${t("When was it mixed?")}
                onClose=${() => setOpen(false)}>
                <div class="row">${days.map((one) => html`
                    <button type="button" key=${one} onClick=${() => {
        setOpen(false);
        onDay(one);
    }}>${civilDay(one)}</button>`)}
                </div>
            <//>`}`;
}

export function Shelf({ sheet, rows, counted, current, units, onPick,
    onAdd }) {
    return sheet.products.map((product) => html`
        <section key=${product.product_id} class="shelf">
            <h2>${product.name}
                <small class="quiet">${writeQuantity(product.ball_kg, "mass",
        units)}</small>
                <${OtherDay} day=${sheet.day} product=${product}
                    onDay=${(day) => onAdd(product, day)} /></h2>
            <ul>${rows.filter((row) =>
        row.product_id === product.product_id).map((row) => html`
                <${Line} key=${row.key} row=${row}
                    balls=${counted[row.key]} current=${row.key === current}
                    onPick=${() => onPick(row.key)} />`)}
            </ul>
        </section>`);
}
