#include "business.h"
#include "dw_test.h"

#include <string.h>

TEST(the_journal_holds_and_grows_by_one_row_a_write, LIMIT,
     "DESIGN: everything a user does appends to the journal")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "journal.verify", "{}");
    double rows = business_number(&b, "rows");
    char hash[65] = "";
    snprintf(hash, sizeof hash, "%s", business_text(&b, "hash"));
    SAME(strlen(hash), 64);
    CHECK(rows > 0);
    business_wait(&b, 1);
    business_do(&b, "reading.save", "{'kind': 'room_c', 'celsius': 22}");
    business_do(&b, "journal.verify", "{}");
    NEAR(business_number(&b, "rows"), rows + 1, 0);
    NEAR(business_number(&b, "received_ms"), (double)b.now_ms, 0);
    CHECK(strcmp(business_text(&b, "hash"), hash) != 0);
    business_stop(&b);
}
