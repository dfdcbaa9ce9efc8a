/* Moving between the pages without loading anew. */

import { useEffect, useState } from "./view.js";

const moved = new Set();

/* Go to a page of ours: "/formulas/3". */
export function go(path) {
    history.pushState(null, "", path);
    for (const tell of moved)
        tell();
}

/* A plain click on a link of ours moves the page; other links, and opening in
 * a new tab, are the browser's. */
function linkOf(event, ours) {
    const link = event.target.closest?.("a[href]");
    const plain = !event.defaultPrevented && event.button === 0 &&
        !event.metaKey && !event.ctrlKey && !event.shiftKey;
    return link && plain && !link.target &&
        link.origin === location.origin && ours(link.pathname) &&
        !link.getAttribute("href").startsWith("#") ? link : null;
}

/* The path in sight; ours(path) tells which links stay inside, `first` is
 * where "/" leads. */
export function usePath(ours, first) {
    const here = () => location.pathname === "/" ? first : location.pathname;
    const [path, set] = useState(here());
    useEffect(() => {
        const tell = () => set(here());
        const onLink = (event) => {
            const link = linkOf(event, ours);
            if (!link)
                return;
            event.preventDefault();
            go(link.pathname + link.search);
        };
        moved.add(tell);
        addEventListener("popstate", tell);
        document.addEventListener("click", onLink);
        return () => {
            moved.delete(tell);
            removeEventListener("popstate", tell);
            document.removeEventListener("click", onLink);
        };
    }, []);
    return path;
}
