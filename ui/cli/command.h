#pragma once

namespace CLI {
class App;
}

namespace halfsplit::cli {

// Exit statuses of every command.
inline constexpr int kDone = 0;
inline constexpr int kAnswerIsNo = 1;  ///< a file has errors, a circuit does not come to rest
inline constexpr int kUsage = 2;       ///< what was asked for does not exist

/// Each command, in its own file, adds itself with its options; when it runs it leaves its exit status.
void add_check_command(CLI::App& program, int& exit_status);
void add_volts_command(CLI::App& program, int& exit_status);
void add_course_command(CLI::App& program, int& exit_status);
void add_measure_command(CLI::App& program, int& exit_status);
void add_trace_command(CLI::App& program, int& exit_status);
void add_diagram_command(CLI::App& program, int& exit_status);
void add_faults_command(CLI::App& program, int& exit_status);
void add_parts_command(CLI::App& program, int& exit_status);
void add_sheet_command(CLI::App& program, int& exit_status);
void add_suspects_command(CLI::App& program, int& exit_status);
void add_dictionary_command(CLI::App& program, int& exit_status);
void add_plan_command(CLI::App& program, int& exit_status);
void add_practise_command(CLI::App& program, int& exit_status);
void add_draft_command(CLI::App& program, int& exit_status);
void add_debrief_command(CLI::App& program, int& exit_status);
void add_results_command(CLI::App& program, int& exit_status);

}  // namespace halfsplit::cli
