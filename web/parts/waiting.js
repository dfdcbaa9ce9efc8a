/* What people did that the server has not taken yet, and what it refused. */

import { html } from "../lib/view.js";
import { outbox } from "../lib/api.js";
import { writeClock } from "../lib/dates.js";
import { t } from "../lib/say.js";

function Refused({ entry }) {
    return html`
        <li class="slip stack" data-level="wrong">
            <p>${t("Entered at {time} ({what}): {why}", { time: writeClock(entry.occurred_ms),
        what: entry.op, why: entry.refusal.message })}</p>
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
        ${!online && html`<p>${t("The server cannot be reached. What you " +
        "enter is kept on this tablet and sent in order when it can.")}</p>`}
        ${online && !waiting.length && !refused.length && html`
            <p>${t("Everything has arrived.")}</p>`}
        ${waiting.length > 0 && html`
            <ol class="stack">${waiting.map((entry) => html`
                <li key=${entry.id}>${t("Entered at {time}: {what}",
            { time: writeClock(entry.occurred_ms), what: entry.op })}</li>`)}
            </ol>`}
        ${refused.length > 0 && html`
            <ul class="stack">${refused.map((entry) => html`
                <${Refused} key=${entry.id} entry=${entry} />`)}
            </ul>`}`;
}
