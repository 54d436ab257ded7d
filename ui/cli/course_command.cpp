#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/instruments/recorder.h"
#include "engine/simulation/course.h"
#include "engine/simulation/read_sets.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/cli/progress.h"
#include "ui/view/course_state_json.h"
#include "ui/view/course_text.h"

namespace halfsplit::cli {

namespace {

struct CourseOptions {
    CircuitOptions circuit;
    std::string format;
    std::string script;
    std::vector<std::string> record;
    std::string save;
    std::string resume;
    double until_s = 10;
    double every_s = 0.1;
};

tl::expected<std::vector<simulation::TimedSet>, Diagnostics> script_of(const CourseOptions& options) {
    if (options.script.empty()) return std::vector<simulation::TimedSet>{};
    return read_text(options.script).and_then([&](const std::string& text) {
        return simulation::read_sets(text, options.script);
    });
}

tl::expected<std::vector<instruments::Channel>, Diagnostics> channels_of(const model::Circuit& circuit,
                                                                         const CourseOptions& options) {
    std::vector<instruments::Channel> channels;
    Diagnostics problems;
    for (const std::string& name : options.record) {
        auto channel = instruments::channel_for(circuit, name);
        if (channel)
            channels.push_back(std::move(*channel));
        else
            problems.push_back(problem("--record " + name + ": " + channel.error()));
    }
    if (!problems.empty()) return tl::unexpected(problems);
    return channels;
}

void print_course(const model::Circuit& circuit, const CourseOptions& options,
                  const std::vector<instruments::Channel>& channels, const instruments::Recording& recording,
                  const std::vector<simulation::CourseEvent>& events) {
    if (options.format == "json") {
        std::cout << view::course_json(circuit, channels, recording, events) << "\n";
    } else if (options.format == "csv") {
        std::cout << view::csv_text(view::recording_table(channels, recording));
    } else {
        if (!channels.empty())
            std::cout << view::aligned_text(view::recording_table(channels, recording)) << "\n";
        std::cout << (events.empty() ? "Nothing happens.\n"
                                     : view::aligned_text(view::event_table(circuit, events)));
    }
}

using Begun = tl::expected<simulation::Course, Diagnostics>;

Begun begun(const model::Circuit& circuit, const simulation::Settled& settled, const CourseOptions& options,
            const std::vector<instruments::Channel>& channels) {
    const auto sets = script_of(options);
    if (!sets) return tl::unexpected(sets.error());
    network::Situation probed = settled.situation;
    instruments::connect(channels, probed);
    const auto connected = simulation::settle_again(circuit, settled, probed);
    if (!connected) return tl::unexpected(connected.error());
    return simulation::Course::begin(circuit, *connected, *sets);
}

Begun resumed(const model::Circuit& circuit, const CourseOptions& options) {
    const auto text = read_text(options.resume);
    if (!text) return tl::unexpected(text.error());
    const auto state = view::read_saved_course(circuit, *text);
    if (!state) return tl::unexpected(Diagnostics{{{options.resume, 0, 0}, state.error()}});
    return simulation::Course::resume(circuit, *state);
}

int run_course(const model::Circuit& circuit, Begun course, const CourseOptions& options,
               const std::vector<instruments::Channel>& channels) {
    if (!course) {
        print(course.error());
        const bool is_of_a_file = !course.error().front().where.file.empty();
        return is_of_a_file ? kAnswerIsNo : kUsage;
    }
    if (options.until_s < course->now_s()) {
        std::cerr << "error: the saved course is at " << course->now_s()
                  << " s already; a later --until was expected\n";
        return kUsage;
    }
    Progress progress;
    const auto tell = [&](double time_s) {
        progress.tell(
            [&](std::ostream& out) { out << "at " << time_s << " s of " << options.until_s << " s"; });
    };
    const auto recording = instruments::record(*course, channels, options.every_s, options.until_s, tell);
    if (!recording) {
        print(recording.error());
        return kAnswerIsNo;
    }
    print_course(circuit, options, channels, *recording, course->take_events());
    if (options.save.empty()) return kDone;
    return write_out(view::saved_course(circuit, course->state()) + "\n", options.save);
}

int run_as_asked(const CourseOptions& options) {
    const auto run = [&](const model::Circuit& circuit, const auto& begin) {
        const auto channels = channels_of(circuit, options);
        if (channels) return run_course(circuit, begin(*channels), options, *channels);
        print(channels.error());
        return kUsage;
    };
    if (options.resume.empty())
        return with_settled_circuit(
            options.circuit, [&](const model::Circuit& circuit, const simulation::Settled& settled) {
                return run(circuit, [&](const std::vector<instruments::Channel>& channels) {
                    return begun(circuit, settled, options, channels);
                });
            });
    const auto circuit = read_circuit_file(options.circuit.file);
    if (!circuit) {
        print(circuit.error());
        return kAnswerIsNo;
    }
    return run(*circuit, [&](const auto&) { return resumed(*circuit, options); });
}

}  // namespace

void add_course_command(CLI::App& program, int& exit_status) {
    CLI::App* command =
        program.add_subcommand("course", "What happens in the course of time: events, and a recording");
    const auto options = std::make_shared<CourseOptions>();
    add_circuit_options(*command, options->circuit);
    command
        ->add_option("--script", options->script,
                     "File of what is done when, one line each: 2.5 S1=run, or 4 speed=50 over 10")
        ->type_name("FILE");
    command->add_option("--until", options->until_s, "How long, in s")
        ->check(CLI::Range(0.0, 1e6))
        ->capture_default_str();
    command
        ->add_option("--record", options->record,
                     "Points (V), wires or elements (A) to record, separated by commas")
        ->delimiter(',')
        ->type_name("POINT,...")
        ->allow_extra_args(false);
    command->add_option("--every", options->every_s, "Time between samples, in s")
        ->check(CLI::Range(1e-6, 1e6))
        ->capture_default_str();
    add_format_option(*command, options->format, {"text", "csv", "json"});
    command->add_option("--save", options->save, "At the end, write the course to this file, to go on from")
        ->type_name("FILE");
    CLI::Option* resume = command->add_option("--resume", options->resume,
                                              "Go on from a file written by --save, with the same --record");
    resume->type_name("FILE");
    for (const char* other : {"--state", "--set", "--fault", "--unplug", "--pull", "--script"})
        resume->excludes(command->get_option(other));
    command->callback([options, &exit_status] { exit_status = run_as_asked(*options); });
}

}  // namespace halfsplit::cli
