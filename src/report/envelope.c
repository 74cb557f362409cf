#include "json_out.h"
#include "scatterwise/report.h"
