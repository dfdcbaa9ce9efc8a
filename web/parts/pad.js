/* A number entered with wet hands: keys of 72 px, the usual range in sight.
 * A number outside that range is taken all the same, after saying so. */

import { html, useState } from "../lib/view.js";
import { t } from "../lib/say.js";
import { readNumber, writeNumber } from "../lib/quantity.js";
import { Dialog } from "./dialog.js";

function press(text, key) {
    if (key === "back")
        return text.slice(0, -1);
    if (key === "minus")
        return text.startsWith("\u2212") ? text.slice(1) : `\u2212${text}`;
    if (key === "." && (text.includes(key) || text === ""))
        return text.includes(key) ? text : `0${key}`;
    return text.length < 9 ? text + key : text;
}

const SIGNS = { back: "\u232b", minus: "\u2212" };

function Key({ name, onPress }) {
    const heard = { back: t("Erase the last digit"), minus: t("Minus") };
    return name === "" ? html`<span></span>` : html`
        <button type="button" aria-label=${heard[name] ?? name}
            onClick=${() => onPress(name)}>
            ${SIGNS[name] ?? name}
        </button>`;
}

/* low, high: the usual range, in the unit shown; whole: no decimals;
 * onDone(number). The pad has the focus, so a keyboard's digits work at once. */
export function Pad({ title, unit, low, high, negative, whole, onDone,
    onClose }) {
    const [text, setText] = useState("");
    const value = readNumber(text);
    const ranged = low !== undefined;
    const out = value !== null && ranged && (value < low || value > high);
    const keys = ["1", "2", "3", "4", "5", "6", "7", "8", "9",
        negative ? "minus" : whole ? "" : ".", "0",
        negative ? "." : "back"];
    const onPress = (key) => setText((was) => press(was, key));

    function onKey(event) {
        const key = { Backspace: "back", "-": "minus", ",": "." }[event.key] ??
            event.key;
        const onButton = event.target.tagName === "BUTTON";
        if (event.key === "Enter" && !onButton && value !== null)
            onDone(value);
        else if (/^\d$/.test(key) || SIGNS[key] || (key === "." && !whole))
            onPress(key);
        else
            return;
        event.preventDefault();
    }

    return html`
        <${Dialog} title=${title} onClose=${onClose}>
            <div class="pad" tabindex="-1" autofocus onKeyDown=${onKey}>
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
                    ${keys.map((k) => html`
                        <${Key} key=${k} name=${k} onPress=${onPress} />`)}
                    ${negative && html`
                        <${Key} name="back" onPress=${onPress} />`}
                </div>
                <button type="button" class="do" disabled=${value === null}
                    onClick=${() => onDone(value)}>
                    ${out ? t("Use it all the same") : t("Use this")}
                </button>
            </div>
        <//>`;
}
