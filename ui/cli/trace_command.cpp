#include "ui/cli/command.h"
namespace halfsplit::cli { void add_trace_command(CLI::App&, int&) {} }
