/* Week: the plan of the next fourteen days, what they may want, and what is
 * known about it. /week/sales takes a register's file in. */

import { html } from "../lib/view.js";
import { Demand } from "./week/demand.js";
import { Plan } from "./week/plan.js";
import { Sales } from "./week/sales.js";

export function Page({ path }) {
    return path === "/week/sales" ? html`<${Sales} />`
        : html`<div class="stack-wide"><${Plan} /><${Demand} /></div>`;
}
