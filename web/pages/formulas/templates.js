/* The trade's procedures to start from. */

import { html, useEffect, useState } from "../../lib/view.js";
import { call } from "../../lib/api.js";
import { t } from "../../lib/say.js";
import { Choice } from "../../parts/choice.js";
import { Dialog } from "../../parts/dialog.js";
import { toast } from "../../parts/toast.js";

const templateWords = () => ({
    delayed_oil: t("Delayed oil"), straight: t("Straight"),
    autolyse: t("Autolyse"), poolish: t("Poolish"), biga: t("Biga"),
    sponge: t("Sponge"), bulk_then_ball: t("Bulk, then ball"),
    same_day: t("Same day"), emergency: t("Emergency"),
    cracker: t("Cracker"),
});

export function Templates({ onTake, onClose }) {
    const words = templateWords();
    const [templates, setTemplates] = useState([]);
    const [name, setName] = useState("delayed_oil");
    useEffect(() => {
        call("procedure.templates").then(
            (reply) => setTemplates(reply.templates),
            (refusal) => toast(refusal.message));
    }, []);
    const chosen = templates.find((one) => one.name === name);
    function take() {
        onTake(chosen.steps);
        onClose();
    }
    return html`
        <${Dialog} title=${t("Start from a template")} onClose=${onClose}>
            <${Choice} legend=${t("Template")} value=${name}
                options=${templates.map((one) =>
        [one.name, words[one.name] ?? one.name])}
                onChoose=${setName} />
            <p class="quiet">${t("The steps below are replaced; nothing is " +
        "saved until you save.")}</p>
            <button type="button" class="do" disabled=${!chosen}
                onClick=${take}>
                ${t("Take these steps")}
            </button>
        <//>`;
}
