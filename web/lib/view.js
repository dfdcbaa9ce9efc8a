/* What every page draws with: the vendored view library and two small hooks. */

import { html, render, useState, useEffect, useMemo, useRef, useCallback,
    useLayoutEffect } from "/vendor/htm-preact-3.1.1.js";
import { onPerson, person } from "./person.js";
import { clock, everySecond } from "./clock.js";

export { html, render, useState, useEffect, useMemo, useRef, useCallback,
    useLayoutEffect };

/* Draws again when language, units or light change. */
export function usePerson() {
    const [now, set] = useState(person());
    useEffect(() => onPerson(set), []);
    return now;
}

/* The shop's time, once a second. */
export function useNow() {
    const [now, set] = useState(clock.now());
    useEffect(() => everySecond(set), []);
    return now;
}

let count = 0;
/* A name for one element of this page, for labels and descriptions. */
export function useName(prefix) {
    return useMemo(() => `${prefix}-${++count}`, [prefix]);
}

/* What `load` (a function that stays the same, or null) imports; null until it
 * is here. Without a network it is tried again until it is. */
export function useLoaded(load) {
    const [got, set] = useState({});
    useEffect(() => {
        let wanted = true;
        const get = () => load().then(
            (value) => wanted && set({ load, value }),
            () => wanted && setTimeout(get, 3000));
        if (load)
            get();
        return () => { wanted = false; };
    }, [load]);
    return load && got.load === load ? got.value : null;
}

/* The width there is, in pixels: text keeps its size whatever the screen. */
export function useWidth(element) {
    const [width, set] = useState(0);
    useLayoutEffect(() => {
        const watch = new ResizeObserver(([entry]) =>
            set(Math.round(entry.contentRect.width)));
        watch.observe(element.current);
        return () => watch.disconnect();
    }, []);
    return width;
}
