/* What a shop wants of a drop, product by product. */

import { html, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { readNumber } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { Dialog } from "../../parts/dialog.js";
import { toast } from "../../parts/toast.js";

function readBalls(text) {
    const balls = text.trim() === "" ? 0 : readNumber(text);
    if (balls === null || balls < 0 || balls !== Math.floor(balls))
        throw new Error(t("Write a whole number"));
    return balls;
}

function linesOf(texts, errors) {
    const lines = [];
    for (const [product_id, text] of Object.entries(texts))
        try {
            const balls = readBalls(text);
            if (balls > 0)
                lines.push({ product_id: Number(product_id), balls });
        } catch (problem) {
            errors[product_id] = problem.message;
        }
    return lines;
}

export function Order({ drop, products, onClose }) {
    const wanted = Object.fromEntries(drop.pieces.map((piece) =>
        [piece.product_id, String(piece.wanted)]));
    const [texts, setTexts] = useState(Object.fromEntries(products.map(
        (one) => [one.id, wanted[one.id] ?? ""])));
    const [note, setNote] = useState(drop.order_note ?? "");
    const errors = {};
    const lines = linesOf(texts, errors);
    async function save() {
        try {
            const made = await write("order.save", { outlet_id: drop.outlet_id,
                day: drop.day, lines, note: note.trim() || null });
            toast(made?.late ? t("Written down, but late.")
                : t("The order is written down."));
            onClose();
        } catch (problem) {
            toast(problem.message);
        }
    }
    return html`
        <${Dialog} title=${t("Order of {outlet}", { outlet: drop.outlet })}
            onClose=${onClose}>
            <div class="paper-cells">${products.map((one) => html`
                <${Blank} key=${one.id} number name=${one.name}
                    text=${texts[one.id]} error=${errors[one.id]}
                    onType=${(text) => setTexts({ ...texts,
        [one.id]: text })} />`)}
                <${Blank} name=${t("Note")} text=${note} onType=${setNote} />
            </div>
            <button type="button" class="do" onClick=${save}
                disabled=${Object.keys(errors).length > 0}>
                ${t("Write the order down")}</button>
        <//>`;
}
