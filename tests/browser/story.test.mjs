/* The whole story on this machine, over plain HTTP. */

import { loopback, runAll } from "./stage.js";
import { demo } from "./story.js";

await runAll(undefined, async (folder) => {
    demo(folder);
    return loopback;
});
