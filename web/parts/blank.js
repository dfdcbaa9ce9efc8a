/* A blank to write on, as on a paper form: one line of text with its name.
 * What is wrong with it is said under it, and heard with it. */

import { html, useName } from "../lib/view.js";

/* heard: the name is for the ear alone (a table's head shows it); told: the id
 * of the place that says the error, when it is not under the blank; hint: how
 * the text is understood, or what is usual, said while nothing is wrong. */
export function Blank({ name, heard, text, error, told, hint, number,
    onType, ...rest }) {
    const own = useName("blank");
    const id = told ?? own;
    return html`
        <label class="field">
            <span class=${heard ? "only-heard" : ""}>${name}</span>
            <input type="text" autocomplete="off" spellcheck=${false}
                inputmode=${number ? "decimal" : "text"}
                class=${number ? "number" : ""} value=${text}
                aria-invalid=${error ? "true" : null}
                aria-describedby=${error ? id : hint ? own : null}
                onInput=${(event) => onType(event.target.value)}
                onFocus=${(event) => number && event.target.select()}
                ...${rest} />
            ${error && !told && html`<small class="field-error" id=${id}>
                ${error}</small>`}
            ${hint && !error && html`<small class="quiet" id=${own}>
                ${hint}</small>`}
        </label>`;
}
