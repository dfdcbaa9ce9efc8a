/* At the door: how warm the dough came, what was refused, the empties. */

import { html, usePerson, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { bareUnit, readNumber, readQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { Dialog } from "../../parts/dialog.js";
import { toast } from "../../parts/toast.js";

function read(texts, parts, units) {
    const errors = {};
    const take = (name, text, reader) => {
        if ((text ?? "").trim() === "")
            return null;
        try {
            return reader(text);
        } catch (problem) {
            errors[name] = problem.message;
            return null;
        }
    };
    const whole = (text) => {
        const n = readNumber(text);
        if (n === null || n < 0 || n !== Math.floor(n))
            throw new Error(t("Write a whole number"));
        return n;
    };
    const refused = parts.map(({ part }) => ({ line_id: part.line_id,
        balls: take(part.line_id, texts[part.line_id], whole),
        reason: (texts.reason ?? "").trim() || null }))
        .filter((one) => one.balls > 0);
    return { errors, request: { refused,
        door_c: take("door_c", texts.door_c, (text) =>
            readQuantity(text, "temperature", bareUnit("temperature", units))),
        boxes_back: take("boxes_back", texts.boxes_back, whole) ?? 0 } };
}

export function Door({ drop, onClose }) {
    const { units } = usePerson();
    const [texts, setTexts] = useState({});
    const parts = drop.pieces.flatMap((piece) =>
        piece.parts.map((part) => ({ piece, part })));
    const { errors, request } = read(texts, parts, units);
    const blank = (name, label, number) => html`
        <${Blank} key=${name} number=${number} name=${label}
            text=${texts[name] ?? ""} error=${errors[name]}
            onType=${(text) => setTexts({ ...texts, [name]: text })} />`;
    async function save() {
        try {
            await write("drop.arrive", { drop_id: drop.drop_id, ...request });
            toast(t("Handed over."));
            onClose();
        } catch (problem) {
            toast(problem.message);
        }
    }
    return html`
        <${Dialog} title=${t("At the door of {outlet}",
        { outlet: drop.outlet })} onClose=${onClose}>
            <div class="paper-cells">
                ${blank("door_c", t("Dough at the door"), true)}
                ${blank("boxes_back", t("Empty boxes back"), true)}
                ${parts.map(({ piece, part }) => blank(part.line_id,
        t("{name}: balls refused", { name: piece.name }), true))}
                ${request.refused.length > 0 && blank("reason",
        t("Why they were refused"))}
            </div>
            <p class="quiet">${t("What is refused is credited and does not " +
        "come back into stock.")}</p>
            <button type="button" class="do" onClick=${save}
                disabled=${Object.keys(errors).length > 0}>
                ${t("It is handed over")}</button>
        <//>`;
}
