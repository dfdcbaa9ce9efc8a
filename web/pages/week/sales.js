/* A register's file: how it would be read is shown; somebody confirms it; what
 * could not be read is kept aside and can be taken home. */

import { html, useState } from "../../lib/view.js";
import { call, write } from "../../lib/api.js";
import { civilDay } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";
import { Choice } from "../../parts/choice.js";
import { asCsv, textOf } from "./file.js";
import { Names } from "./names.js";

const COLUMNS = () => [["product_column", t("Product")],
    ["day_column", t("Day")], ["balls_column", t("How many")],
    ["outlet_column", t("Outlet")], ["hour_column", t("Hour")],
    ["sold_out_column", t("Sold out")]];
const NEEDED = ["product_column", "day_column", "balls_column"];

/* --- how it is read ------------------------------------------------------- */

function Marks({ read, onTurn }) {
    const { mapping } = read;
    const turn = (key) => (value) => onTurn({ [key]: value });
    return html`
        <${Choice} shown legend=${t("Between columns")}
            value=${mapping.separator} onChoose=${turn("separator")}
            options=${[["comma", t("comma ,")],
        ["semicolon", t("semicolon ;")], ["tab", t("tab")]]} />
        <${Choice} shown legend=${t("Mark in numbers")}
            value=${mapping.decimal} onChoose=${turn("decimal")}
            options=${[["point", "1.5"], ["comma", "1,5"]]} />
        <${Choice} shown legend=${t("First in a date")}
            value=${read.dates_sure ? mapping.dates : null}
            onChoose=${turn("dates")} options=${[["day", t("day, 28/3/2026")],
        ["month", t("month, 3/28/2026")],
        ["year", t("year, 2026-03-28")]]} />
        ${read.columns_sure && !read.dates_sure && html`
            <p class="trouble" role="alert">${t("The file does not say " +
        "whether the day or the month comes first. Choose one.")}</p>`}`;
}

function Columns({ read, onTurn }) {
    const options = [["0", t("not in the file")],
        ...read.columns.map((one, i) => [String(i + 1), one.example
            ? t("{name}, e.g. {example}", { name: one.name,
                example: one.example }) : one.name])];
    return html`
        <div class="form-blanks">${COLUMNS().map(([key, name]) => html`
            <label class="field" key=${key}>
                <span>${name}</span>
                <select value=${String(read.mapping[key])}
                    aria-invalid=${NEEDED.includes(key) &&
        !read.mapping[key] ? "true" : null}
                    onChange=${(event) =>
        onTurn({ [key]: Number(event.target.value) })}>
                    ${options.map(([value, words]) => html`
                        <option key=${value} value=${value}
                            selected=${value === String(read.mapping[key])}>
                            ${words}</option>`)}
                </select>
            </label>`)}
        </div>
        <label class="tick">
            <input type="checkbox" checked=${read.mapping.add_up}
                onChange=${(event) => onTurn({ add_up: event.target.checked })} />
            ${t("Several lines of one day are parts of it: add them up")}
        </label>`;
}

function Preview({ read }) {
    return html`
        <div class="wide"><table class="preview">
            <caption>${tn("{n} row can be read. The first:",
        "{n} rows can be read. The first:", read.rows_all)}</caption>
            <thead><tr>
                <th scope="col">${t("Line")}</th>
                <th scope="col">${t("Day")}</th>
                <th scope="col">${t("Outlet")}</th>
                <th scope="col">${t("Product")}</th>
                <th scope="col" class="number">${t("How many")}</th>
            </tr></thead>
            <tbody>${read.rows.map((row) => html`
                <tr key=${row.line}>
                    <td>${row.line}</td>
                    <td>${civilDay(row.day)}${row.hour !== null &&
        t(", {hour}:00", { hour: row.hour })}</td>
                    <td>${row.outlet ?? "–"}</td>
                    <td>${row.product}</td>
                    <td class="number">${row.sold_out
        ? t("at least {n}", { n: row.balls }) : row.balls}</td>
                </tr>`)}
            </tbody>
        </table></div>`;
}

