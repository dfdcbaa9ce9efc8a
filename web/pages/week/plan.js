/* Week: fourteen columns. What is wanted with its risk against what is in its
 * window, the batches under each mixer, the cold room and the hands as bars
 * against their limits. A batch that is moved makes every row answer. */

import { html, useEffect, useRef, useState } from "../../lib/view.js";
import { call, write } from "../../lib/api.js";
import { t, tn } from "../../lib/say.js";
import { longDay } from "../../lib/dates.js";
import { toast } from "../../parts/toast.js";
import { WhyNumber } from "./why.js";
import { Grid } from "./grid.js";
import { Said } from "./said.js";
import { movedTo, piecesOf } from "./batches.js";

const DAYS = 14, LONG_SECONDS = 20;

/* The seconds since something began, while it runs. */
function useSeconds(running) {
    const [seconds, set] = useState(0);
    useEffect(() => {
        if (!running)
            return undefined;
        const from = performance.now();
        const timer = setInterval(() =>
            set(Math.round((performance.now() - from) / 1000)), 500);
        return () => {
            clearInterval(timer);
            set(0);
        };
    }, [running]);
    return seconds;
}

/* The plan, and the same with somebody's own moves looked at. */
function useWeek() {
    const [shop, setShop] = useState(null);
    const [batches, setBatches] = useState([]);
    const [refusal, setRefusal] = useState(null);
    const [working, setWorking] = useState(null);
    const asked = useRef(null);
    async function ask(request, how) {
        asked.current?.abort();
        const mine = new AbortController();
        asked.current = mine;
        setWorking(how);
        try {
            const got = await call("week.plan", { days: DAYS, ...request },
                { signal: mine.signal });
            setShop(got);
            setRefusal(null);
            return got;
        } catch (problem) {
            if (!mine.signal.aborted)
                setRefusal(problem);
            return null;
        } finally {
            if (asked.current === mine)
                setWorking(null);
        }
    }
    const keep = (got) => got && setBatches(
        got.plan.batches.filter((batch) => !batch.fixed));
    const plan = async (request = {}) =>
        keep(await ask({ worths: true, ...request }, "plan"));
    const longer = async () => keep(await ask({ worths: true,
        seconds: LONG_SECONDS, before: batches, change_cost: 0 }, "longer"));
    function look(changed) {
        setBatches(changed);
        ask({ batches: changed, only_these: true }, "look");
    }
    function stop() {
        asked.current?.abort();
        setWorking(null);
    }
    useEffect(() => { plan(); }, []);
    return { shop, batches, refusal, working, plan, longer, look, stop };
}

async function make(shop, batches, day, plan) {
    const pieces = piecesOf(shop, batches, day);
    try {
        await write("batch.plan", { day: shop.first_day + day, pieces });
        toast(t("The batches of {day} are made.",
            { day: longDay(shop.first_day + day) }));
        plan();
    } catch (problem) {
        toast(problem.message);
    }
}

function Busy({ week }) {
    const seconds = useSeconds(week.working === "longer");
    if (week.working !== "longer")
        return null;
    return html`
        <div class="row" role="status">
            <progress max=${LONG_SECONDS} value=${seconds}
                aria-label=${t("Looking for a better plan")}></progress>
            <span>${tn("{n} second", "{n} seconds", seconds)}</span>
            <button type="button" onClick=${week.stop}>
                ${t("Stop, keep this plan")}
            </button>
        </div>`;
}

function Head({ week }) {
    return html`
        <div class="row spread">
            <h1>${t("Week")}</h1>
            <div class="row screen-only">
                <a href="/buy">${t("To order")}</a>
                <button type="button" onClick=${() => week.plan()}>
                    ${t("Plan anew")}
                </button>
                <button type="button" disabled=${week.working === "longer"}
                    onClick=${week.longer}>
                    ${t("Look longer")}
                </button>
            </div>
        </div>
        <${Busy} week=${week} />`;
}

export function Plan() {
    const week = useWeek();
    const [why, setWhy] = useState(null);
    const { shop, batches } = week;
    if (week.refusal && !shop)
        return html`<h1>${t("Week")}</h1>
            <p role="alert">${week.refusal.message}</p>`;
    if (!shop)
        return html`<h1>${t("Week")}</h1>
            <p role="status">${t("Planning…")}</p>`;
    if (!shop.products.some((product) => product.known))
        return html`<h1>${t("Week")}</h1>`; /* demand says what to do */
    return html`
        <div class="plan-page stack">
            <${Head} week=${week} />
            ${week.refusal && html`
                <p role="alert">${week.refusal.message}</p>`}
            <${Grid} shop=${shop} batches=${batches} onWhy=${setWhy}
                onMove=${(index, day, mixer) =>
                    week.look(movedTo(batches, index, day, mixer))}
                onMake=${(day) => make(shop, batches, day, week.plan)} />
            <${Said} shop=${shop} onWhy=${setWhy} />
            ${why && html`<${WhyNumber} ...${why} shop=${shop}
                onClose=${() => setWhy(null)} />`}
        </div>`;
}
