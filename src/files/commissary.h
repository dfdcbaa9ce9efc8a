/* The demo's shop file, examples/commissary/shop.yaml, inside the program. */
#ifndef DW_FILES_COMMISSARY_H
#define DW_FILES_COMMISSARY_H

#include <stddef.h>

extern const char dw_commissary_yaml[];
extern const size_t dw_commissary_yaml_bytes;

#endif
