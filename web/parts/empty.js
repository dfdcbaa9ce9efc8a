/* A page with nothing on it yet teaches: what it is for, what to do first. */

import { html } from "../lib/view.js";

export function Empty({ title, text, button, onPress }) {
    return html`
        <section class="empty stack">
            <h2>${title}</h2>
            <p>${text}</p>
            ${button && html`
                <button type="button" class="do" onClick=${onPress}>
                    ${button}
                </button>`}
        </section>`;
}
