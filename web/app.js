/* The shell: the band across the top, the page under it, what waits to be
 * sent, and moving between pages without loading anew. */

import { html, render, useEffect, useLoaded, usePerson, useRef, useState }
    from "./lib/view.js";
import { call, isOnline, listen, onChanged, onConnection, outbox }
    from "./lib/api.js";
import { adoptShop, applyTheme, onPerson, person } from "./lib/person.js";
import { usePath } from "./lib/route.js";
import { loadLanguage, t, tn } from "./lib/say.js";
import { Dialog } from "./parts/dialog.js";
import { Toasts } from "./parts/toast.js";
import { Waiting } from "./parts/waiting.js";
import { pages } from "./pages.js";

function pageAt(path) {
    return pages.find((page) =>
        path === page.path || path.startsWith(`${page.path}/`));
}

const ours = (path) => path === "/" || pageAt(path) !== undefined;

/* --- the band ------------------------------------------------------------ */

/* On a phone the pages are one row; the one that is open is in sight. */
function Navigation({ current }) {
    const nav = useRef(null);
    useEffect(() => nav.current.querySelector("[aria-current]")
        ?.scrollIntoView({ block: "nearest", inline: "center" }), [current]);
    return html`
        <nav aria-label=${t("Pages")} ref=${nav}>
            <ul>${pages.filter((page) => !page.under).map((page) => html`
                <li key=${page.path}>
                    <a href=${page.path} aria-current=${page === current ||
        page.path === current?.under ? "page" : null}>
                        ${page.name()}
                    </a>
                </li>`)}
            </ul>
        </nav>`;
}

function useOutbox() {
    const [entries, set] = useState({ waiting: [], refused: [] });
    useEffect(() => outbox.watch(set), []);
    return entries;
}

function useOnline() {
    const [online, set] = useState(isOnline());
    useEffect(() => {
        set(isOnline()); /* it may have changed since the first drawing */
        return onConnection(set);
    }, []);
    return online;
}

function stateSentence(online, entries) {
    const n = entries.waiting.length;
    if (entries.refused.length)
        return tn("{n} entry was refused", "{n} entries were refused",
            entries.refused.length);
    if (!online && n)
        return tn("No connection, {n} entry waits",
            "No connection, {n} entries wait", n);
    if (!online)
        return t("No connection");
    return n ? tn("Sending {n} entry", "Sending {n} entries", n) : "";
}

/* Silent while all is well: only what needs a look is said. */
function State() {
    const online = useOnline();
    const entries = useOutbox();
    const [open, setOpen] = useState(false);
    const sentence = stateSentence(online, entries);
    return html`
        <div role="status">
            ${sentence && html`
                <button type="button" class="word"
                    onClick=${() => setOpen(true)}>
                    ${sentence}
                </button>`}
        </div>
        ${open && html`
            <${Dialog} title=${t("On its way to the shop's computer")}
                onClose=${() => setOpen(false)}>
                <${Waiting} online=${online} entries=${entries} />
            <//>`}`;
}

const loadYou = () => import("./parts/you.js").then((it) => it.You);

function Band({ current }) {
    const [open, setOpen] = useState(false);
    const You = useLoaded(open ? loadYou : null);
    const who = usePerson();
    return html`
        <header>
            <div class="band">
                <a class="name" href="/">Doughwright</a>
                <${Navigation} current=${current} />
                <div class="state">
                    <${State} />
                    <button type="button" class="word"
                        onClick=${() => setOpen(true)}>
                        ${who.name && html`<b>${who.name}</b> `}
                        ${who.units === "us" ? t("lb, °F") : t("kg, °C")}
                        <span class="only-heard">
                            ${t("Who is here, units, language and light")}
                        </span>
                    </button>
                </div>
            </div>
            <hr class="band-edge" />
            ${You && html`
                <${Dialog} title=${t("Who is here, and how you read")}
                    onClose=${() => setOpen(false)}>
                    <${You} />
                <//>`}
        </header>`;
}

/* --- the page ------------------------------------------------------------ */

function App() {
    usePerson();
    const path = usePath(ours, pages[0].path);
    const current = pageAt(path);
    const Page = useLoaded(current?.load);
    const main = useRef(null);
    const first = useRef(true);
    useEffect(() => {
        document.title = current
            ? `${current.name()} – Doughwright` : "Doughwright";
        if (!first.current) {
            main.current.focus();
            scrollTo(0, 0);
        }
        first.current = false;
    }, [current]);
    return html`
        <a class="skip" href="#main">${t("Skip to the page")}</a>
        <${Band} current=${current} />
        <main id="main" tabindex="-1" ref=${main}>
            ${Page && html`<${Page} path=${path} />`}
            ${!current && html`<p>${t("There is no page at {path}.",
                { path })}</p>`}
        </main>
        <${Toasts} />`;
}

/* --- start --------------------------------------------------------------- */

/* Without a connection what was heard before goes on holding. */
async function hearShop() {
    try {
        const { shop } = await call("shop.get");
        if (shop)
            adoptShop(shop);
    } catch {
        /* the page says by itself that there is no connection */
    }
}

async function start() {
    applyTheme();
    await loadLanguage(person().lang);
    let lang = person().lang;
    onPerson(async (who) => {
        if (who.lang === lang)
            return;
        lang = who.lang;
        await loadLanguage(lang);
        render(html`<${App} key=${lang} />`, root);
    });
    const root = document.getElementById("app");
    render(html`<${App} key=${lang} />`, root);
    listen();
    outbox.deliver();
    hearShop();
    onChanged((op) => (op === "shop.save" || op === "shop.load") && hearShop());
    /* Only over HTTPS or on this machine; without it the page works as long as
     * it stays open. */
    navigator.serviceWorker?.register("/sw.js").catch(() => undefined);
}

start();