export function Aside({ rows }) {
    if (!rows.length)
        return null;
    const file = URL.createObjectURL(new Blob([asCsv(rows)],
        { type: "text/csv" }));
    return html`
        <section class="stack" aria-labelledby="aside-head">
            <h2 id="aside-head" class="section-head">${tn(
        "{n} row is kept aside", "{n} rows are kept aside", rows.length)}</h2>
            <ul>${rows.slice(0, 8).map((row) => html`
                <li key=${`${row.line} ${row.field}`}>${t(
        "Line {line}: {field} “{value}” {message}",
        { ...row, value: row.value ?? "" })}</li>`)}
            </ul>
            <p><a class="button" href=${file} download="kept-aside.csv">
                ${t("Take these rows home as a file")}</a></p>
        </section>`;
}

/* --- the page ------------------------------------------------------------- */

function Taken({ taken, onAgain }) {
    return html`
        <section class="stack" aria-labelledby="taken-head" role="status">
            <h2 id="taken-head" class="section-head">${t("Taken in")}</h2>
            <p>${t("{added} days are new, {changed} have another number, " +
        "{same} are as they were.", taken)}${" "}${taken.passed_over > 0 &&
        tn("{n} row was not of your dough.",
            "{n} rows were not of your dough.", taken.passed_over)}</p>
            <div class="row">
                <a class="button do" href="/week">${t("See the week")}</a>
                <button type="button" onClick=${onAgain}>
                    ${t("Another file")}</button>
            </div>
        </section>
        <${Aside} rows=${taken.refused} />`;
}

/* { text, read, taken, refusal } and what changes them. */
function useFile() {
    const [state, set] = useState({});
    const put = (more) => set((was) => ({ ...was, ...more }));
    const failed = (problem) => put({ refusal: problem.message });
    async function ask(text, mapping) {
        const read = await call("sales.read", { text, mapping });
        put({ text, read, refusal: null });
    }
    const again = ({ names, ...mapping }, more) =>
        ask(state.text, { ...mapping, ...more }).catch(failed);
    return { ...state, forget: () => set({}),
        open: (file) => textOf(file).then((text) => ask(text)).catch(failed),
        turn: (more) => again({ ...state.read.mapping,
            dates: state.read.dates_sure ? state.read.mapping.dates
                : "found_out" }, more),
        name: (names) => put({ read: { ...state.read, names } }),
        take: () => write("sales.import", { text: state.text,
            mapping: { ...state.read.mapping,
                names: state.read.names.map((one) => one.name)
                    .filter((one) => one.product_id || one.outlet_id ||
                        one.passed_over) } })
            .then((taken) => put({ taken, refusal: null }), failed) };
}

function Reading({ file }) {
    const { read } = file;
    const sure = read.columns_sure && read.dates_sure;
    return html`
        <section class="stack" aria-labelledby="excerpt-head">
            <h2 id="excerpt-head" class="section-head">
                ${t("So it stands in the file")}</h2>
            <pre class="wide excerpt" tabindex="0">${read.excerpt
        .map((line) => line.text).join("\n")}</pre>
        </section>
        <section class="stack" aria-labelledby="how-head">
            <h2 id="how-head" class="section-head">
                ${t("So it will be read")}</h2>
            <${Marks} read=${read} onTurn=${file.turn} />
            <${Columns} read=${read} onTurn=${file.turn} />
            ${read.columns_sure && html`<${Preview} read=${read} />`}
        </section>
        <${Names} names=${read.names} onNames=${file.name} />
        <${Aside} rows=${read.refused} />
        <p><button type="button" class="do" disabled=${!sure}
            onClick=${file.take}>${t("That is right: take it in")}</button>
        </p>`;
}

export function Sales() {
    const file = useFile();
    return html`
        <div class="stack-wide sales-page column">
            <p><a href="/week">${t("Week")}</a></p>
            <h1>${t("A register's file")}</h1>
            ${!file.taken && html`
                <label class="field">
                    <span>${t("A CSV file of sales: product, day, how many; " +
        "outlet, hour and sold out if it has them. The same file twice " +
        "changes nothing.")}</span>
                    <input type="file" accept=".csv,.txt,.tsv,text/csv"
                        onChange=${(event) => event.target.files[0] &&
        file.open(event.target.files[0])} />
                </label>`}
            ${file.refusal && html`
                <p class="trouble" role="alert">${file.refusal}</p>`}
            ${file.taken ? html`
                <${Taken} taken=${file.taken} onAgain=${file.forget} />`
        : file.read && html`<${Reading} file=${file} />`}
        </div>`;
}
