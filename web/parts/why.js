/* Where a number comes from: what went in, the rule, its source, and what the
 * trade's rule of thumb would have said. */

import { html } from "../lib/view.js";
import { t } from "../lib/say.js";
import { Dialog } from "./dialog.js";

/* inputs: [[name, value text]]; equation, source, rule: sentences or null;
 * children: what may be done about it. */
export function Why({ title, value, inputs, equation, source, rule,
    onClose, children }) {
    return html`
        <${Dialog} beside title=${title} onClose=${onClose}>
            <p class="why-value">${value}</p>
            ${inputs.length > 0 && html`
                <table>
                    <caption class="only-heard">${t("What went in")}</caption>
                    <tbody>${inputs.map(([name, text]) => html`
                        <tr key=${name}>
                            <th scope="row">${name}</th>
                            <td class="number">${text}</td>
                        </tr>`)}
                    </tbody>
                </table>`}
            ${equation && html`<p>${equation}</p>`}
            ${rule && html`<p class="note">
                ${t("The trade's rule: {rule}", { rule })}</p>`}
            ${source && html`<p class="quiet">
                ${t("Source: {source}", { source })}</p>`}
            ${children}
        <//>`;
}
