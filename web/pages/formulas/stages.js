/* Preferments: part of the flour taken earlier, with what goes with it. Most
 * formulas have none; what shows them is fetched for the first. */

import { html, useLoaded } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { Pick } from "../../parts/pick.js";
import { addStage } from "./draft.js";
import { isYeast, stageKinds, wordOf } from "./words.js";

/* What each kind usually starts from, percent of its own flour: [water,
 * yeast as a share of the total's]; old dough is made like the total. */
const START = { poolish: [100, 0.1], biga: [50, 0.3], sponge: [60, 0.5] };

/* The lines of a new stage, named as the total's lines are. */
function startLines(kind, lines) {
    const first = (test) => lines.find((line) => test(line.kind));
    const flour = first((one) => one === "flour");
    const water = first((one) => one === "water");
    const yeast = first(isYeast);
    if (kind === "old_dough")
        return lines.map((line) => ({ ...line }));
    const [water_percent, share] = START[kind];
    return [
        { ...flour, percent: 100 },
        water && { ...water, percent: water_percent },
        yeast && { ...yeast, percent: yeast.percent * share },
    ].filter(Boolean);
}

const loadParted = () => import("./parted.js").then((it) => it.Parted);

export function Stages({ draft, scaled, request, units, onChange }) {
    const some = draft.stages.length > 0;
    const Parted = useLoaded(some ? loadParted : null);
    const set = (stages) => onChange({ stages, slips_accepted: false });
    function add(kind) {
        const name = wordOf(stageKinds(), kind);
        set(addStage(draft, name, kind, startLines(kind, draft.lines)));
    }
    return html`
        <section class=${some ? "stack" : "stack screen-only"}
            aria-labelledby="stages-head">
            <div class="section-head">
                <h2 id="stages-head">${t("Preferments")}</h2>
            </div>
            ${Parted && html`
                <${Parted} ...${{ draft, scaled, request, units }}
                    onStages=${set} />`}
            <div class="screen-only"><${Pick} heard value=""
                name=${t("Add a preferment")}
                options=${[["", t("Add a preferment\u2026")],
        ...stageKinds()]}
                onPick=${(kind) => kind && add(kind)} /></div>
        </section>`;
}
