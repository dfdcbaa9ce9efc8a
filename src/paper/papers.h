/* The papers, one file each. Inside src/paper. */
#ifndef DW_PAPER_PAPERS_H
#define DW_PAPER_PAPERS_H

#include "paper/sheet.h"

/* Read what the paper tells and print it. The sheet is open. */
typedef dw_status dw_paper__maker(dw_sheet *sheet,
                                  const dw_paper_request *request,
                                  dw_paper *paper);

dw_paper__maker dw_paper__batch, dw_paper__procedure, dw_paper__scale,
    dw_paper__run, dw_paper__day, dw_paper__handover, dw_paper__labels,
    dw_paper__pull, dw_paper__drops, dw_paper__recall;

#endif
