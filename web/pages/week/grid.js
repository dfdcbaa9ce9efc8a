/* The fourteen columns. */

import { html, useState } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { civilDay, longDay } from "../../lib/dates.js";
import { writeMass } from "./words.js";

const whole = (value) => Math.round(value);

/* Wanted as a band from 10 to 90 %, what is in its window as a bar. */
function Wanted({ product, day, most, name, date, onWhy }) {
    const at = (value) => `${Math.min(100, 100 * value / most)}%`;
    const short = day.lost > 0.5 && day.lost > 0.15 * day.wanted;
    return html`
        <td class=${short ? "short" : ""}>
            <button type="button" class="plain cell" onClick=${() =>
                onWhy({ kind: "wanted", product, day: day.day })}>
                <span class="only-heard">${t("{name}, {day}: {ready} in their window, between {low} and {high} wanted", {
                    name, day: longDay(date), ready: whole(day.ready),
                    low: day.wanted_low, high: day.wanted_high })}</span>
                <span class="track" aria-hidden="true">
                    <span class="band" style=${{ left: at(day.wanted_low),
                        width: at(day.wanted_high - day.wanted_low) }}></span>
                    <span class="have" style=${{ width: at(day.ready) }}>
                    </span>
                    <span class="mean" style=${{ left: at(day.wanted) }}>
                    </span>
                </span>
                <span class="figures" aria-hidden="true">
                    <b>${whole(day.ready)}</b>
                    <small>${day.wanted_low}–${day.wanted_high}</small>
                </span>
            </button>
        </td>`;
}

function ProductRow({ shop, index, onWhy }) {
    const product = shop.plan.products[index];
    const most = Math.max(1, ...product.days.map((day) =>
        Math.max(day.ready, day.wanted_high)));
    return html`
        <tr>
            <th scope="row">${product.name}</th>
            ${product.days.map((day, d) => html`
                <${Wanted} key=${d} product=${index} day=${day} most=${most}
                    name=${product.name} date=${shop.first_day + d}
                    onWhy=${onWhy} />`)}
        </tr>`;
}

/* A batch that can be moved: dragged, by tap and tap, or by the arrow keys. */
function Block({ batch, index, picked, fixed, onPick, onStep }) {
    const text = batch.pieces.map((piece) =>
        `${piece.balls} ${piece.product}`).join(", ");
    if (fixed)
        return html`<li class="block kept" title=${text}>
            <b>${writeMass(batch.dough_kg)}</b>
            <small>${batch.formula}</small>
        </li>`;
    function onKeyDown(event) {
        const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
        if (!step)
            return;
        event.preventDefault();
        onStep(index, step);
    }
    return html`
        <li>
            <button type="button" class="block" draggable=${true}
                id=${`batch-${index}`} aria-pressed=${picked === index}
                title=${text} onKeyDown=${onKeyDown}
                onDragStart=${(event) => {
                    event.dataTransfer.setData("text/plain", String(index));
                    onPick(index);
                }}
                onClick=${() => onPick(picked === index ? null : index)}>
                <b>${writeMass(batch.dough_kg)}</b>
                <small>${batch.formula}</small>
                <span class="only-heard">${text}</span>
            </button>
        </li>`;
}

function MixerRow({ shop, batches, mixer, picked, onPick, onMove }) {
    const kept = shop.keptBatches;
    const step = (index, by) => {
        const to = batches[index].day + by;
        if (to >= 0 && to < shop.days.length)
            onMove(index, to, mixer);
    };
    const drop = (day) => (event) => {
        event.preventDefault();
        onMove(Number(event.dataTransfer.getData("text/plain")), day, mixer);
    };
    return html`
        <tr class="mixer">
            <th scope="row">${mixer}</th>
            ${shop.days.map((day, d) => html`
                <td key=${d} class=${day.open ? "" : "shut"}
                    onDragOver=${(event) => event.preventDefault()}
                    onDrop=${drop(d)}>
                    <ul>
                        ${kept.filter((batch) => batch.day === d &&
                            batch.mixer === mixer).map((batch, i) => html`
                            <${Block} key=${`kept-${i}`} fixed
                                batch=${batch} />`)}
                        ${batches.map((batch, i) => batch.day === d &&
                            batch.mixer === mixer && html`
                            <${Block} key=${i} batch=${batch} index=${i}
                                picked=${picked} onPick=${onPick}
                                onStep=${step} />`)}
                    </ul>
                    ${picked !== null && html`
                        <button type="button" class="plain here"
                            onClick=${() => onMove(picked, d, mixer)}>
                            ${t("Here")}
                            <span class="only-heard">
                                ${longDay(day.day)}, ${mixer}</span>
                        </button>`}
                </td>`)}
        </tr>`;
}

