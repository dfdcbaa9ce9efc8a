/* The batch book reads like a log: the newest day first, so many batches at a
 * time, further back when asked. The shop's computer finds; only what is shown
 * is loaded. */

import { html, usePerson, useRef, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { clock } from "../../lib/clock.js";
import { go } from "../../lib/route.js";
import { businessDay } from "../../lib/shoptime.js";
import { t, tn } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { Empty } from "../../parts/empty.js";
import { Pick } from "../../parts/pick.js";
import { useAnswer as useReckoned } from "../formulas/reckon.js";
import { Ball } from "./ball.js";
import { ballsSentence, doughSentence, longDay, stateSentence, verdictOn,
    verdicts, verdictWord, writeClock } from "./words.js";

const PAGE = 40;
const REST_MS = 150;

/* --- one line ------------------------------------------------------------ */

function sentencesOf(line, units) {
    const { batch } = line;
    return [
        stateSentence(batch),
        line.dough_c !== null &&
            doughSentence(line.dough_c, batch.dough_goal_c, units),
        ballsSentence(line.pieces),
        line.changes > 0 && tn("{n} thing was off.", "{n} things were off.",
            line.changes),
        line.person_name && batch.state !== "planned" &&
            t("Mixed by {name}.", { name: line.person_name }),
        batch.on_paper && t("Entered from paper."),
    ].filter(Boolean);
}

function Verdicts({ line }) {
    const said = line.pieces.map((cut) => ({ cut,
        verdict: verdictOn(line.verdicts, cut.piece.product_id) }))
        .filter(({ verdict }) => verdict);
    return html`
        <span class="log-verdicts">${said.map(({ cut, verdict }) => html`
            <span class="log-verdict" key=${cut.piece.id}>
                <${Ball} verdict=${verdict.verdict} />
                ${said.length > 1 || line.pieces.length > 1
        ? t("{product}: {verdict}", { product: cut.name,
            verdict: verdictWord(verdict.verdict) })
        : verdictWord(verdict.verdict)}
            </span>`)}
        </span>`;
}

function Line({ line, units }) {
    const { batch } = line;
    const at = batch.started_ms || batch.planned_ms;
    const products = line.pieces.map(({ name }) => name).join(", ");
    return html`
        <li>
            <a class="log-line" data-state=${batch.state}
                href=${`/book/${batch.id}`}>
                <span class="log-time">${writeClock(at)}</span>
                <span class="log-words">
                    <span class="log-name">${t("{formula}, batch {number}",
        { formula: line.formula_name, number: batch.number })}</span>
                    <span class="quiet">${products}</span>
                    <span>${sentencesOf(line, units).join(" ")}</span>
                </span>
                <${Verdicts} line=${line} />
            </a>
        </li>`;
}

/* --- days ---------------------------------------------------------------- */

/* lines: the newest first; a day reads from its first batch on. */
function daysOf(lines) {
    const days = new Map();
    for (const line of lines) {
        const { day } = line.batch;
        days.set(day, [line, ...days.get(day) ?? []]);
    }
    return [...days];
}

function Day({ day, today, lines, units }) {
    return html`
        <section>
            <div class="section-head">
                <h2>${day === today ? t("Today, {day}", { day: longDay(day) })
        : longDay(day)}</h2>
                <span class="quiet">${tn("{n} batch", "{n} batches",
        lines.length)}</span>
            </div>
            <ol>${lines.map((line) => html`
                <${Line} key=${line.batch.id} line=${line}
                    units=${units} />`)}
            </ol>
        </section>`;
}

/* --- finding ------------------------------------------------------------- */

const DAY_MS = 86400000;
const NOTHING = { text: "", verdict: "", off: false, from: "", to: "" };

/* A day of the browser's own calendar field, or null. */
const dayOf = (text) => text ? Date.parse(`${text}T00:00Z`) / DAY_MS : null;

function requestOf({ text, verdict, off, from, to }, limit) {
    const of = { text: text.trim(), verdict, off, limit,
        from_day: dayOf(from), to_day: dayOf(to) };
    return Object.fromEntries(Object.entries(of).filter(([, value]) =>
        value !== "" && value !== null));
}

function Find({ wanted, onWant }) {
    const [open, setOpen] = useState(false);
    const want = (name) => (value) => onWant({ ...wanted, [name]: value });
    return html`
        <search class="screen-only stack">
            <${Blank} name=${t("Find")} text=${wanted.text} maxlength="80"
                onType=${want("text")}
                placeholder=${t("product, formula, person, lot, number")} />
            <button type="button" class="word" aria-expanded=${open}
                onClick=${() => setOpen(!open)}>
                ${t("By days, first use and what was off")}</button>
            ${open && html`<div class="blanks">
                <${Blank} name=${t("From")} type="date" text=${wanted.from}
                    onType=${want("from")} />
                <${Blank} name=${t("To")} type="date" text=${wanted.to}
                    onType=${want("to")} />
                <${Pick} name=${t("At first use")} value=${wanted.verdict}
                    options=${[["", t("any")], ...verdicts()]}
                    onPick=${want("verdict")} />
                <label class="tick"><input type="checkbox"
                    checked=${wanted.off}
                    onChange=${(event) => want("off")(event.target.checked)} />
                    ${t("Something was off")}</label>
            </div>`}
        </search>`;
}

/* --- the page ------------------------------------------------------------ */

function Teach() {
    return html`
        <${Empty} title=${t("Every batch writes itself down here")}
            text=${t("What was planned stands beside what came: weights, " +
        "temperatures, times, who mixed, what was off and how the dough was " +
        "at first use. Start from a count of the balls that are left; it " +
        "says what to mix.")}
            button=${t("Count what is left")}
            onPress=${() => go("/count")} />`;
}

function Older({ lines, onOlder }) {
    return html`
        <div class="row spread">
            <span class="quiet">${t("The book is open back to {day}.",
        { day: longDay(lines.at(-1).batch.day) })}</span>
            <button type="button" onClick=${onOlder}>
                ${t("Further back")}</button>
        </div>`;
}

function Found({ found, filtered }) {
    const n = found.batches.length;
    return filtered && html`
        <p role="status">${n === 0
        ? t("No batch of the book is like that.")
        : found.more ? tn("{n} batch and older ones.",
            "{n} batches and older ones.", n)
            : tn("{n} batch in the whole book.",
                "{n} batches in the whole book.", n)}</p>`;
}

/* The newest are kept on the tablet; what is searched is not. What was found
 * before stays until the next is here, or the fields would go with it. */
function useBook(wanted, filtered, limit) {
    const newest = useAnswer("batch.find", filtered ? null : { limit });
    const search = useReckoned("batch.find",
        filtered ? requestOf(wanted, limit) : null, REST_MS);
    const now = filtered ? search : newest;
    const last = useRef(null);
    last.current = now.reply ?? last.current;
    return { found: last.current, trouble: now.refusal };
}

export function Log() {
    const { units } = usePerson();
    const [wanted, setWanted] = useState(NOTHING);
    const [limit, setLimit] = useState(PAGE);
    const { reply: got, refusal } = useAnswer("shop.get", {});
    const filtered = JSON.stringify(wanted) !== JSON.stringify(NOTHING);
    const { found, trouble } = useBook(wanted, filtered, limit);
    const shop = got?.shop;
    if (!shop || !found)
        return (refusal ?? trouble) && html`
            <p class="trouble" role="alert">
                ${(refusal ?? trouble).message}</p>`;
    if (!filtered && !found.batches.length)
        return html`<${Teach} />`;
    const today = businessDay(clock.now(), shop);
    return html`
        <div class="column stack-wide log">
            <div class="row spread">
                <h1>${t("Batch book")}</h1>
                <div class="row">
                    <a class="button" href="/minors">
                        ${t("Bags of minors")}</a>
                    <a class="button" href="/drift">${t("Drift")}</a>
                    <a class="button" href="/checks">${t("Checks")}</a>
                </div>
            </div>
            <${Find} wanted=${wanted} onWant=${(next) => {
        setWanted(next);
        setLimit(PAGE);
    }} />
            <${Found} found=${found} filtered=${filtered} />
            ${daysOf(found.batches).map(([day, of]) => html`
                <${Day} key=${day} day=${day} today=${today} lines=${of}
                    units=${units} />`)}
            ${found.more && html`<${Older} lines=${found.batches}
                onOlder=${() => setLimit(limit + PAGE)} />`}
        </div>`;
}
