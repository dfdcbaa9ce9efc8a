/* Trace: where a lot or a batch went, and what is in it. The shops first, then
 * the picture, then both ways as lists, then what does not add up.
 * /trace/lot/3, /trace/batch/7, /trace/stack/2, /trace/drop/5. */

import { html, useEffect, usePerson, useState } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { write } from "../lib/api.js";
import { clock } from "../lib/clock.js";
import { dateOfDay, writeMoment } from "../lib/dates.js";
import { writeQuantity } from "../lib/quantity.js";
import { go } from "../lib/route.js";
import { t, tn } from "../lib/say.js";
import { Empty } from "../parts/empty.js";
import { toast } from "../parts/toast.js";
import { Picture } from "./trace/picture.js";
import { kindWord, linkTo, nameOf, verdictWord } from "./trace/words.js";

const ASKED = { lot: "lot_id", batch: "batch_id", stack: "stack_id",
    drop: "drop_id", minors: "minors_lot_id" };

const mass = (kg, units) => writeQuantity(kg, "mass", units);
const atLeast = (place, units) => place.at_least
    ? t("at least {mass}", { mass: mass(place.kg, units) })
    : mass(place.kg, units);

/* --- which lot ------------------------------------------------------------ */

function Lots({ rows, units }) {
    return html`
        <table class="ledger">
            <thead><tr>
                <th scope="col" class="quiet">${t("lot")}</th>
                <th scope="col" class="quiet">${t("came")}</th>
                <th scope="col" class="number quiet">${t("used")}</th>
            </tr></thead>
            <tbody>${rows.map(({ lot, material, source, used_kg }) => html`
                <tr key=${lot.id}>
                    <th scope="row"><a href=${`/trace/lot/${lot.id}`}>
                        ${material} ${lot.code}</a>
                        ${(source || lot.supplier) && html`<small>
                            ${source ? t("kept from {batch}",
        { batch: source }) : lot.supplier}</small>`}</th>
                    <td>${writeMoment(lot.received_ms)}
                        ${lot.best_before_day > 0 && html`<small>
                            ${t("best before {day}", {
        day: dateOfDay(lot.best_before_day) })}</small>`}</td>
                    <td class="number">${mass(used_kg, units)}</td>
                </tr>`)}</tbody>
        </table>`;
}

function Start({ units }) {
    const { reply, refusal } = useAnswer("lot.list", {});
    return html`
        <div class="column stack-wide">
            <div class="stack">
                <h1>${t("Trace")}</h1>
                <p>${t("Which lot came back? Tap it: every batch, stack and " +
        "shop that has some of it, and the scrap that carried it on. A " +
        "batch is traced from the batch book.")}</p>
            </div>
            ${!reply && refusal && html`<p class="trouble" role="alert">
                ${refusal.message}</p>`}
            ${reply && !reply.rows.length && html`
                <${Empty} title=${t("No lot has come yet")}
                    text=${t("Enter goods on Shop under Lots when they come " +
        "and name the lot at each weighing; then every ball can be followed.")}
                    button=${t("Go to Shop")} onPress=${() => go("/shop")} />`}
            ${reply?.rows.length > 0 && html`
                <${Lots} rows=${reply.rows} units=${units} />`}
        </div>`;
}

/* --- one trace ------------------------------------------------------------ */

function Shops({ found, units }) {
    return html`
        <section class="stack">
            <h2>${tn("{n} place has some of it", "{n} places have some of it",
        found.shops.length)}</h2>
            ${found.sent_unknown && html`<p class="trouble">
                ${t("Some was sent, and nobody wrote where.")}</p>`}
            ${found.shops.length > 0 && html`
            <table class="ledger">
                <tbody>${found.shops.map((shop) => html`
                    <tr key=${shop.outlet_id}>
                        <th scope="row">${shop.name ?? t("used here")}
                            ${shop.shipments > 0 && html`<small>
                                ${tn("{n} shipment, the last {time}",
        "{n} shipments, the last {time}", shop.shipments,
        { time: writeMoment(shop.last_ms) })}</small>`}</th>
                        <td class="number">${atLeast(shop, units)}</td>
                    </tr>`)}</tbody>
            </table>`}
        </section>`;
}

