/* The batch book reads like a log: the newest day first, two weeks at a time,
 * further back when asked. */

import { html, useMemo, usePerson, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { clock } from "../../lib/clock.js";
import { go } from "../../lib/route.js";
import { businessDay } from "../../lib/shoptime.js";
import { t, tn } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { Empty } from "../../parts/empty.js";
import { Ball } from "./ball.js";
import { ballsSentence, civilDay, doughSentence, longDay, stateSentence,
    verdictOn, verdictWord, writeClock } from "./words.js";

const PAGE_DAYS = 14;

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

function daysOf(lines) {
    const days = new Map();
    for (const line of lines) {
        const { day } = line.batch;
        days.set(day, [...days.get(day) ?? [], line]);
    }
    return [...days].sort(([a], [b]) => b - a);
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

function wordsOf(line) {
    return [line.batch.number, line.formula_name, line.person_name,
        line.mixer_name, line.batch.note,
        ...line.pieces.map(({ name }) => name),
        ...line.verdicts.map(({ verdict }) => verdictWord(verdict)),
        civilDay(line.batch.day)].join(" ").toLowerCase();
}

/* Every word is somewhere in the line; a bare number is a batch's number. */
export function matches(line, text) {
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    if (words.length === 1 && /^\d+$/.test(words[0]))
        return String(line.batch.number) === words[0];
    const all = wordsOf(line);
    return words.every((word) => all.includes(word));
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

function Older({ from, onOlder }) {
    return html`
        <div class="row spread">
            <span class="quiet">${t("The book is open back to {day}.",
        { day: longDay(from) })}</span>
            <button type="button" onClick=${onOlder}>
                ${t("Two weeks further back")}</button>
        </div>`;
}

function Days({ lines, text, today, units }) {
    const found = useMemo(() => lines.filter((one) => matches(one, text)),
        [lines, text]);
    return html`
        ${text && html`<p role="status">${found.length
        ? tn("{n} batch in the whole book.", "{n} batches in the whole book.",
            found.length)
        : t("No batch of the book says “{text}”.", { text })}</p>`}
        ${daysOf(found).map(([day, of]) => html`
            <${Day} key=${day} day=${day} today=${today} lines=${of}
                units=${units} />`)}
        ${!text && !found.length && html`<p>${t("No batch in these days.")}
        </p>`}`;
}

export function Log() {
    const { units } = usePerson();
    const [pages, setPages] = useState(1);
    const [text, setText] = useState("");
    const { reply: got, refusal } = useAnswer("shop.get", {});
    const shop = got?.shop;
    const today = shop ? businessDay(clock.now(), shop) : 0;
    const from = Math.max(0, today - PAGE_DAYS * pages);
    const some = useAnswer("batch.list", shop ? { from_day: from } : null);
    const nothing = some.reply && !some.reply.batches.length;
    const whole = useAnswer("batch.list", text || nothing ? {} : null);
    const trouble = refusal ?? some.refusal ?? whole.refusal;
    const lines = text ? whole.reply?.batches ?? some.reply?.batches
        : some.reply?.batches;
    if (!lines)
        return trouble && html`<p class="trouble" role="alert">
            ${trouble.message}</p>`;
    if (nothing && whole.reply && !whole.reply.batches.length)
        return html`<${Teach} />`;
    return html`
        <div class="column stack-wide log">
            <div class="row spread">
                <h1>${t("Batch book")}</h1>
                <a class="button" href="/minors">${t("Bags of minors")}</a>
            </div>
            <${Blank} name=${t("Find")} text=${text} onType=${setText}
                placeholder=${t("product, formula, person, verdict, number")}
            />
            <${Days} lines=${lines} text=${text.trim()} today=${today}
                units=${units} />
            ${!text && html`<${Older} from=${from}
                onOlder=${() => setPages(pages + 1)} />`}
        </div>`;
}
