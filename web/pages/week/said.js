/* What the plan says in words: its cost, what is short and why, which limit
 * binds and what a little more of it would save. */

import { html } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { civilDay } from "../../lib/dates.js";
import { writeMoney } from "./words.js";

function limitText(shop, limit) {
    const values = {
        saves: writeMoney(limit.saves, shop.currency),
        days: limit.days.map((d) => civilDay(shop.first_day + d)).join(", "),
        mixer: limit.mixer,
    };
    return {
        boxes: () => t("The boxes are all in use on {days}. One more would save {saves}.", values),
        slots: () => t("The cold room is full on {days}. One more place would save {saves}.", values),
        hands: () => t("The hands are all busy on {days}. An hour more each day would save {saves}.", values),
        mixer: () => t("{mixer} is full on {days}. An hour more each day would save {saves}.", values),
    }[limit.limit]();
}

const REASONS = () => ({
    short_too_late: t("no day of the plan makes them in time"),
    short_mixer: t("the mixers are full on the days before"),
    short_hands: t("the hands are all busy on the days before"),
    short_boxes: t("there are no more boxes"),
    short_slots: t("the cold room is full"),
    short: t("making them would cost more than it brings"),
});

/* What is short, a sentence for each day and reason; the rest as it is said. */
function sentences(shop) {
    const reasons = REASONS(), short = new Map(), rest = [];
    for (const note of shop.plan.notes) {
        if (!reasons[note.code]) {
            rest.push(note.message ?? note.code);
            continue;
        }
        const key = `${note.limit} ${note.code}`;
        const one = short.get(key) ?? { note, balls: [] };
        one.balls.push(`${Math.round(note.value)} ${note.subject}`);
        short.set(key, one);
    }
    return [...[...short.values()].map(({ note, balls }) =>
        t("{day}: short of {balls}; {reason}.", {
            day: civilDay(shop.first_day + note.limit - 1),
            balls: balls.join(", "), reason: reasons[note.code] })), ...rest];
}

export function Said({ shop, onWhy }) {
    const plan = shop.plan, said = sentences(shop);
    return html`
        <section class="stack said">
            <p>
                <button type="button" class="plain"
                    onClick=${() => onWhy({ kind: "cost" })}>
                    ${t("Expected cost of these days: {cost}",
                        { cost: writeMoney(plan.cost, shop.currency) })}
                </button>
            </p>
            ${said.length > 0 && html`
                <ul>${said.map((text, i) => html`<li key=${i}>${text}</li>`)}
                </ul>`}
            ${plan.limits.length > 0 && html`
                <h2>${t("What limits the plan")}</h2>
                <ul>${plan.limits.map((limit, i) => html`
                    <li key=${i}>${limitText(shop, limit)}</li>`)}
                </ul>`}
        </section>`;
}
