/* The pad beside the list: which shelf is meant, what is expected there, and
 * keys for wet hands. It stays open from the first row to the last. */

import { html } from "../../lib/view.js";
import { civilDay } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";
import { ballsOf } from "./tally.js";

const KEYS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "boxes", "0",
    "back"];

function typedSentence(typed, per_box) {
    if (typed.boxes === null)
        return typed.digits;
    const boxes = tn("{n} box", "{n} boxes", typed.boxes);
    return typed.digits
        ? t("{boxes} + {rest} = {balls}", { boxes, rest: typed.digits,
            balls: ballsOf(typed, per_box) })
        : t("{boxes} = {balls}", { boxes, balls: ballsOf(typed, per_box) });
}

function Key({ name, onPress }) {
    const words = { boxes: t("boxes"), back: "\u232b" };
    return html`
        <button type="button" class=${name === "boxes" ? "key-word" : ""}
            aria-label=${name === "back" ? t("Erase the last digit") : null}
            onClick=${() => onPress(name)}>${words[name] ?? name}</button>`;
}

export function CountPad({ row, name, typed, onPress, onNext }) {
    const balls = ballsOf(typed, row.per_box);
    return html`
        <section class="count-pad pad" aria-label=${t("Number pad")}>
            <h2>${name}
                <small class="quiet">${t("mixed {day}, {n} in a box",
        { day: civilDay(row.mixing_day), n: row.per_box })}</small></h2>
            <output aria-live="polite" data-typed=${balls !== null}>
                ${balls === null ? row.expected
        : typedSentence(typed, row.per_box)}</output>
            <div class="keys">${KEYS.map((key) => html`
                <${Key} key=${key} name=${key} onPress=${onPress} />`)}
            </div>
            <button type="button" class="do big" onClick=${onNext}>
                ${balls === null
        ? t("The same: {n}", { n: row.expected })
        : t("{n}, next", { n: balls })}</button>
        </section>`;
}
