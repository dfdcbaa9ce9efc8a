/* How much: a sentence with blanks, and what it comes to. */

import { html } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { LOADING } from "../../lib/quantity.js";
import { Blank } from "../../parts/blank.js";
import { Choice } from "../../parts/choice.js";
import { newPan, newPiece, typeField } from "./target.js";
import { mass } from "./words.js";

function ways() {
    return [["flour", t("flour")], ["dough", t("dough")], ["bags", t("bags")],
        ["pieces", t("balls")], ["pans", t("pans")]];
}

function Entry({ name, one, units, onOne }) {
    return html`<${Blank} number name=${name} text=${one.text}
        error=${one.error}
        onType=${(text) => onOne(typeField(one, text, units))} />`;
}

/* Rows of one list (pieces, pans) with the last one's remove and an add. */
function Rows({ list, fieldsFor, onList, more, make, units }) {
    function set(row, name, one) {
        onList(list.map((was) => was === row
            ? { ...was, [name]: one } : was));
    }
    return html`
        ${list.map((row) => html`
            <div class="blanks" key=${row.key}>
                ${fieldsFor(row).map(([name, words]) => html`
                    <${Entry} key=${name} name=${words} one=${row[name]}
                        units=${units}
                        onOne=${(one) => set(row, name, one)} />`)}
                ${list.length > 1 && html`
                    <button type="button" class="plain"
                        onClick=${() => onList(list.filter((one) =>
        one !== row))}>${t("Remove")}</button>`}
            </div>`)}
        <button type="button" class="word screen-only"
            onClick=${() => onList([...list, make(units)])}>${more}</button>`;
}

function Pieces({ target, units, onTarget }) {
    return html`<${Rows} list=${target.pieces} units=${units}
        fieldsFor=${() => [["count", t("How many")],
        ["piece", t("Each weighs")]]}
        onList=${(pieces) => onTarget({ pieces })}
        more=${t("Add another size")} make=${newPiece} />`;
}

function panFields(pan, units) {
    const size = pan.shape === "round"
        ? [["diameter", t("Across")]]
        : [["length", t("Long")], ["width", t("Wide")]];
    return [["count", t("How many")], ...size, ["loading",
        t("Dough, {unit}", { unit: LOADING[units].name })]];
}

function Pans({ target, units, onTarget }) {
    const round = target.pans[0].shape === "round";
    return html`
        <${Choice} legend=${t("Shape of the pan")}
            value=${round ? "round" : "rectangle"}
            options=${[["round", t("Round")], ["rectangle",
        t("Rectangular")]]}
            onChoose=${(shape) => onTarget({ pans: target.pans.map((pan) =>
        ({ ...pan, shape })) })} />
        <${Rows} list=${target.pans} units=${units}
            fieldsFor=${(pan) => panFields(pan, units)}
            onList=${(pans) => onTarget({ pans })}
            more=${t("Add another pan")}
            make=${(u) => ({ ...newPan(u), shape: target.pans[0].shape })} />`;
}

/* One blank or two, side by side with what is lost. */
function simple(by) {
    return { flour: [["flour", t("Flour to use")]],
        dough: [["dough", t("Dough to end up with")]],
        bags: [["bags", t("How many bags")], ["bag", t("A bag holds")]],
    }[by] ?? [];
}

function comesTo(scaled, units) {
    const flour = mass(scaled.flour_kg, units);
    const dough = mass(scaled.dough_kg, units);
    return scaled.usable_kg < scaled.dough_kg
        ? t("{flour} of flour makes {dough} of dough, {usable} of it usable.",
            { flour, dough, usable: mass(scaled.usable_kg, units) })
        : t("{flour} of flour makes {dough} of dough.", { flour, dough });
}

export function Make({ target, scaled, units, onTarget }) {
    const blanks = [...simple(target.by), ["loss", t("Lost on the way, %")]];
    return html`
        <section class="stack" aria-labelledby="make-head">
            <div class="section-head">
                <h2 id="make-head">${t("How much")}</h2>
                <button type="button" class="word screen-only"
                    onClick=${() => print()}>${t("Print")}</button>
            </div>
            <div class="screen-only stack">
                <${Choice} legend=${t("Reckon from")} value=${target.by}
                    options=${ways()} onChoose=${(by) => onTarget({ by })} />
                ${target.by === "pieces" && html`
                    <${Pieces} ...${{ target, units, onTarget }} />`}
                ${target.by === "pans" && html`
                    <${Pans} ...${{ target, units, onTarget }} />`}
                <div class="blanks">${blanks.map(([name, words]) => html`
                    <${Entry} key=${name} name=${words} one=${target[name]}
                        units=${units}
                        onOne=${(one) => onTarget({ [name]: one })} />`)}
                </div>
            </div>
            ${scaled && html`
                <p class="comes-to">${comesTo(scaled, units)}</p>`}
        </section>`;
}
