/* By when the stack is closed: by the life of its balls, the trade's clock
 * beside it, and why the two differ. */

import { html, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { civilDay, writeClock } from "../../lib/dates.js";
import { writeNumber, writeQuantity } from "../../lib/quantity.js";
import { t, tn } from "../../lib/say.js";
import { noLife } from "../../life/words.js";
import { Core, Cup } from "../../parts/cup.js";
import { Why } from "../../parts/why.js";
import { Next } from "./next.js";
import { mass, temperature } from "./words.js";

const MINUTE_MS = 60000;
const ALIKE_MIN = 5;

const span = (from_ms, by_ms) => t("{from} to {by}",
    { from: writeClock(from_ms), by: writeClock(by_ms) });

/* What the trade's clock leaves out, and what that comes to. */
function differs({ life, close_by_ms, has_close }, units) {
    if (!life || !has_close)
        return null;
    const minutes = Math.round((life.by_ms - close_by_ms) / MINUTE_MS);
    const values = { bench: writeQuantity(life.bench_h, "time", units),
        room: temperature(life.room_c, units),
        span: writeQuantity(Math.abs(minutes) / 60, "time", units) };
    if (Math.abs(minutes) < ALIKE_MIN)
        return t("It leaves out {bench} on the bench at {room} and the heat " +
            "of the yeast; here they come to nothing.", values);
    return minutes > 0
        ? t("It is {span} early, for it leaves out {bench} on the bench at " +
            "{room} and the heat of the yeast.", values)
        : t("It is {span} late, for it leaves out {bench} on the bench at " +
            "{room} and the heat of the yeast.", values);
}

export function CloseWhy({ clock, units, onClose }) {
    const { life } = clock;
    return html`
        <${Why} title=${t("Why close it then?")}
            value=${span(life.from_ms, life.by_ms)} onClose=${onClose}
            inputs=${[
        [t("Dough off the mixer"), temperature(life.dough_c, units)],
        [t("Each ball weighs"), mass(life.piece_g / 1000, units)],
        [t("On the bench"), t("{time} at {celsius}", {
            time: writeQuantity(life.bench_h, "time", units),
            celsius: temperature(life.room_c, units) })],
        [t("Cold room"), temperature(life.air_c, units)],
        [t("The open stack gives up heat"), life.open_readings > 0
            ? tn("{h} W/m²K, learned from {n} core probe",
                "{h} W/m²K, learned from {n} core probes",
                life.open_readings, { h: writeNumber(life.open_w_per_m2_k, 1) })
            : t("{h} W/m²K, as set", { h: writeNumber(life.open_w_per_m2_k,
                1) })],
        [t("Close it by, likely between"), t("{low} and {high}", {
            low: writeClock(life.by_early_ms),
            high: writeClock(life.by_late_ms) })]]}
            equation=${t("The core of the heaviest ball is followed from the " +
        "mixer on: heat goes out through its surface, the yeast makes some " +
        "anew. The stack is closed while the core is between the shop's two " +
        "temperatures.")}
            rule=${clock.has_close ? t("{span}, from the dough's temperature " +
        "off the mixer and the last box. {differs}", {
        span: span(clock.close_from_ms, clock.close_by_ms),
        differs: differs(clock, units) }) : null}
            source=${t("The life of a ball, docs/models/life.md and " +
        "answers.md; core 50 to 55 °F (10 to 13 °C) before closing: common " +
        "practice, no source.")} />`;
}

function Times({ plan, shop, units }) {
    const [why, setWhy] = useState(false);
    const { life } = plan;
    const [from_ms, by_ms] = life ? [life.from_ms, life.by_ms]
        : [plan.close_from_ms, plan.close_by_ms];
    return html`
        <p class="amount">${span(from_ms, by_ms)}</p>
        ${shop && html`<p>${t("Close it then: the core of the ball is " +
        "between {low} and {high}.", {
        low: temperature(shop.close_core_low_c, units),
        high: temperature(shop.close_core_high_c, units) })}${" "}
            ${life && html`<button type="button" class="word"
                aria-haspopup="dialog" onClick=${() => setWhy(true)}>
                ${t("Why?")}</button>`}</p>`}
        ${life && plan.has_close && html`<p class="aside">
            ${t("The trade's clock says {span}; it leaves out {bench} on the " +
        "bench at {room} and the heat of the yeast.", {
        span: span(plan.close_from_ms, plan.close_by_ms),
        bench: writeQuantity(life.bench_h, "time", units),
        room: temperature(life.room_c, units) })}</p>`}
        ${!life && plan.no_life && html`<p class="aside">
            ${t("By the trade's clock, a rule of thumb. {why}",
        { why: noLife(plan.no_life) })}</p>`}
        ${why && html`<${CloseWhy} clock=${plan} units=${units}
            onClose=${() => setWhy(false)} />`}`;
}

function Days({ plan }) {
    return html`
        <dl class="days">
            <div><dt>${t("Ready")}</dt><dd>${civilDay(plan.ready_day)}</dd></div>
            <div><dt>${t("Best")}</dt><dd>${civilDay(plan.best_day)}</dd></div>
            <div><dt>${t("Last day")}</dt>
                <dd>${civilDay(plan.last_day)}</dd></div>
        </dl>`;
}

/* What teaches while the stack stands open. */
function Teaches({ card, units, onTap }) {
    const one = card.stacks.length === 1;
    return html`
        <div class="readings">
            ${card.stacks.map(({ id, product_id }) => html`
                <${Core} key=${id} batch_id=${card.batch.id} units=${units}
                    product_id=${product_id} onTap=${onTap}
                    name=${one ? null : card.pieces.find(({ piece }) =>
        piece.product_id === product_id)?.name} />`)}
            <${Cup} batch=${card.batch} units=${units} onTap=${onTap} />
        </div>`;
}

/* onTap: without it nothing is asked for. */
export function ClosePlan({ card, units, onTap }) {
    const { reply: known } = useAnswer("shop.get", {});
    const plan = card.clock;
    const told = plan.has_close || plan.life;
    return html`
        ${told && html`<${Times} plan=${plan} shop=${known?.shop}
            units=${units} />`}
        ${!told && card.batch.last_box_ms > 0 && html`
            <p class="slip">${t("The cold room is too warm to say when to " +
        "close: take the temperature of a ball's core.")}</p>`}
        <${Days} plan=${plan} />
        ${onTap && html`<${Teaches} card=${card} units=${units}
            onTap=${onTap} />`}
        <p class="aside">${t("Days are a rule of thumb of the trade. Dates " +
        "and cold-room temperatures follow your local code.")}</p>`;
}

export function CloseScreen({ card, stop, units, onTap, onMark }) {
    return html`
        <${ClosePlan} card=${card} units=${units} onTap=${onTap} />
        <${Next}><button type="button" class="do big"
            onClick=${() => onMark(stop, "done")}>
            ${t("The stack is closed")}</button><//>`;
}
