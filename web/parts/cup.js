/* The witness cup of a batch and the core of a ball: two readings that teach.
 * One tap starts the cup; later a tap takes the mark it has risen to. */

import { html, useState } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { clock } from "../lib/clock.js";
import { inPersonUnits, toCelsius, writeNumber, writeQuantity }
    from "../lib/quantity.js";
import { t } from "../lib/say.js";
import { Pad } from "./pad.js";

/* Warm water tells within the hour. */
const WATER_C = 35;
const START_ML = 100;
const LATE_MS = 30 * 60000;

const degreesOf = (c, units) => Math.round(inPersonUnits(c, units));

function Tile({ name, value, note, onPress }) {
    return html`
        <button type="button" class="reading" aria-haspopup="dialog"
            onClick=${onPress}>
            <span>${name}</span><b>${value}</b><small>${note}</small>
        </button>`;
}

const toldOf = (cup) => cup.message ?? t("Fill to 100 mL; look at it after " +
    "45 minutes and again after an hour.");

/* onTap(op, request) writes. Dough off the mixer for longer is no witness. */
export function Cup({ batch, units, onTap }) {
    const batch_id = batch.id;
    const { reply } = useAnswer("cup.list", { batch_id });
    const [pad, setPad] = useState(null);
    const cup = reply?.cups[0];
    if (!reply || (!cup && batch.stopped_ms > 0 &&
        clock.now() - batch.stopped_ms > LATE_MS))
        return null;
    const unit = units === "us" ? "°F" : "°C";
    function begin(value) {
        setPad(null);
        onTap("cup.begin", { batch_id, start_ml: START_ML,
            place_c: toCelsius(value, units) });
    }
    function look(volume_ml) {
        setPad(null);
        onTap("cup.read", { cup_id: cup.cup.id, volume_ml });
    }
    const mark = cup?.readings.at(-1)?.volume_ml ?? cup?.cup.start_ml;
    return html`
        <${Tile} name=${t("Witness cup")} onPress=${() =>
        setPad(cup ? "look" : "begin")}
            value=${cup ? t("{n} mL", { n: writeNumber(mark, 0) }) : "\u2013"}
            note=${cup ? t("tap: up to which mark now?")
        : t("tap: 100 mL of dough in a marked cup, in warm water")} />
        ${cup && html`<p class=${cup.found === "no_yeast" ? "slip"
        : "aside"} role="status">${toldOf(cup)}</p>`}
        ${pad === "begin" && html`
            <${Pad} title=${t("How warm is the water the cup stands in? " +
        "{water} is best.", { water: writeQuantity(WATER_C, "temperature",
            units) })} unit=${unit} low=${degreesOf(24, units)}
                high=${degreesOf(38, units)} onDone=${begin}
                onClose=${() => setPad(null)} />`}
        ${pad === "look" && html`
            <${Pad} title=${t("Up to which mark has it risen?")} unit="mL"
                whole low=${START_ML} high=${START_ML * 4} onDone=${look}
                onClose=${() => setPad(null)} />`}`;
}

function CorePad({ units, onCore, onClose }) {
    return html`
        <${Pad} title=${t("Core of a ball, deep in the middle")}
            unit=${units === "us" ? "°F" : "°C"} low=${degreesOf(2, units)}
            high=${degreesOf(27, units)} onClose=${onClose}
            onDone=${(value) => onCore(toCelsius(value, units))} />`;
}

/* The core of one of the product's balls in its stack, as a tile of the mix
 * card. */
export function Core({ batch_id, product_id, name, units, onTap }) {
    const [open, setOpen] = useState(false);
    const [read, setRead] = useState(null);
    function onCore(celsius) {
        setOpen(false);
        setRead(celsius);
        onTap("reading.save", { batch_id, product_id, kind: "core_c",
            celsius });
    }
    return html`
        <${Tile} name=${name ? t("Core of a ball, {name}", { name })
        : t("Core of a ball")} onPress=${() => setOpen(true)}
            value=${read === null ? "\u2013"
        : writeQuantity(read, "temperature", units)}
            note=${t("tap: it teaches how fast your stacks cool")} />
        ${open && html`<${CorePad} units=${units} onCore=${onCore}
            onClose=${() => setOpen(false)} />`}`;
}

/* The same as a button under a stack's explanation. */
export function CoreButton({ batch_id, product_id, units, onTap }) {
    const [open, setOpen] = useState(false);
    function onCore(celsius) {
        setOpen(false);
        onTap("reading.save", { batch_id, product_id, kind: "core_c",
            celsius });
    }
    return html`
        <button type="button" aria-haspopup="dialog"
            onClick=${() => setOpen(true)}>${t("Read the core of a ball")}
        </button>
        ${open && html`<${CorePad} units=${units} onCore=${onCore}
            onClose=${() => setOpen(false)} />`}`;
}
