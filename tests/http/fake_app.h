/* An application of three operations for the server's tests: it decodes and
 * encodes like the real one, and a test can hold its worker back. */
#ifndef FAKE_APP_H
#define FAKE_APP_H

#include "app/app.h"

dw_app *fake_app_new(void);
/* While held, the worker starts no job. */
void fake_app_hold(dw_app *app, bool held);
/* Jobs that arrived so far. */
int fake_app_arrived(dw_app *app);
/* Report a write of this operation, as the writer thread would. */
void fake_app_wrote(dw_app *app, const char *op);
void fake_app_free(dw_app *app);

#endif