function Bar({ kind, used, limit, name, date, day, onWhy }) {
    const known = limit > 0;
    const over = known && used > limit + 0.5;
    return html`
        <td class=${over ? "short" : ""}>
            <button type="button" class="plain cell"
                onClick=${() => onWhy({ kind, day })}>
                <span class="only-heard">${known
                    ? t("{name}, {day}: {used} of {limit}", { name,
                        day: longDay(date), used: whole(used),
                        limit: whole(limit) })
                    : t("{name}, {day}: {used}", { name, day: longDay(date),
                        used: whole(used) })}</span>
                <span class="track" aria-hidden="true">
                    ${known && html`<span class="have" style=${{ width:
                        `${Math.min(100, 100 * used / limit)}%` }}></span>`}
                </span>
                <span class="figures" aria-hidden="true">
                    <b>${whole(used)}</b>
                    ${over && html`<small>${t("over")}</small>`}
                </span>
            </button>
        </td>`;
}

function BarRow({ shop, kind, name, used, limit, onWhy }) {
    return html`
        <tr>
            <th scope="row">${name}</th>
            ${shop.plan.days.map((day, d) => html`
                <${Bar} key=${d} kind=${kind} name=${name} day=${d}
                    date=${shop.first_day + d} used=${used(day)}
                    limit=${limit(shop.days[d])} onWhy=${onWhy} />`)}
        </tr>`;
}

function Days({ shop }) {
    return html`
        <thead>
            <tr>
                <th scope="col"><span class="only-heard">${t("What")}</span></th>
                ${shop.days.map((day) => html`
                    <th key=${day.day} scope="col">${civilDay(day.day)}</th>`)}
            </tr>
        </thead>`;
}

function Make({ shop, batches, onMake }) {
    return html`
        <tr class="screen-only">
            <td></td>
            ${shop.days.map((day, d) => html`
                <td key=${d}>${batches.some((batch) => batch.day === d) &&
                    html`<button type="button" class="plain"
                        aria-label=${t("Make the batches of {day}",
                            { day: longDay(day.day) })}
                        onClick=${() => onMake(d)}>${t("Make")}</button>`}
                </td>`)}
        </tr>`;
}

export function Grid({ shop, batches, onWhy, onMove, onMake }) {
    const [picked, pick] = useState(null);
    const mixers = shop.plan.days[0].mixers.map((one) => one.mixer);
    const known = { ...shop, keptBatches: shop.plan.batches.filter((one) =>
        one.fixed && !batches.some((mine) => same(mine, one))) };
    function move(index, day, mixer) {
        pick(null);
        onMove(index, day, mixer);
    }
    return html`
        <div class="plan-scroll" tabindex="0" role="region"
            aria-label=${t("The plan by day")}>
            <table class="plan-grid">
                <${Days} shop=${shop} />
                <tbody>
                    ${shop.plan.products.map((product, i) => html`
                        <${ProductRow} key=${product.name} shop=${shop}
                            index=${i} onWhy=${onWhy} />`)}
                </tbody>
                <tbody>
                    ${mixers.map((mixer) => html`
                        <${MixerRow} key=${mixer} shop=${known}
                            batches=${batches} mixer=${mixer} picked=${picked}
                            onPick=${pick} onMove=${move} />`)}
                    <${Make} shop=${shop} batches=${batches} onMake=${onMake} />
                </tbody>
                <tbody>
                    <${BarRow} shop=${shop} kind="slots"
                        name=${t("Cold room")} used=${(day) => day.slots}
                        limit=${() => shop.slots} onWhy=${onWhy} />
                    <${BarRow} shop=${shop} kind="boxes" name=${t("Boxes")}
                        used=${(day) => day.boxes} limit=${() => shop.boxes}
                        onWhy=${onWhy} />
                    <${BarRow} shop=${shop} kind="hands"
                        name=${t("Hands, minutes")}
                        used=${(day) => day.hands_minutes}
                        limit=${(day) => day.hands_minutes} onWhy=${onWhy} />
                </tbody>
            </table>
        </div>`;
}

/* A plan that was only looked at comes back among what is kept. */
function same(mine, other) {
    return mine.day === other.day && mine.mixer === other.mixer &&
        mine.formula === other.formula && mine.dough_kg === other.dough_kg;
}
