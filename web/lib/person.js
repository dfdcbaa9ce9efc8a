/* Who is at this tablet and how they read: language, units, light, device. */

const usual = {
    lang: /^es\b/.test(globalThis.navigator?.language ?? "") ? "es" : "en",
    units: "us",       /* us: °F lb oz in; metric: °C kg g cm */
    theme: "auto",     /* auto, day, night */
    person_id: 0,      /* 0: nobody said */
    name: "",
};

/* What was chosen at this tablet, and the shop's own zone, units and language as
 * last heard: the tablet goes by the shop until its person chose otherwise. */
const CHOSEN = "doughwright.person", SHOP = "doughwright.shop";

function read(name) {
    try {
        return JSON.parse(localStorage.getItem(name) ?? "{}");
    } catch {
        return {};
    }
}

function keep(name, values) {
    localStorage.setItem(name, JSON.stringify(values));
    kept = { ...usual, ...read(SHOP), ...read(CHOSEN) };
    applyTheme();
    for (const listener of listeners)
        listener(kept);
}

let kept = { ...usual, ...read(SHOP), ...read(CHOSEN) };
const listeners = new Set();

export function person() {
    return kept;
}

export function setPerson(change) {
    keep(CHOSEN, { ...read(CHOSEN), ...change });
}

export function adoptShop({ zone, units, lang }) {
    const heard = JSON.stringify({ zone, units, lang });
    if (heard !== localStorage.getItem(SHOP))
        keep(SHOP, { zone, units, lang });
}

/* The zone of the shop's clock; undefined, the tablet's own, until it is known.
 */
export function zone() {
    return kept.zone;
}

export function onPerson(listener) {
    listeners.add(listener);
    return () => listeners.delete(listener);
}

const dark = globalThis.matchMedia?.("(prefers-color-scheme: dark)");
dark?.addEventListener("change", applyTheme);

export function applyTheme() {
    const root = document.documentElement;
    root.lang = kept.lang;
    root.dataset.theme = kept.theme !== "auto" ? kept.theme
        : dark.matches ? "night" : "day";
}

/* crypto.randomUUID is missing on plain HTTP, where tablets must work too. */
export function newKey() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    return Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
}

export function device() {
    let name = localStorage.getItem("doughwright.device");
    if (!name) {
        name = newKey();
        localStorage.setItem("doughwright.device", name);
    }
    return name;
}
