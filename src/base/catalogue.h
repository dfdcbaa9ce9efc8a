/* The compiled-in catalogues, generated from po/ by the build. */
#ifndef DW_BASE_CATALOGUE_H
#define DW_BASE_CATALOGUE_H

#include "base/mo.h"

extern const unsigned char dw_catalogue_es[];
extern const size_t dw_catalogue_es_bytes;

#endif
