/* Who is at this tablet and how they read: language, units, light, device. */

const KEPT = "doughwright.person";

const usual = {
    lang: /^es\b/.test(globalThis.navigator?.language ?? "") ? "es" : "en",
    units: "us",       /* us: °F lb oz in; metric: °C kg g cm */
    theme: "auto",     /* auto, day, night */
    person_id: 0,
};

function read() {
    try {
        return { ...usual, ...JSON.parse(localStorage.getItem(KEPT) ?? "{}") };
    } catch {
        return { ...usual };
    }
}

let kept = read();
const listeners = new Set();

export function person() {
    return kept;
}

export function setPerson(change) {
    kept = { ...kept, ...change };
    localStorage.setItem(KEPT, JSON.stringify(kept));
    applyTheme();
    for (const listener of listeners)
        listener(kept);
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
