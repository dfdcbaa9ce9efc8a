/* Drift: has something moved, since when, and what moved with it? The sentence
 * first, the row of values under it, its table one tap away. */

import { html, usePerson, useState } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { writeMoment } from "../lib/dates.js";
import { go } from "../lib/route.js";
import { t, tn } from "../lib/say.js";
import { Choice } from "../parts/choice.js";
import { Empty } from "../parts/empty.js";
import { Why } from "../parts/why.js";
import { Chart } from "./drift/chart.js";
import { alarmSentence, effectSentence, spanSentence, verdictOf, whats, whose,
    wordsOf } from "./drift/words.js";

/* --- one row of values --------------------------------------------------- */

function Table({ series, words, units }) {
    return html`
        <table class="ledger">
            <thead><tr>
                <th scope="col" class="quiet">${t("when")}</th>
                <th scope="col" class="number quiet">${t("as read")}</th>
                <th scope="col" class="number quiet">${t("smoothed")}</th>
            </tr></thead>
            <tbody>${series.points.toReversed().map((point) => html`
                <tr key=${`${point.batch_id} ${point.at_ms}`}>
                    <th scope="row">${writeMoment(point.at_ms)}
                        ${point.batch_id > 0 && html`<small>
                            <a href=${`/book/${point.batch_id}`}>
                                ${t("batch {n}", { n: point.number })}</a>
                        </small>`}
                        ${point.alarm && html`<small>
                            ${t("outside the limits")}</small>`}</th>
                    <td class="number">${words.write(point.value, units)}</td>
                    <td class="number">
                        ${words.write(point.smoothed, units)}</td>
                </tr>`)}</tbody>
        </table>`;
}

function HowSure({ what, series, units, onClose }) {
    const words = wordsOf(what);
    const write = (value) => words.write(value, units);
    const inputs = [
        [t("values"), series.points.length],
        [t("mean before any step"), write(series.centre)],
        [t("spread of single values (one sigma)"),
            words.by(series.sigma, units)],
        [t("limits of the smoothed line"), t("{low} to {high}", {
            low: write(series.lower), high: write(series.upper) })],
    ];
    const equation = t("Each value moves the smoothed line a fifth of the " +
        "way. A lasting shift of one spread is seen after {n} values.", {
        n: Math.round(series.run_shifted) });
    return html`<${Why} title=${t("How sure is this?")} onClose=${onClose}
        value=${alarmSentence(what, series)} inputs=${inputs}
        equation=${equation}
        source=${t("Smoothed charts (EWMA), Roberts 1959; run length after " +
            "Crowder 1987.")} />`;
}

function Series({ what, series, units }) {
    const [asked, ask] = useState(false);
    const [open, setOpen] = useState(false);
    const words = wordsOf(what);
    const [first, ...rest] = verdictOf(what, series, units);
    return html`
        <section class="stack">
            ${what !== "cold_c" && html`<div class="section-head">
                <h2>${series.mixer_name ?? t("All mixers")}</h2></div>`}
            <div>
                <p class="drift-says">${first}</p>
                ${rest.map((said) => html`<p key=${said}>${said}</p>`)}
                <p class="quiet">${spanSentence(series)} ${" "}
                    ${alarmSentence(what, series)}</p>
            </div>
            <${Chart} series=${series} head=${words.head(units)}
                name=${`${words.name()}, ${whose(series)}. ${first}`}
                shown=${(value) => words.shown(value, units)} />
            <p class="row">
                <button type="button" class="word" aria-expanded=${open}
                    onClick=${() => setOpen(!open)}>
                    ${tn("{n} value as a table", "{n} values as a table",
        series.points.length)}</button>
                <button type="button" class="word"
                    onClick=${() => ask(true)}>${t("How sure is this?")}</button>
            </p>
            ${open && html`<${Table} series=${series} words=${words}
                units=${units} />`}
            ${asked && html`<${HowSure} what=${what} series=${series}
                units=${units} onClose=${() => ask(false)} />`}
        </section>`;
}

function WhoseDoing({ what, effects, units }) {
    return effects.length > 0 && html`
        <section class="stack">
            <div class="section-head"><h2>${t("Whose doing")}</h2></div>
            <ul class="ruled">${effects.map((effect) => html`
                <li key=${`${effect.factor} ${effect.level}`}>
                    ${effectSentence(what, effect, units)}
                    <span class="quiet"> ${tn("{n} batch.", "{n} batches.",
        effect.values_count)}</span></li>`)}</ul>
            <p class="quiet">${t("People, flour lots, mixers and hours of " +
        "the day are told apart; only what is clear is named. It says where " +
        "to look, and is no verdict on anyone.")}</p>
        </section>`;
}

/* --- the page ------------------------------------------------------------ */

const SPANS = () => [[28, t("four weeks")], [90, t("three months")],
    [365, t("a year")]];

/* With one mixer its row is that of all. What has drifted comes first. */
function shownOf({ series }) {
    const told = series.length === 2 &&
        series[0].points.length === series[1].points.length
        ? series.slice(1) : series;
    return told.toSorted((a, b) => Boolean(b.step) - Boolean(a.step));
}

function TooFew({ what }) {
    return what === "cold_c" ? html`
        <${Empty} title=${t("Too few readings to look at")}
            text=${t("Eight are needed. Read the cold room's thermometer " +
        "each day and write it down on Today.")} button=${t("Go to Today")}
            onPress=${() => go("/today")} />` : html`
        <${Empty} title=${t("Too few batches to look at")}
            text=${t("Eight are needed. Each batch that is probed, weighed " +
        "and counted on its mix card adds one.")}
            button=${t("Go to Batches")} onPress=${() => go("/batches")} />`;
}

export function Page() {
    const { units } = usePerson();
    const [what, setWhat] = useState("dough_c");
    const [days, setDays] = useState(90);
    const { reply, refusal } = useAnswer("quality.drift", { what, days });
    return html`
        <div class="column stack-wide">
            <div class="stack">
                <h1>${t("Drift")}</h1>
                <${Choice} shown legend=${t("Look at")} value=${what}
                    options=${whats()} onChoose=${setWhat} />
                <${Choice} shown legend=${t("of the last")} value=${days}
                    options=${SPANS()} onChoose=${setDays} />
            </div>
            ${!reply && refusal && html`<p class="trouble" role="alert">
                ${refusal.message}</p>`}
            ${reply && !reply.series.length && html`
                <${TooFew} what=${what} />`}
            ${reply && shownOf(reply).map((series) => html`
                <${Series} key=${`${what} ${series.mixer_id}`} what=${what}
                    series=${series} units=${units} />`)}
            ${reply && html`<${WhoseDoing} what=${what} units=${units}
                effects=${reply.effects} />`}
        </div>`;
}
