/* What people did that the server has not taken yet, and what it refused. */

import { html } from "../lib/view.js";
import { outbox } from "../lib/api.js";
import { writeClock } from "../lib/dates.js";
import { t } from "../lib/say.js";

/* What was done, in words, by operation. */
const deeds = () => ({
    "recipe.save": t("a formula"), "count.save": t("a count"),
    "stack.move": t("balls moved"),
    "shop.save": t("the shop's settings"), "product.save": t("a product"),
    "mixer.save": t("a mixer"), "scale.save": t("a scale"),
    "person.save": t("a person"), "material.save": t("a material"),
    "material_lot.save": t("a lot"), "verdict.save": t("a verdict"),
    "batch.enter": t("a batch's paper sheet"),
    "minors.make": t("bags of minors"),
});

const deed = (entry) => deeds()[entry.op] ?? entry.op;

function Refused({ entry }) {
    return html`
        <li class="slip stack" data-level="wrong">
            <p>${t("Entered at {time} ({what}): {why}", { time: writeClock(entry.occurred_ms),
        what: deed(entry), why: entry.refusal.message })}</p>
            <pre class="quiet entry">${entry.body}</pre>
            <div class="row">
                <button type="button"
                    onClick=${() => outbox.retry(entry.id)}>
                    ${t("Send it again")}
                </button>
                <button type="button"
                    onClick=${() => outbox.discard(entry.id)}>
                    ${t("Let it go")}
                </button>
            </div>
        </li>`;
}

export function Waiting({ online, entries }) {
    const { waiting, refused } = entries;
    return html`
        ${!online && html`<p>${t("The shop's computer cannot be reached. What you " +
        "enter is kept on this tablet and sent in order when it can.")}</p>`}
        ${online && !waiting.length && !refused.length && html`
            <p>${t("Everything has arrived.")}</p>`}
        ${waiting.length > 0 && html`
            <ol class="stack">${waiting.map((entry) => html`
                <li key=${entry.id}>${t("Entered at {time}: {what}",
            { time: writeClock(entry.occurred_ms), what: deed(entry) })}</li>`)}
            </ol>`}
        ${refused.length > 0 && html`
            <ul class="stack">${refused.map((entry) => html`
                <${Refused} key=${entry.id} entry=${entry} />`)}
            </ul>`}`;
}
