/* One batch: planned beside what came, how it was at first use, and what it
 * taught. */

import { html, useEffect, useLoaded, usePerson, useState } from "../../lib/view.js";
import { call } from "../../lib/api.js";
import { useAnswer, useEntries } from "../../lib/answer.js";
import { clock } from "../../lib/clock.js";
import { writeNumber } from "../../lib/quantity.js";
import { businessDay, civilOf } from "../../lib/shoptime.js";
import { t, tn } from "../../lib/say.js";
import { Balls, Temperatures, Times, Weights } from "./beside.js";
import { Materials } from "./materials.js";
import { Verdicts } from "./verdict.js";
import { changeSentence, civilDay, longDay, mass, stateSentence,
    writeClock } from "./words.js";

export function Section({ title, quiet, children }) {
    return html`
        <section class="stack">
            <div class="section-head">
                <h2>${title}</h2>
                ${quiet && html`<span class="quiet">${quiet}</span>`}
            </div>
            ${children}
        </section>`;
}

/* --- the head ------------------------------------------------------------ */

/* A sheet of this batch that was entered and is still on the tablet. */
const waits = (entries, batch) => entries.some(({ op, body, taken_at }) =>
    op === "batch.enter" && taken_at === undefined &&
    JSON.parse(body).batch_id === batch.id);

function Links({ batch }) {
    const waiting = waits(useEntries(), batch);
    return html`
        ${waiting && html`<p class="note">${t("Its paper sheet is on this " +
        "tablet and goes into the book when the shop's computer is back.")}</p>`}
        <div class="row screen-only">
            ${batch.state !== "abandoned" && html`
                <a class="button" href=${`/mix/${batch.id}`}>
                    ${t("Mix card")}</a>`}
            ${batch.state === "planned" && !waiting && html`
                <a class="button" href=${`/book/${batch.id}/sheet`}>
                    ${t("Enter its paper sheet")}</a>`}
            <a class="button" target="_blank"
                href=${`/paper/batch.pdf?id=${batch.id}`}>
                ${t("Batch sheet to print")}</a>
            <a class="button" href=${`/trace/batch/${batch.id}`}>
                ${t("Trace")}</a>
        </div>`;
}

function paperSentence(batch, shop) {
    const { day } = civilOf(batch.entered_ms, shop.zone);
    return t("Entered from paper on {day} at {time}.", { day: civilDay(day),
        time: writeClock(batch.entered_ms) });
}

const loadDifference = () =>
    import("../../parts/difference.js").then((it) => it.Difference);

/* What the formula has become since this batch was made of it. */
function SinceThen({ version_id }) {
    const [open, setOpen] = useState(false);
    const { reply: own } = useAnswer("recipe.get", { version_id });
    const { reply: today } = useAnswer("recipe.get",
        own && { formula_id: own.formula_id });
    const Difference = useLoaded(open ? loadDifference : null);
    return today && today.version_id !== version_id && html`
        <div>
            <button type="button" class="word" aria-expanded=${open}
                onClick=${() => setOpen(!open)}>
                ${t("What has changed up to version {number}",
        { number: today.number })}
            </button>
            ${Difference && html`<${Difference} before=${version_id}
                after=${today.version_id} />`}
        </div>`;
}

function Head({ card, shop }) {
    const { batch } = card;
    const values = { formula: card.formula_name, day: longDay(batch.day),
        version: card.version_number, mixer: card.mixer_name ?? "",
        person: card.person_name ?? "" };
    return html`
        <header class="stack">
            <a class="back" href="/book">${t("Batch book")}</a>
            <h1>${t("Batch {number}", { number: batch.number })}</h1>
            <p class="comes-to">
                ${t("{formula}, version {version}, {day}.", values)}${" "}
                ${stateSentence(batch)}
            </p>
            <p class="quiet">
                ${card.person_name && t("Mixed by {person}.", values)}${" "}
                ${card.mixer_name && t("Mixer: {mixer}.", values)}${" "}
                ${batch.on_paper && paperSentence(batch, shop)}
            </p>
            <${SinceThen} version_id=${batch.version_id} />
            <${Links} batch=${batch} />
        </header>`;
}

