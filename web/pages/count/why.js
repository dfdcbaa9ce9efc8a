/* Why so many balls are short: what is to be there, what of the balls of now
 * will be good then. From the reply alone. */

import { html, useState } from "../../lib/view.js";
import { civilDay, writeWeekday } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";
import { readinessWord } from "../../life/words.js";
import { Why } from "../../parts/why.js";

const balls = (n) => tn("{n} ball", "{n} balls", n);

export function NeedWhy({ line, onClose }) {
    const day = writeWeekday(line.target_day);
    return html`
        <${Why} title=${line.name} onClose=${onClose}
            value=${t("{n} short", { n: line.need })}
            inputs=${[
        [t("To be there on {day}", { day }), balls(line.build_to)],
        ...line.ages.map((age) => [t("Mixed {day}, {state} now, last day {last}",
            { day: civilDay(age.mixing_day),
                state: readinessWord(age.readiness),
                last: civilDay(age.last_day) }), balls(age.balls)]),
        [t("Of these good on {day}", { day }), balls(line.usable)]]}
            equation=${t("Short is what is to be there on the first day a " +
        "batch of today can be used, less the balls that are inside their " +
        "days then.")}
            rule=${t("have so many, less what was counted")}
            source=${t("The numbers to have are the shop's own, written " +
        "down in Shop; its days are a rule of thumb.")} />`;
}

/* A button that says a sentence and tells why. */
export function AskNeed({ line, children }) {
    const [open, setOpen] = useState(false);
    return html`<button type="button" class="plain ask" aria-haspopup="dialog"
            onClick=${() => setOpen(true)}>${children}</button>
        ${open && html`<${NeedWhy} line=${line}
            onClose=${() => setOpen(false)} />`}`;
}
