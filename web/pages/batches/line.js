/* One batch as a sentence: what it is, where it is, what is next and when. */

import { html, useNow } from "../../lib/view.js";
import { civilDay, writeClock } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";
import { away } from "../mix/words.js";

const at = (ms) => writeClock(ms);

const STATES = {
    planned: (batch, now) => t("Mix at {time}, {away}.",
        { time: at(batch.planned_ms), away: away(batch.planned_ms, now) }),
    mixing: (batch) => t("In work since {time}.",
        { time: at(batch.started_ms) }),
    mixed: (batch) => t("Off the mixer at {time}: divide and box.",
        { time: at(batch.stopped_ms) }),
    boxed: (batch, now) => batch.close_due_ms
        ? t("In the cold room, open. Close it by {time}, {away}.",
            { time: at(batch.close_due_ms),
                away: away(batch.close_due_ms, now) })
        : t("In the cold room, open."),
    closed: (batch) => t("Closed at {time}.", { time: at(batch.closed_ms) }),
    abandoned: () => t("Given up."),
};

export function piecesSentence(pieces) {
    return pieces.filter(({ piece }) => piece.balls_planned > 0)
        .map(({ piece, name }) => t("{count} of {name}", {
            count: piece.balls_made ?? piece.balls_planned, name }))
        .join(", ");
}

export function BatchLine({ line, today }) {
    const now = useNow();
    const { batch, formula_name, pieces, mixer_name, person_name } = line;
    const older = batch.day !== today.day;
    return html`
        <li data-state=${batch.state}>
            <a href=${`/mix/${batch.id}`}>
                <span class="batch-number">${batch.number}</span>
                <span class="batch-words">
                    <b>${formula_name}</b>
                    <span>${piecesSentence(pieces)}</span>
                    <span class="quiet">${[mixer_name, person_name,
        older && civilDay(batch.day), line.changes > 0 &&
            tn("{n} thing was off", "{n} things were off", line.changes)]
        .filter(Boolean).join(" \u00b7 ")}</span>
                </span>
                <span class="batch-state">
                    ${STATES[batch.state](batch, now)}</span>
            </a>
        </li>`;
}
