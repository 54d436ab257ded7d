#include "engine/diagnosis/sheet/caution.h"

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "engine/base/index.h"

namespace halfsplit::diagnosis {

namespace {

std::vector<int> parts_of(const model::Circuit& circuit, std::initializer_list<std::string_view> elements) {
    std::vector<int> parts;
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
        if (std::ranges::find(elements, circuit.parts[at(part)].kind->element) != elements.end())
            parts.push_back(part);
    return parts;
}

class Cautions {
  public:
    explicit Cautions(const model::Circuit& circuit) : circuit_(circuit) {}

    /// Only where the circuit has such parts; they are named.
    void about(std::initializer_list<std::string_view> elements, std::string text) {
        std::vector<int> parts = parts_of(circuit_, elements);
        if (!parts.empty()) found_.push_back({std::move(text), std::move(parts)});
    }
    /// Only where the circuit has such parts; which ones goes without saying.
    void where(std::initializer_list<std::string_view> elements, std::string text) {
        if (!parts_of(circuit_, elements).empty()) found_.push_back({std::move(text), {}});
    }
    void always(std::string text) { found_.push_back({std::move(text), {}}); }

    std::vector<Caution> take() { return std::move(found_); }

  private:
    const model::Circuit& circuit_;
    std::vector<Caution> found_;
};

}  // namespace

std::vector<Caution> cautions_for(const model::Circuit& circuit) {
    Cautions cautions(circuit);
    cautions.about({"motor", "mechanism", "lock-actuator"},
                   "Hands, hair and tools clear of what these move, they may start without warning:");
    cautions.where({"control-unit"},
                   "A control unit may start anything it drives while you measure. No bulb test lamp and no "
                   "ohmmeter on its inputs or on senders.");
    cautions.about({"heater", "horn"}, "Hot or loud while they work:");
    cautions.always("Ignition off and key out before a plug is parted or joined.");
    cautions.always("Never probe airbag or belt-tensioner circuits.");
    cautions.always("No ohmmeter on a live circuit. No jumper lead without a fuse in it.");
    cautions.where({"battery"},
                   "Before working on battery, starter or alternator cables disconnect the battery's ground "
                   "first, and connect it last.");
    cautions.where({"fuse", "circuit-breaker", "fusible-link"},
                   "Replace a fuse only after finding why it blew, never by a higher rating.");
    cautions.always(
        "The maker's current instructions, local codes and a licensed practitioner come before this sheet. "
        "High-voltage systems are out of its scope.");
    return cautions.take();
}

}  // namespace halfsplit::diagnosis
