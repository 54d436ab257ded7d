#include "engine/diagnosis/sheet/caution.h"

#include <algorithm>
#include <initializer_list>
#include <numeric>
#include <string_view>

#include "engine/base/index.h"

namespace halfsplit::diagnosis {

namespace {

class Cautions {
  public:
    Cautions(const model::Circuit& circuit, const std::vector<int>& parts)
        : circuit_(circuit), parts_(parts) {
        if (!parts_.empty()) return;
        parts_.resize(circuit.parts.size());
        std::iota(parts_.begin(), parts_.end(), 0);
    }

    /// Only where the circuit has such parts; they are named.
    void about(std::initializer_list<std::string_view> elements, std::string text) {
        std::vector<int> parts = parts_of(elements);
        if (!parts.empty()) found_.push_back({std::move(text), std::move(parts), false});
    }
    /// Only where the circuit has such parts; which ones goes without saying.
    void where(std::initializer_list<std::string_view> elements, std::string text) {
        if (!parts_of(elements).empty()) found_.push_back({std::move(text), {}, false});
    }
    void always(std::string text) { found_.push_back({std::move(text), {}, true}); }

    std::vector<Caution> take() { return std::move(found_); }

  private:
    std::vector<int> parts_of(std::initializer_list<std::string_view> elements) const {
        std::vector<int> found;
        for (const int part : parts_)
            if (std::ranges::find(elements, circuit_.parts[at(part)].kind->element) != elements.end())
                found.push_back(part);
        return found;
    }

    const model::Circuit& circuit_;
    std::vector<int> parts_;  ///< those in question
    std::vector<Caution> found_;
};

}  // namespace

std::vector<Caution> cautions_for(const model::Circuit& circuit, const std::vector<int>& parts) {
    Cautions cautions(circuit, parts);
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
        "The maker's current instructions, local codes and a licensed practitioner come before this program. "
        "High-voltage systems are out of its scope.");
    return cautions.take();
}

}  // namespace halfsplit::diagnosis
