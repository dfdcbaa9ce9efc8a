/* One of a few words. */

import { html, useName } from "../lib/view.js";

/* options: [[value, words]]; the legend is heard, and seen when `shown`. */
export function Choice({ legend, shown, value, options, onChoose }) {
    const name = useName("choice");
    return html`
        <fieldset>
            <legend class=${shown ? "quiet" : "only-heard"}>${legend}</legend>
            <div class="choice">${options.map(([one, words]) => html`
                <label key=${one}>
                    <input type="radio" name=${name} value=${one}
                        checked=${one === value}
                        onChange=${() => onChoose(one)} />
                    <span>${words}</span>
                </label>`)}
            </div>
        </fieldset>`;
}
