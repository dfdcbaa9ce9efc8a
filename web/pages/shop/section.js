/* A section of the shop: a heading, ruled lines that open as forms, and one
 * word to add another. */

import { html, useState } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { Dialog } from "../../parts/dialog.js";
import { Form } from "./form.js";

export function Head({ id, title, about }) {
    return html`
        <h2 class="section-head" id=${`${id}-head`}>${title}</h2>
        ${about && html`<p class="quiet about">${about}</p>`}`;
}

function Line({ name, says, gone, onOpen }) {
    return html`
        <li data-gone=${gone}>
            <button type="button" class="ledger-line" aria-haspopup="dialog"
                onClick=${onOpen}>
                <b>${name}</b>
                <span class="quiet">${gone
        ? t("{says} Not in use.", { says }) : says}</span>
            </button>
        </li>`;
}

/* noun: { id, op, title(), about(), add(), fields(all, row), blank(all),
 * says(row, all, units), nameOf?(row, all), Editor?, toRequest?(all, row) }. */
export function Section({ noun, rows, all, units }) {
    const [open, setOpen] = useState(null);
    const nameOf = noun.nameOf ?? ((row) => row.name);
    const Editor = noun.Editor ?? Form;
    const close = () => setOpen(null);
    return html`
        <section id=${noun.id} class="stack"
            aria-labelledby=${`${noun.id}-head`}>
            <${Head} id=${noun.id} title=${noun.title()}
                about=${noun.about()} />
            ${rows.length > 0 && html`
                <ul class="ledger">${rows.map((row) => html`
                    <${Line} key=${row.id} name=${nameOf(row, all)}
                        says=${noun.says(row, all, units)}
                        gone=${row.here === false || row.open === false}
                        onOpen=${() => setOpen(row)} />`)}
                </ul>`}
            <button type="button" class="word"
                onClick=${() => setOpen(noun.blank(all))}>
                ${noun.add()}</button>
            ${open && html`
                <${Dialog} onClose=${close}
                    title=${open.id ? nameOf(open, all) : noun.add()}>
                    <${Editor} fields=${noun.fields(all, open)} row=${open}
                        units=${units} op=${noun.op} all=${all}
                        toRequest=${noun.toRequest &&
        ((row) => noun.toRequest(all, row))}
                        onSaved=${close} />
                <//>`}
        </section>`;
}