/* --- what was off -------------------------------------------------------- */

function totalsSentence({ totals, batch }, units) {
    return t("In the bowl then: {flour} of flour, {dough} of dough, " +
        "absorption {percent} % (planned: {planned} of dough).", {
        flour: mass(totals.flour_kg, units),
        dough: mass(totals.dough_kg, units),
        planned: mass(batch.dough_kg, units),
        percent: writeNumber(totals.hydration_percent, 1) });
}

function Off({ card, units }) {
    const answers = card.steps.filter(({ skipped }) => skipped).length;
    return html`
        <${Section} title=${t("What was off")}>
            ${card.changes.length === 0 &&
                html`<p>${t("Nothing was reported.")}</p>`}
            <ul class="ruled">${card.changes.map((one) => html`
                <li key=${one.id}>
                    <span class="log-time">
                        ${writeClock(one.occurred_ms)}</span>
                    <span>${changeSentence(one, units)} ${one.note}</span>
                </li>`)}
            </ul>
            ${answers > 0 && html`<p>${tn("{n} step was left out.",
        "{n} steps were left out.", answers)}</p>`}
            ${card.batch.started_ms > 0 &&
                html`<p>${totalsSentence(card, units)}</p>`}
            ${card.batch.note && html`<p class="note">${card.batch.note}</p>`}
        <//>`;
}

/* --- what it taught ------------------------------------------------------ */

const kilojoules = (joules) => writeNumber(joules / 1000, 1);

function lessonSentence({ batch, water: { work } }) {
    const values = { work: kilojoules(batch.work_j_per_kg_dough),
        others: kilojoules(work.work_j_per_kg_dough), n: work.n,
        low: kilojoules(work.low_j_per_kg),
        high: kilojoules(work.high_j_per_kg) };
    return work.n > 0
        ? t("The mixer gave {work} kJ to each kilogram of dough. Its other " +
            "{n} batches say {others}, between {low} and {high}.", values)
        : t("The mixer gave {work} kJ to each kilogram of dough. It is the " +
            "first batch of this mixer that says so; the trade's figure was " +
            "{others}.", values);
}

function Taught({ card }) {
    const taught = card.batch.work_j_per_kg_dough !== null;
    return html`
        <${Section} title=${t("What it taught")}>
            <p>${taught ? lessonSentence(card)
        : t("Nothing yet: the dough temperature off the mixer is what a " +
            "batch teaches with.")}</p>
            ${taught && html`<p class="quiet">${t("The work of the mixer " +
        "warms the dough. It is worked out from the temperatures that were " +
        "read, and the next batch's water goes by it.")}</p>`}
        <//>`;
}

/* --- does it add up ------------------------------------------------------ */

/* Balls, scrap and what stuck to the bowl against what was weighed in. */
function useBalance(card, shop) {
    const [balance, set] = useState(null);
    const { batch, pieces } = card;
    const balls_kg = pieces.reduce((sum, { piece }) =>
        sum + (piece.balls_made ?? 0) * piece.ball_kg, 0);
    const request = JSON.stringify({ dough_kg: card.totals.dough_kg, balls_kg,
        scrap_kg: batch.scrap_kg ?? 0,
        residue_kg: batch.residue_kg ?? shop.bowl_residue_kg });
    useEffect(() => {
        if (balls_kg > 0)
            call("batch.balance", JSON.parse(request)).then(set,
                () => set(null));
    }, [request]);
    return balance && { ...JSON.parse(request), ...balance };
}

