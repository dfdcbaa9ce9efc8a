/* A number entered with wet hands: keys of 72 px, the usual range in sight.
 * A number outside that range is taken all the same, after saying so. */

import { html, useState } from "../lib/view.js";
import { t } from "../lib/say.js";
import { decimalMark, readNumber, writeNumber } from "../lib/quantity.js";
import { Dialog } from "./dialog.js";

function press(text, key) {
    if (key === "back")
        return text.slice(0, -1);
    if (key === "minus")
        return text.startsWith("\u2212") ? text.slice(1) : `\u2212${text}`;
    if (key === decimalMark() && (text.includes(key) || text === ""))
        return text.includes(key) ? text : `0${key}`;
    return text.length < 9 ? text + key : text;
}

/* low, high: the usual range, in the unit shown; onDone(number). */
export function Pad({ title, unit, low, high, negative, onDone, onClose }) {
    const [text, setText] = useState("");
    const value = readNumber(text);
    const ranged = low !== undefined;
    const out = value !== null && ranged && (value < low || value > high);
    const keys = ["1", "2", "3", "4", "5", "6", "7", "8", "9",
        negative ? "minus" : decimalMark(), "0",
        negative ? decimalMark() : "back"];
    const names = { back: t("Erase the last digit"), minus: t("Minus") };
    const signs = { back: "\u232b", minus: "\u2212" };

    function onKey(event) {
        const key = { Backspace: "back", "-": "minus", ",": decimalMark(),
            ".": decimalMark() }[event.key] ?? event.key;
        if (event.key === "Enter" && value !== null)
            onDone(value);
        else if (/^\d$/.test(key) || names[key] || key === decimalMark())
            setText((was) => press(was, key));
        else
            return;
        event.preventDefault();
    }

    function Key({ name }) {
        return html`
            <button type="button" aria-label=${names[name] ?? name}
                onClick=${() => setText((was) => press(was, name))}>
                ${signs[name] ?? name}
            </button>`;
    }

    return html`
        <${Dialog} title=${title} onClose=${onClose}>
            <div class="pad" onKeyDown=${onKey}>
                <output aria-live="polite">${text || "\u2007"} ${unit}</output>
                ${ranged && html`
                    <p class="range" data-out=${out}>
                        ${out
            ? t("Usually between {low} and {high} {unit}. Look again?",
                { low: writeNumber(low), high: writeNumber(high), unit })
            : t("Usually between {low} and {high} {unit}.",
                { low: writeNumber(low), high: writeNumber(high), unit })}
                    </p>`}
                <div class="keys">
                    ${keys.map((k) => html`<${Key} key=${k} name=${k} />`)}
                    ${negative && html`<${Key} name="back" />`}
                </div>
                <button type="button" class="do" disabled=${value === null}
                    onClick=${() => onDone(value)}>
                    ${out ? t("Use it all the same") : t("Use this")}
                </button>
            </div>
        <//>`;
}