function Places({ title, none, places, nodes, units }) {
    return html`
        <section class="stack">
            <h2>${title}</h2>
            ${places.length === 0 ? html`<p class="quiet">${none}</p>` : html`
            <table class="ledger">
                <tbody>${places.map((place) => {
        const node = nodes[place.node];
        const href = linkTo(node);
        return html`
                    <tr key=${place.node}>
                        <th scope="row">${href
        ? html`<a href=${href}>${nameOf(node)}</a>` : nameOf(node)}
                            <small>${kindWord(node.kind)}${node.at_ms > 0 &&
                                `, ${writeMoment(node.at_ms)}`}</small></th>
                        <td class="number">${atLeast(place, units)}</td>
                    </tr>`;
    })}</tbody>
            </table>`}
        </section>`;
}

function Masses({ found, units }) {
    const open = found.balances.filter(({ verdict }) =>
        verdict !== "closes" && verdict !== "rest_left");
    return html`
        <section class="stack">
            <h2>${t("Does it add up?")}</h2>
            ${open.length === 0 ? html`<p>${t("What went in is what came " +
        "out, was thrown away or is left, within 2 %, at each step.")}</p>`
        : html`<ul class="stack">${open.map((one) => html`
                <li key=${one.node}><b>${nameOf(found.nodes[one.node])}</b>:
                    ${" "}${verdictWord(one, (kg) => mass(kg, units))}</li>`)}
            </ul>`}
        </section>`;
}

/* A drill: how long does it take until everybody was told? */
function Drill({ request }) {
    const { reply } = useAnswer("recall.list", {});
    const running = reply?.drills.find(({ drill }) => !drill.stopped_ms &&
        drill.lot_id === (request.lot_id ?? 0) &&
        drill.batch_id === (request.batch_id ?? 0));
    const [now, setNow] = useState(clock.now());
    useEffect(() => {
        const timer = setInterval(() => setNow(clock.now()), 1000);
        return () => clearInterval(timer);
    }, []);
    if (!reply)
        return null;
    if (!running)
        return html`<button type="button" onClick=${() =>
            write("recall.start", request)}>${t("Start a recall drill")}
        </button>`;
    const seconds = Math.max(0,
        Math.floor((now - running.drill.started_ms) / 1000));
    const stop = async () => {
        await write("recall.stop", { id: running.drill.id });
        toast(t("The drill is kept with its time."));
    };
    return html`
        <div class="section-head">
            <b class="trace-clock" role="timer">
                ${Math.floor(seconds / 60)}:${String(seconds % 60)
        .padStart(2, "0")}</b>
            <button type="button" class="do" onClick=${stop}>
                ${t("All was found")}</button>
        </div>`;
}

function Found({ kind, id, units }) {
    const request = { [ASKED[kind]]: id };
    const { reply, refusal } = useAnswer("trace.lot", request);
    if (!reply)
        return html`<div class="column stack"><h1>${t("Trace")}</h1>
            ${refusal && html`<p class="trouble" role="alert">
                ${refusal.message}</p>`}</div>`;
    const [of] = reply.nodes;
    return html`
        <div class="stack-wide">
            <div class="stack">
                <a class="back" href="/trace">${t("All lots")}</a>
                <h1>${nameOf(of)}</h1>
                <p class="quiet">${kindWord(of.kind)}, ${
        writeMoment(of.at_ms)}</p>
                ${(kind === "lot" || kind === "batch") && html`
                    <${Drill} request=${request} />`}
                ${kind === "lot" && html`
                    <div class="row screen-only">
                        <a class="button" target="_blank"
                            href=${`/paper/recall.pdf?id=${id}`}>
                            ${t("Print the report")}</a>
                    </div>`}
            </div>
            <${Shops} found=${reply} units=${units} />
            <${Picture} found=${reply} write=${(kg) => mass(kg, units)} />
            <${Places} title=${t("Where it went")}
                none=${t("Nowhere yet.")} places=${reply.forward}
                nodes=${reply.nodes} units=${units} />
            <${Places} title=${t("What is in it")}
                none=${t("It came from outside.")} places=${reply.backward}
                nodes=${reply.nodes} units=${units} />
            <${Masses} found=${reply} units=${units} />
        </div>`;
}

export function Page({ path }) {
    const { units } = usePerson();
    const [, , kind, id] = path.split("/");
    return kind in ASKED && Number(id) > 0 ? html`
        <${Found} key=${path} kind=${kind} id=${Number(id)} units=${units} />`
        : html`<${Start} units=${units} />`;
}
