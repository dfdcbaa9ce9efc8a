#include "cli/cli.h"

int main(int argc, char **argv)
{
    return dw_cli_run(argc, argv);
}
