#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <iostream>

#include "ui/cli/command.h"
#ifdef HALFSPLIT_WINDOW
#include "ui/cli/window_command.h"
#endif

namespace {

using namespace halfsplit::cli;

int run(int argc, char** argv) {
    CLI::App program{
        "Halfsplit: fault-finding in vehicle body electrics. Reads a circuit, computes what every point "
        "should\n"
        "read in a state, injects faults, and lets instruments load the circuit as real ones do.\n"
        "The maker's current instructions, local codes and licensed practice come before this program."};
    program.name("halfsplit");
#ifdef HALFSPLIT_WINDOW
    if (argc == 1 && is_before_a_display()) return open_empty_window();
#endif
    program.require_subcommand(1);
    program.set_help_all_flag("--help-all", "Help for every command at once");
    program.set_version_flag("--version", HALFSPLIT_VERSION);
    int exit_status = kDone;
    add_check_command(program, exit_status);
    add_volts_command(program, exit_status);
    add_course_command(program, exit_status);
    add_measure_command(program, exit_status);
    add_trace_command(program, exit_status);
    add_diagram_command(program, exit_status);
    add_faults_command(program, exit_status);
    add_parts_command(program, exit_status);
    add_sheet_command(program, exit_status);
    add_suspects_command(program, exit_status);
    add_dictionary_command(program, exit_status);
    add_plan_command(program, exit_status);
    add_practise_command(program, exit_status);
    add_draft_command(program, exit_status);
    add_debrief_command(program, exit_status);
    add_results_command(program, exit_status);
#ifdef HALFSPLIT_WINDOW
    add_window_command(program, exit_status);
#endif
    try {
        program.parse(argc, argv);
    } catch (const CLI::Success& success) {  // --help, --version
        return program.exit(success);
    } catch (const CLI::ParseError& error) {
        program.exit(error, std::cerr, std::cerr);
        return kUsage;
    }
    return exit_status;
}

}  // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::exception& slip) {
        std::fprintf(stderr, "halfsplit: internal error, please report: %s\n", slip.what());
        return kUsage;
    }
}
