/* What says that something is due: the life of the balls, the trade's clock, or
 * the shop's days; and why, at a touch. */

import { html, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { writeMoment } from "../../lib/dates.js";
import { t } from "../../lib/say.js";
import { rulesOf, sourceOfRules } from "../../life/words.js";
import { Why } from "../../parts/why.js";
import { CloseWhy } from "../mix/close.js";

export const byWord = (by) => ({ life: t("by the life of the balls"),
    clock: t("by the trade's clock, a rule of thumb"),
    days: t("by the shop's days, a rule of thumb") })[by];

function Close({ one, units, onClose }) {
    const { reply: card } = useAnswer("batch.get", { id: one.batch_id });
    if (!card)
        return null;
    return card.clock.life ? html`<${CloseWhy} clock=${card.clock}
        units=${units} onClose=${onClose} />`
        : html`<${Clock} one=${one} onClose=${onClose} />`;
}

function Clock({ one, onClose }) {
    return html`
        <${Why} title=${t("Why close it then?")} inputs=${[]}
            value=${writeMoment(one.due_ms)} onClose=${onClose}
            equation=${t("A ball of this weight and temperature, put into " +
        "the cold room's air as the last box went in, has the shop's closing " +
        "temperature at its core by then.")}
            source=${t("Cooling of a sphere, docs/models/cooling.md; core 50 " +
        "to 55 °F (10 to 13 °C) before closing: common practice, no " +
        "source.")} />`;
}

function UseFirst({ one, limits, onClose }) {
    const life = one.by === "life";
    return html`
        <${Why} title=${t("Why use it first?")} onClose=${onClose}
            value=${one.due_ms ? t("past from {time}",
        { time: writeMoment(one.due_ms) }) : byWord(one.by)}
            inputs=${[[t("Product"), one.name]]}
            equation=${life ? rulesOf(null, limits).use_first_h
        : t("The shop's days: first from which day after mixing, and until " +
            "which, as set in Shop.")}
            rule=${life ? t("go by the shop's days; both stand side by side " +
        "on the Cold room page") : null}
            source=${life ? sourceOfRules()
        : t("the shop's own days, common practice")} />`;
}

const WHYS = { close: Close, use_first: UseFirst };

/* " · by the life of the balls", to be asked why. */
export function By({ one, limits, units }) {
    const [open, setOpen] = useState(false);
    const Answer = WHYS[one.kind];
    if (!one.by || !Answer)
        return null;
    return html`<button type="button" class="plain ask by"
            aria-haspopup="dialog" onClick=${() => setOpen(true)}>
            ${byWord(one.by)}</button>
        ${open && html`<${Answer} one=${one} limits=${limits}
            units=${units} onClose=${() => setOpen(false)} />`}`;
}