function Balance({ card, shop, units }) {
    const balance = useBalance(card, shop);
    const scrap = card.batch.scrap_kg;
    return balance && html`
        <p>${scrap === null
        ? t("{balls} of balls and {residue} in the bowl, of {dough} of dough.",
            { balls: mass(balance.balls_kg, units),
                residue: mass(balance.residue_kg, units),
                dough: mass(balance.dough_kg, units) })
        : t("{balls} of balls, {scrap} of scrap and {residue} in the bowl, " +
            "of {dough} of dough.", { scrap: mass(scrap, units),
            balls: mass(balance.balls_kg, units),
            residue: mass(balance.residue_kg, units),
            dough: mass(balance.dough_kg, units) })}</p>
        ${balance.adds_up ? html`<p>${t("It adds up.")}</p>`
        : balance.notes.map((note) => html`
            <p class="slip" key=${note.code}>${note.message}</p>`)}`;
}

/* --- where it went ------------------------------------------------------- */

function Stack({ stack, name }) {
    const days = { ready: civilDay(stack.ready_day),
        best: civilDay(stack.best_day), first: civilDay(stack.use_first_day),
        last: civilDay(stack.last_day) };
    const values = { name, balls: stack.balls, boxes: stack.boxes,
        time: writeClock(stack.closed_ms || stack.close_due_ms) };
    return html`
        <li>
            <p>${stack.closed_ms
        ? t("{name}: {balls} balls in {boxes} boxes, closed at {time}.",
            values)
        : stack.close_due_ms
            ? t("{name}: {balls} balls in {boxes} boxes, close by {time}.",
                values)
            : t("{name}: {balls} balls in {boxes} boxes, open.", values)}</p>
            <dl class="days">
                ${[[t("ready"), days.ready], [t("best"), days.best],
        [t("use first"), days.first], [t("last day"), days.last]]
        .map(([word, day]) => html`
                <div key=${word}><dt>${word}</dt><dd>${day}</dd></div>`)}
            </dl>
        </li>`;
}

function Stacks({ card }) {
    const nameOf = (id) => card.pieces.find(({ piece }) =>
        piece.product_id === id)?.name ?? "";
    return card.stacks.length > 0 && html`
        <${Section} title=${t("In the cold room")}
            quiet=${t("by the trade's clock, a rule of thumb")}>
            <ul class="ruled tall">${card.stacks.map((stack) => html`
                <${Stack} key=${stack.id} stack=${stack}
                    name=${nameOf(stack.product_id)} />`)}
            </ul>
        <//>`;
}

/* --- the page ------------------------------------------------------------ */

export function One({ id }) {
    const { units } = usePerson();
    const { reply: card, refusal } = useAnswer("batch.get", { id });
    const { reply: got } = useAnswer("shop.get", {});
    if (!card || !got)
        return refusal && html`<p class="trouble" role="alert">
            ${refusal.message}</p>`;
    const { shop } = got;
    const with_ = { card, shop, units };
    const made = card.stacks.length > 0 || card.verdicts.length > 0;
    return html`
        <div class="stack-wide batch">
            <${Head} ...${with_} />
            ${made && html`<${Section} title=${t("At first use")}
                quiet=${businessDay(clock.now(), shop) < card.clock.ready_day
        && t("ready from {day}", { day: civilDay(card.clock.ready_day) })}>
                <${Verdicts} card=${card} />
            <//>`}
            <div class="beside-two">
                <div class="stack-wide">
                    <${Section} title=${t("Weights")}>
                        <${Weights} ...${with_} />
                    <//>
                    <${Section} title=${t("Balls")}>
                        <${Balls} ...${with_} />
                        <${Balance} ...${with_} />
                    <//>
                    <${Stacks} ...${with_} />
                </div>
                <div class="stack-wide">
                    <${Section} title=${t("Temperatures")}>
                        <${Temperatures} ...${with_} />
                    <//>
                    <${Section} title=${t("Times")}>
                        <${Times} ...${with_} />
                    <//>
                    <${Off} ...${with_} />
                    <${Section} title=${t("Materials")}>
                        <${Materials} ...${with_} />
                    <//>
                    <${Taught} card=${card} />
                </div>
            </div>
        </div>`;
}
