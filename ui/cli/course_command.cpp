#include <CLI/CLI.hpp>
#include <chrono>
#include <fstream>
#include <iostream>
#include <memory>

#include "engine/instruments/recorder.h"
#include "engine/simulation/course.h"
#include "engine/simulation/read_sets.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/view/course_text.h"

namespace halfsplit::cli {

namespace {

struct CourseOptions {
    CircuitOptions circuit;
    std::string format;
    std::string script;
    std::vector<std::string> record;
    double until_s = 10;
    double every_s = 0.1;
};

tl::expected<std::vector<simulation::TimedSet>, Diagnostics> script_of(const CourseOptions& options) {
    if (options.script.empty()) return std::vector<simulation::TimedSet>{};
    const auto text = file_texts()(options.script);
    if (!text) return tl::unexpected(Diagnostics{{{options.script, 0, 0}, text.error()}});
    return simulation::read_sets(*text, options.script);
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

/// Tells on standard error how far it is, once a second, if it takes longer than that.
class Progress {
  public:
    explicit Progress(double until_s) : until_s_(until_s) {}
    void operator()(double time_s) {
        const auto now = std::chrono::steady_clock::now();
        if (now - told_ < std::chrono::seconds(1)) return;
        told_ = now;
        std::cerr << "at " << time_s << " s of " << until_s_ << " s\n";
    }

  private:
    double until_s_;
    std::chrono::steady_clock::time_point told_ = std::chrono::steady_clock::now();
};

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

int run_course(const model::Circuit& circuit, const simulation::Settled& settled,
               const CourseOptions& options) {
    const auto sets = script_of(options);
    if (!sets) {
        print(sets.error());
        return kAnswerIsNo;
    }
    const auto channels = channels_of(circuit, options);
    if (!channels) {
        print(channels.error());
        return kUsage;
    }
    network::Situation probed = settled.situation;
    instruments::connect(*channels, probed);
    const auto connected = simulation::settle_again(circuit, settled, probed);
    if (!connected) {
        print(connected.error());
        return kAnswerIsNo;
    }
    auto course = simulation::Course::begin(circuit, *connected, *sets);
    if (!course) {
        print(course.error());
        return kUsage;
    }
    Progress progress(options.until_s);
    const auto recording = instruments::record(*course, *channels, options.every_s, options.until_s,
                                               [&](double time_s) { progress(time_s); });
    if (!recording) {
        print(recording.error());
        return kAnswerIsNo;
    }
    print_course(circuit, options, *channels, *recording, course->take_events());
    return kDone;
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
    command->callback([options, &exit_status] {
        exit_status = with_settled_circuit(
            options->circuit, [&](const model::Circuit& circuit, const simulation::Settled& settled) {
                return run_course(circuit, settled, *options);
            });
    });
}

}  // namespace halfsplit::cli
