/* The whole batch on one page: planned beside what came. */

import { html } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { writeClock } from "../../lib/dates.js";
import { t } from "../../lib/say.js";
import { Choice } from "../../parts/choice.js";
import { Materials } from "../book/materials.js";
import { verdictOn, verdicts } from "../book/words.js";
import { ClosePlan } from "./close.js";
import { Totals } from "./off.js";
import { stateOf } from "./rail.js";
import { mass, nameOf, readingName, temperature } from "./words.js";

function Steps({ walk, onGo }) {
    return html`
        <ol class="steps">${walk.map((stop) => html`
            <li key=${stop.key}>
                <button type="button" class="plain step"
                    onClick=${() => onGo(stop.key)}>
                    <span class="step-words">${nameOf(stop)}</span>
                    <span class="quiet">${stop.row?.done_ms
        ? t("{state} {time}", { state: stateOf(stop)[1],
            time: writeClock(stop.row.done_ms) })
        : stateOf(stop)[1]}</span>
                </button>
            </li>`)}
        </ol>`;
}

function Weighings({ card, units }) {
    return html`
        <table>
            <caption class="only-heard">${t("Weighings")}</caption>
            <thead><tr class="quiet">
                <th scope="col">${t("Ingredient")}</th>
                <th scope="col" class="number">${t("Planned")}</th>
                <th scope="col" class="number">${t("Weighed")}</th>
            </tr></thead>
            <tbody>${card.weighings.map(({ weighing, lot }) => html`
                <tr key=${weighing.id}>
                    <th scope="row">${weighing.material}
                        ${lot && html` <span class="quiet">${t("Lot {code}",
        { code: lot })}</span>`}</th>
                    <td class="number">${mass(weighing.planned_kg, units)}</td>
                    <td class="number">${weighing.weighed_kg === null
        ? "\u2013" : mass(weighing.weighed_kg, units)}</td>
                </tr>`)}
            </tbody>
        </table>`;
}

const CHANGES = {
    water: (one, units) => one.kg > 0
        ? t("{weight} more water", { weight: mass(one.kg, units) })
        : t("{weight} less water", { weight: mass(-one.kg, units) }),
    yeast_type: () => t("Another kind of yeast went in"),
    lot: (one) => t("{material} from another lot",
        { material: one.material ?? "" }),
    forgotten: (one) => t("{material} was forgotten",
        { material: one.material }),
    doubled: (one) => t("{material} went in twice",
        { material: one.material }),
    sliding: () => t("The oil was sliding"),
    abandoned: () => t("The batch was given up"),
    other: (one) => one.note ?? t("Something was off"),
};

function Log({ card, units }) {
    const readings = card.readings.map((one) => ({ at: one.occurred_ms,
        says: t("{name}: {value}", { name: readingName(one.kind) ??
            one.kind, value: temperature(one.celsius, units) }) }));
    const changes = card.changes.map((one) => ({ at: one.occurred_ms,
        says: CHANGES[one.kind](one, units) }));
    const rows = [...readings, ...changes].sort((a, b) => a.at - b.at);
    return html`
        <ul>${rows.map(({ at, says }) => html`
            <li><span class="quiet">${writeClock(at)}</span> ${says}</li>`)}
        </ul>`;
}

/* --- at first use -------------------------------------------------------- */

/* One tap, and it may be left out. */
function Verdicts({ card, onTap }) {
    const { batch, pieces } = card;
    return html`
        <section class="stack">
            <h2 class="section-head">${t("How was it at first use?")}</h2>
            ${pieces.map(({ piece, name }) => html`
                <${Choice} shown key=${piece.id} legend=${name}
                    value=${verdictOn(card.verdicts, piece.product_id)?.verdict}
                    options=${verdicts()}
                    onChoose=${(verdict) => onTap("verdict.save", {
        batch_id: batch.id, product_id: piece.product_id, verdict })} />`)}
        </section>`;
}

export function Whole({ card, walk, units, onGo, onTap }) {
    const { reply: known } = useAnswer("shop.get", {});
    return html`
        <div class="whole bench">
            <section class="stack" aria-labelledby="whole-steps">
                <h2 id="whole-steps" class="section-head">${t("Steps")}</h2>
                <${Steps} walk=${walk} onGo=${onGo} />
            </section>
            <div class="stack-wide">
                <section class="stack">
                    <h2 class="section-head">${t("Weighings")}</h2>
                    <${Weighings} card=${card} units=${units} />
                </section>
                <section class="stack">
                    <h2 class="section-head">${t("In the bowl")}</h2>
                    <${Totals} totals=${card.totals} units=${units} />
                </section>
                ${known && html`
                    <section class="stack">
                        <h2 class="section-head">${t("Materials")}</h2>
                        <${Materials} card=${card} shop=${known.shop}
                            units=${units} />
                    </section>`}
                ${card.readings.length + card.changes.length > 0 && html`
                    <section class="stack">
                        <h2 class="section-head">${t("Read and changed")}</h2>
                        <${Log} card=${card} units=${units} />
                    </section>`}
                <section class="stack">
                    <h2 class="section-head">${t("In the cold room")}</h2>
                    <${ClosePlan} card=${card} units=${units} />
                </section>
                ${card.batch.last_box_ms > 0 && html`
                    <${Verdicts} card=${card} onTap=${onTap} />`}
            </div>
        </div>`;
}
