/* One of many words, from the browser's own list. */

import { html } from "../lib/view.js";

/* options: [[value, words]]; shows `value` until its owner changes it. */
export function Pick({ name, heard, value, options, onPick }) {
    function pick(event) {
        const picked = event.target.value;
        event.target.value = value;
        onPick(picked);
    }
    return html`
        <label class=${heard ? "pick" : "field"}>
            <span class=${heard ? "only-heard" : ""}>${name}</span>
            <select onChange=${pick}>
                ${options.map(([one, words]) => html`
                    <option key=${one} value=${one}
                        selected=${one === value}>${words}</option>`)}
            </select>
        </label>`;
}
