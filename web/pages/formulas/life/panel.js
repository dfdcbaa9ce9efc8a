/* The life of a ball of this formula: the window first, the curves under it,
 * then what one may change. */

import { html, useEffect, useLoaded, useState } from "../../../lib/view.js";
import { call } from "../../../lib/api.js";
import { t } from "../../../lib/say.js";
import { wholeSpan } from "../../../life/axis.js";
import { whyRows } from "../../../life/taught.js";
import { useUsed } from "../../../life/used.js";
import { summaryOf } from "../../../life/words.js";
import { Choice } from "../../../parts/choice.js";
import { useAnswer } from "../reckon.js";
import { Curve } from "./curve.js";
import { Fields } from "./fields.js";
import { useFollowing } from "../../../life/follow.js";
import { firstHistory, lifeRequest, moved } from "./history.js";
import { Moments } from "./moments.js";
import { Table } from "./table.js";

const REST_MS = 250;
const MEMBERS = 63;

function useShop() {
    const [shop, set] = useState(undefined);
    useEffect(() => {
        call("shop.get").then(set, () => set(null));
    }, []);
    return shop;
}

/* How much time the drawing covers: a little more than the window, taken anew
 * only while the hand rests so that nothing slides under it. */
function viewOf(life, band, history, cold) {
    const late = band?.window.end_h.p50 ?? 0;
    const end = Math.max(life.window.end_h ?? 0, late, history.out_h ?? 0,
        cold ? 24 : 3);
    const turns = history.bench_h + history.open_h;
    return { span_h: wholeSpan(end * 1.12),
        early_h: cold ? Math.max(4, Math.ceil(turns + 0.5)) : 0 };
}

function daysSentence(shop) {
    const days = shop?.shop;
    return days && t("ready on day {ready}, best on day {best}, use first " +
        "from day {first}, last on day {last} after mixing", {
        ready: days.ready_day, best: days.best_day,
        first: days.use_first_day, last: days.last_day });
}

function NoModel({ shop }) {
    const days = daysSentence(shop);
    return html`
        <p class="note">${t("There is no model for frozen, panned or " +
        "par-baked dough: go by the shop's days.")}
        ${days && html`<br />${t("The shop's days: {days}.", { days })}`}</p>`;
}

/* What the model does not know about this dough, told beside its answer. */
function doubtsOf(formula, cold, used) {
    const doubts = [];
    if (cold && !used?.ranges.length)
        doubts.push(t("This shop has not taught its yeast yet, and yeast in " +
            "the cold is little measured: that is why the band is wide. A " +
            "witness cup or a tap on how the dough was narrows it."));
    if (formula.lines.some((line) => line.kind === "malt"))
        doubts.push(t("What malt's enzymes do is not in it."));
    if (formula.stages.length)
        doubts.push(t("What the preferment did before the mixer is not in " +
            "it."));
    return doubts;
}

/* What the shop has taught, and is in the curve. */
function Learned({ rows }) {
    return rows.length > 0 && html`
        <details>
            <summary>${t("What this shop has taught is in it")}</summary>
            <dl class="learned">${rows.map(([name, value]) => html`
                <div key=${name}><dt>${name}</dt><dd>${value}</dd></div>`)}
            </dl>
        </details>`;
}

function Drawn({ life, band, learned, doubts, state, units, days }) {
    const [what, setWhat] = useState("volume_ratio");
    const [table, setTable] = useState(false);
    return html`
        <p class="comes-to" aria-live=${band ? "polite" : "off"}>
            ${summaryOf({ window: life.window, band: band?.band })}</p>
        <${Moments} life=${life} band=${band?.band} request=${state.request}
            learned=${learned} units=${units} days=${days} />
        <${Choice} legend=${t("What is drawn of the rise")} value=${what}
            options=${[["volume_ratio", t("Size")],
        ["gas_ml_per_100g_flour", t("Gas made")]]} onChoose=${setWhat} />
        <figure>
            <${Curve} life=${life} band=${band} what=${what} units=${units}
                ...${state} />
            <figcaption class="quiet">${t("Line: what to expect. Light area: " +
        "nine lives in ten. The tinted hours on the left are drawn wider.")}
            </figcaption>
        </figure>
        <button type="button" class="word screen-only" aria-expanded=${table}
            onClick=${() => setTable(!table)}>${t("The same as a table")}
        </button>
        <${Learned} rows=${learned} />
        ${doubts.map((one) => html`<p class="note" key=${one}>${one}</p>`)}
        ${table && html`<${Table} life=${life} band=${band} units=${units}
            early_h=${state.view.early_h} />`}`;
}

