#include "ui/view/course_state_json.h"

#include <catch2/catch.hpp>

#include "engine/instruments/recorder.h"
#include "engine/simulation/read_sets.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using simulation::Course;

namespace {

struct Bench {
    model::Circuit circuit = test::circuit_file("circuits/entry-step.circuit.xml");
    std::vector<instruments::Channel> channels{{"A1.5", false}, {"M7.armature", true}};

    Course course() const {
        const auto parked = simulation::settle(circuit, {}, circuit.find_state("step-parked")->steps);
        REQUIRE(parked);
        network::Situation probed = parked->situation;
        instruments::connect(channels, probed);
        const auto connected = simulation::settle_again(circuit, *parked, probed);
        REQUIRE(connected);
        auto sets = simulation::read_sets(test::file_text("circuits/entry-step.trip.txt"), "trip");
        REQUIRE(sets);
        auto begun = Course::begin(circuit, *connected, std::move(*sets));
        REQUIRE(begun);
        return std::move(*begun);
    }

    std::vector<std::vector<double>> rows(Course& course, double until_s) const {
        const auto recording = instruments::record(course, channels, 0.05, until_s);
        REQUIRE(recording);
        return recording->rows;
    }
};

}  // namespace

TEST_CASE("A course that is saved as text goes on from it to the same bits, in the middle of a ramp too") {
    const Bench bench;
    Course whole = bench.course();
    const auto expected = bench.rows(whole, 20);
    for (const double stop_s : {3.5, 11.5}) {
        Course first = bench.course();
        auto rows = bench.rows(first, stop_s);
        const auto state =
            view::read_saved_course(bench.circuit, view::saved_course(bench.circuit, first.state()));
        REQUIRE(state);
        auto second = Course::resume(bench.circuit, *state);
        REQUIRE(second);
        for (auto& row : bench.rows(*second, 20)) rows.push_back(std::move(row));
        CHECK(rows == expected);
    }
}

TEST_CASE("What is no saved course, or one of another circuit, or damaged, is refused") {
    const Bench bench;
    Course course = bench.course();
    REQUIRE(course.run_until(4));
    const std::string saved = view::saved_course(bench.circuit, course.state());
    const auto refused = [&](const std::string& text) {
        const auto state = view::read_saved_course(bench.circuit, text);
        if (!state) return state.error();
        const auto resumed = Course::resume(bench.circuit, *state);
        return resumed ? std::string("accepted") : resumed.error().front().message;
    };
    CHECK(refused(saved) == "accepted");
    CHECK_THAT(refused(""), Catch::Contains("no saved course"));
    CHECK_THAT(refused("[1]"), Catch::Contains("no saved course"));
    CHECK_THAT(refused(saved.substr(0, saved.size() / 2)), Catch::Contains("no saved course"));
    const auto changed = [&](const std::string& from, const std::string& to) {
        std::string text = saved;
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        return text.replace(at, from.size(), to);
    };
    CHECK_THAT(refused(changed("\"entry-step\"", "\"horn\"")), Catch::Contains("circuit 'horn'"));
    CHECK_THAT(refused(changed("\"waiting\":[", "\"waiting\":[null,")), Catch::Contains("does not fit"));
    CHECK_THAT(refused(changed("\"conditions\":[", "\"conditions\":[9")), Catch::Contains("does not fit"));
    CHECK_THAT(refused(changed("\"configuration\":[", "\"configuration\":[-1,")),
               Catch::Contains("does not fit"));
    CHECK_THAT(refused(changed("\"beats\"", "\"beast\"")), Catch::Contains("damaged"));
}
