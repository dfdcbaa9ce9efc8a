/* "96 balls of 14 oz and 60 of 10 oz": how many of each, and the batches that
 * makes, looked at before they are kept. */

import { html, useEffect, useMemo, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { latest } from "../../lib/api.js";
import { writeClock } from "../../lib/dates.js";
import { zone } from "../../lib/person.js";
import { civilOf, momentOf } from "../../lib/shoptime.js";
import { t, tn } from "../../lib/say.js";
import { Choice } from "../../parts/choice.js";
import { Pad } from "../../parts/pad.js";
import { Pick } from "../../parts/pick.js";
import { keepBatches } from "./keep.js";
import { Preview } from "./preview.js";

function Wanted({ product, balls, onBalls }) {
    const [pad, setPad] = useState(false);
    const short = product.need > 0 && balls === 0;
    return html`
        <li>
            <span class="wanted-name">${product.name}
                <small class="quiet">${tn("{n} ball there",
        "{n} balls there", product.balls)}</small></span>
            ${short && html`
                <button type="button" class="word"
                    onClick=${() => onBalls(product.need)}>
                    ${t("{n} short", { n: product.need })}</button>`}
            <button type="button" class="wanted" aria-haspopup="dialog"
                aria-label=${t("{name}: {balls} wanted",
        { name: product.name, balls })}
                onClick=${() => setPad(true)}>${balls || "\u2013"}</button>
            ${pad && html`
                <${Pad} title=${t("How many {name}?", { name: product.name })}
                    unit=${t("balls")} whole
                    onDone=${(n) => { setPad(false); onBalls(Math.round(n)); }}
                    onClose=${() => setPad(false)} />`}
        </li>`;
}

/* --- how ----------------------------------------------------------------- */

/* A time of day typed as 14:30 is the next one that comes on the shop's clock.
 */
function startOf(text, now_ms) {
    const found = /^(\d{1,2}):(\d{2})$/.exec(text);
    if (!found)
        return 0;
    const minutes = Number(found[1]) * 60 + Number(found[2]);
    const { day } = civilOf(now_ms, zone());
    const today_ms = momentOf(day, minutes, zone());
    return today_ms < now_ms - 3600000
        ? momentOf(day + 1, minutes, zone()) : today_ms;
}

function How({ how, mixers, onHow }) {
    return html`
        <div class="blanks how">
            <label class="field">
                <span>${t("First mix")}</span>
                <input type="time" value=${how.start}
                    onInput=${(event) => onHow({ start: event.target.value })} />
            </label>
            ${mixers.length > 1 && html`
                <${Pick} name=${t("Mixer")} value=${how.mixer_id}
                    options=${mixers.map(({ id, name }) => [id, name])}
                    onPick=${(id) => onHow({ mixer_id: Number(id) })} />`}
            <${Choice} legend=${t("Batches")} value=${how.split}
                options=${[["standard", t("Your usual sizes")],
        ["equal", t("Equal batches")]]}
                onChoose=${(split) => onHow({ split })} />
            <${Choice} legend=${t("In which order")} value=${how.order}
                options=${[["given", t("As it comes")],
        ["small_first", t("Small balls first")],
        ["large_first", t("Large balls first")]]}
                onChoose=${(order) => onHow({ order })} />
        </div>`;
}

/* --- looking and keeping ------------------------------------------------- */

function requestOf(wanted, how, now_ms) {
    const pieces = Object.entries(wanted).filter(([, balls]) => balls > 0)
        .map(([id, balls]) => ({ product_id: Number(id), balls }));
    return pieces.length ? { pieces, split: how.split, order: how.order,
        mixer_id: how.mixer_id, start_ms: startOf(how.start, now_ms) } : null;
}

/* { plan, refusal } of the newest question. */
function usePreview(request) {
    const ask = useMemo(() => latest("batch.preview"), []);
    const [state, set] = useState({ plan: null, refusal: null });
    useEffect(() => {
        if (!request)
            return set({ plan: null, refusal: null });
        ask(request).then(
            (plan) => plan && set({ plan, refusal: null }),
            (refusal) => set({ plan: null, refusal }));
        return undefined;
    }, [JSON.stringify(request)]);
    return state;
}

/* linked: balls by product that a link ordered. */
export function Order({ today, units, linked, onClose }) {
    const { reply: shop } = useAnswer("shop.get", {});
    const [wanted, setWanted] = useState(linked);
    const [how, setHow] = useState({ split: "standard", order: "given",
        mixer_id: 0, start: "" });
    const mixers = (shop?.mixers ?? []).filter((one) => one.here);
    const request = requestOf(wanted, how, today.now_ms);
    const { plan, refusal } = usePreview(request);

    async function keep() {
        if (!await keepBatches(request))
            return;
        setWanted({});
        onClose();
    }

    return html`
        <section class="stack order" aria-labelledby="order-head">
            <h2 id="order-head" class="section-head">${t("Order balls")}
                <button type="button" class="word" onClick=${onClose}>
                    ${t("Put it away")}</button></h2>
            ${today.stock.length === 0 && html`
                <p>${t("The shop makes no product yet. Enter one under " +
            "Shop.")}</p>`}
            <ul class="wanted-list">${today.stock.map((product) => html`
                <${Wanted} key=${product.product_id} product=${product}
                    balls=${wanted[product.product_id] ?? 0}
                    onBalls=${(balls) => setWanted((was) =>
        ({ ...was, [product.product_id]: balls }))} />`)}
            </ul>
            <${How} how=${{ ...how,
        mixer_id: how.mixer_id || mixers[0]?.id || 0 }} mixers=${mixers}
                onHow=${(change) => setHow((was) => ({ ...was, ...change }))} />
            ${refusal && html`
                <p class="trouble" role="alert">${refusal.message}</p>`}
            ${plan && request && html`
                <${Preview} plan=${plan} units=${units}
                    onStart=${(ms) => setHow((was) =>
        ({ ...was, start: writeClock(ms) }))}
                    onOrder=${(order) => setHow((was) => ({ ...was, order }))} />
                <button type="button" class="do big" onClick=${keep}>
                    ${tn("Make this batch", "Make these {n} batches",
        plan.batches.length)}</button>`}
        </section>`;
}