const loadAnswers = () => import("./answers.js").then((it) => it.Answers);

function Living({ formula, goal_c, cold, units, shop, used, onYeast,
    onGoal }) {
    const [history, set] = useState(() => firstHistory(shop, used));
    const [resting, setResting] = useState(true);
    const [view, setView] = useState(() => ({ span_h: cold ? 96 : 8,
        early_h: cold ? 4 : 0 }));
    const ask = (members) => lifeRequest({ formula, history, goal_c, cold,
        span_h: view.span_h, used, members });
    const request = ask(0);
    const { reply, refusal, settled } = useFollowing("piece.life", request);
    const slow = useAnswer("piece.life", resting ? ask(MEMBERS) : null,
        REST_MS);
    /* A band belongs to the life it was asked for and to no other. */
    const band = resting && settled && slow.reply &&
        slow.reply.window.end_h === reply?.window.end_h &&
        slow.reply.window.ready_h === reply?.window.ready_h
        ? slow.reply : null;
    useEffect(() => {
        if (!band)
            return;
        const next = viewOf(reply, band.band, history, cold);
        if (next.span_h !== view.span_h || next.early_h !== view.early_h)
            setView(next);
    }, [band]);
    function onMove(field, value, rest) {
        set((was) => moved(was, field, value));
        setResting(rest);
    }
    const Answers = useLoaded(reply ? loadAnswers : null);
    if (refusal)
        return html`<p class="trouble" role="alert">${refusal.message}</p>`;
    const dough_c = history.dough_c ?? goal_c;
    return html`
        ${reply && html`<${Drawn} life=${reply} band=${band} units=${units}
            learned=${whyRows(used?.values ?? [], units)}
            doubts=${doubtsOf(formula, cold, used)} days=${daysSentence(shop)}
            state=${{ history, dough_c, cold, view, request, onMove }} />`}
        <${Fields} history=${history} dough_c=${dough_c} cold=${cold}
            units=${units} onMove=${onMove} />
        ${Answers && reply && html`
            <${Answers} of=${{ formula, history, goal_c, cold, used }}
                span_h=${view.span_h} life=${reply} dough_c=${dough_c}
                learned=${whyRows(used?.values ?? [], units)} shop=${shop}
                days=${daysSentence(shop)} units=${units}
                onMove=${onMove} onYeast=${onYeast} onGoal=${onGoal} />`}`;
}

/* formula: as the operations take it; goal_c: its dough temperature;
 * onYeast(percent), onGoal(dough_c): an answer is taken over. */
export function Life({ formula, formula_id, goal_c, process, units, onYeast,
    onGoal }) {
    const shop = useShop();
    const used = useUsed(formula, formula_id);
    const cold = process === "cold";
    return html`
        <link rel="stylesheet" href="/life/life.css" />
        <section class="stack life" aria-labelledby="life-head">
            <div class="section-head">
                <h2 id="life-head">${t("Life of a ball")}</h2>
            </div>
            ${process === "frozen" ? html`<${NoModel} shop=${shop} />`
        : shop !== undefined && used !== undefined && html`
            <${Living} key=${cold} formula=${formula} goal_c=${goal_c}
                cold=${cold} units=${units} shop=${shop}
                used=${used} onYeast=${onYeast} onGoal=${onGoal} />`}
        </section>`;
}
