/* One of many words, from the browser's own list. */

import { html } from "../lib/view.js";

/* options: [[value, words]] */
export function Pick({ name, heard, value, options, onPick }) {
    return html`
        <label class=${heard ? "pick" : "field"}>
            <span class=${heard ? "only-heard" : ""}>${name}</span>
            <select onChange=${(event) => onPick(event.target.value)}>
                ${options.map(([one, words]) => html`
                    <option key=${one} value=${one}
                        selected=${one === value}>${words}</option>`)}
            </select>
        </label>`;
}
