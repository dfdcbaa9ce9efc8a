/* What the formula comes to. Each number says why when it is touched. */

import { html, useState } from "../../lib/view.js";
import { Why } from "../../parts/why.js";

/* facts: [{ name, value, why: { inputs, equation, source, rule } }] */
export function Facts({ facts }) {
    const [open, setOpen] = useState(null);
    const fact = facts.find((one) => one.name === open);
    return html`
        <dl class="facts">${facts.map((one) => html`
            <div key=${one.name}>
                <dt class="quiet">${one.name}</dt>
                <dd>
                    <button type="button" class="plain ask"
                        aria-haspopup="dialog"
                        onClick=${() => setOpen(one.name)}>
                        ${one.value}
                    </button>
                </dd>
            </div>`)}
        </dl>
        ${fact && html`
            <${Why} title=${fact.name} value=${fact.value} ...${fact.why}
                onClose=${() => setOpen(null)} />`}`;
}
