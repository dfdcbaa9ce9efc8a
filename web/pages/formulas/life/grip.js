/* Something on a drawing that can be taken and moved, by finger or keys: a
 * slider of ARIA with a touch place of 48 px. */

import { html, useRef } from "../../../lib/view.js";

const KEYS = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1,
    PageDown: -10, PageUp: 10 };

/* value, low, high, step: in the unit of the thing; said: the value in words;
 * read(point): what the place of the finger means, point in pixels of the
 * drawing; onValue(value, resting). */
export function Grip({ name, said, value, low, high, step, upright, x, y, read,
    onValue, children }) {
    const held = useRef(false);
    const inside = (one) => Math.min(high, Math.max(low,
        Math.round(one / step) * step));

    function pointOf(event) {
        const box = event.currentTarget.ownerSVGElement
            .getBoundingClientRect();
        return { x: event.clientX - box.left, y: event.clientY - box.top };
    }
    function take(event) {
        held.current = true;
        event.currentTarget.setPointerCapture(event.pointerId);
        event.currentTarget.focus();
        event.preventDefault();
    }
    function move(event) {
        if (held.current)
            onValue(inside(read(pointOf(event))), false);
    }
    function drop() {
        if (held.current)
            onValue(value, true);
        held.current = false;
    }
    function key(event) {
        const by = KEYS[event.key];
        const to = event.key === "Home" ? low : event.key === "End" ? high
            : by && value + by * step;
        if (to === undefined)
            return;
        event.preventDefault();
        onValue(inside(to), true);
    }
    return html`
        <g class="grip" role="slider" tabindex="0" aria-label=${name}
            aria-orientation=${upright ? "vertical" : "horizontal"}
            aria-valuemin=${low} aria-valuemax=${high} aria-valuenow=${value}
            aria-valuetext=${said} onPointerDown=${take} onPointerMove=${move}
            onPointerUp=${drop} onPointerCancel=${drop} onKeyDown=${key}>
            <rect class="reach" x=${x - 24} y=${y - 24} width="48"
                height="48" />
            ${children}
            <circle cx=${x} cy=${y} r="9" />
            <path class="grip-sign" d=${upright
        ? `M${x - 4},${y - 2}l4,-4l4,4M${x - 4},${y + 2}l4,4l4,-4`
        : `M${x - 2},${y - 4}l-4,4l4,4M${x + 2},${y - 4}l4,4l-4,4`} />
        </g>`;
}
