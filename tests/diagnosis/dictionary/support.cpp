#include "tests/diagnosis/dictionary/support.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "tests/support/circuit_text.h"

namespace halfsplit::test {

using diagnosis::Dictionary;
using diagnosis::Finding;

namespace {

void compare(const Dictionary& one, const Dictionary& other, int state, int row, Apart& apart) {
    for (int i = 0; i < static_cast<int>(one.findings.size()); ++i) {
        const Finding& finding = one.findings[at(i)];
        const double a = one.value(state, row, i);
        const double b = other.value(state, row, i);
        const double off = std::abs(a - b);
        if (finding.kind == Finding::Kind::sign) apart.signs += a == b ? 0 : 1;
        if (finding.kind == Finding::Kind::current)
            apart.worst_a = std::max(apart.worst_a, off / std::max(1.0, std::abs(b)));
        if (finding.kind != Finding::Kind::voltage || off <= apart.worst_v) continue;
        apart.worst_v = off;
        apart.where = one.states[at(state)] + ", " +
                      (row > 0 ? one.faults[at(row - 1)].fault.text : "sound") + ": " + finding.at +
                      " against " + finding.against + ": " + std::to_string(a) + " and " + std::to_string(b);
    }
}

}  // namespace

std::vector<std::string> small_circuits() {
    std::vector<std::string> names;
    const std::string ending = ".circuit.xml";
    for (const auto& entry : std::filesystem::directory_iterator(HALFSPLIT_SOURCE_DIR "/circuits")) {
        const std::string file = entry.path().filename().string();
        if (file.ends_with(ending) && file != "van-body" + ending)
            names.push_back(file.substr(0, file.size() - ending.size()));
    }
    std::ranges::sort(names);
    return names;
}

model::Circuit shipped(const std::string& name) {
    return circuit_file("circuits/" + name + ".circuit.xml");
}

Apart apart(const Dictionary& one, const Dictionary& other, diagnosis::Told told) {
    Apart apart;
    for (int state = 0; state < static_cast<int>(one.states.size()); ++state)
        for (int row = 0; row < one.rows(); ++row) {
            const bool has_one = one.told_of(state, row) != diagnosis::Told::not_at_all;
            const bool has_other = other.told_of(state, row) != diagnosis::Told::not_at_all;
            if (has_one != has_other) {
                ++apart.not_at_all;
                apart.where = one.states[at(state)] + ", " + one.faults[at(row - 1)].fault.text;
            }
            if (one.told_of(state, row) != told || !has_other) continue;
            ++apart.rows;
            compare(one, other, state, row, apart);
        }
    return apart;
}

}  // namespace halfsplit::test
