#include <algorithm>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/place_of.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::diagnosis {

using model::Circuit;
using model::PinRef;

namespace {

constexpr const char* kBodyPoint = "body";

class Collector {
  public:
    explicit Collector(const Circuit& circuit) : circuit_(circuit) {
        for (const model::Part& part : circuit.parts) wired_.emplace_back(part.pins.size(), false);
        for (const model::Wire& wire : circuit.wires)
            for (const PinRef end : {wire.from, wire.to}) wired_[at(end.part)][at(end.pin)] = true;
    }

    std::vector<Finding> all() {
        add_points();
        for (const model::Wire& wire : circuit_.wires) add_drop(wire.from, wire.to);
        for (int part = 0; part < static_cast<int>(circuit_.parts.size()); ++part) {
            if (is_fuse(circuit_.parts[at(part)])) add_fuse_drop(part);
            add_contact_drops(part);
        }
        for (const model::Wire& wire : circuit_.wires) add_current(wire);
        for (const SignSource& source : sign_sources(circuit_))
            found_.push_back({Finding::Kind::sign, source.name, "", place_of(circuit_, source.part)});
        return std::move(found_);
    }

  private:
    /// At the first of the two where a place is known.
    int either_place(PinRef first, PinRef second) const {
        const int place = place_of(circuit_, first.part);
        return place >= 0 ? place : place_of(circuit_, second.part);
    }

    void add_points() {
        for (int part = 0; part < static_cast<int>(wired_.size()); ++part)
            for (int pin = 0; pin < static_cast<int>(wired_[at(part)].size()); ++pin)
                if (wired_[at(part)][at(pin)])
                    found_.push_back({Finding::Kind::voltage, circuit_.point_name({part, pin}), kBodyPoint,
                                      place_of(circuit_, part)});
    }

    void add_drop(PinRef from, PinRef to) {
        Finding drop{Finding::Kind::voltage, circuit_.point_name(from), circuit_.point_name(to),
                     either_place(from, to)};
        if (std::ranges::find(found_, drop) == found_.end()) found_.push_back(std::move(drop));
    }

    /// On the two test points of the fuse itself.
    void add_fuse_drop(int part) {
        const model::Part& fuse = circuit_.parts[at(part)];
        if (fuse.pins.size() != 2) return;
        found_.push_back({Finding::Kind::voltage, circuit_.point_name({part, 0}) + "@part",
                          circuit_.point_name({part, 1}) + "@part", place_of(circuit_, part)});
    }

    /// From the back of the plug: between wires, so only where there are some at both ends.
    void add_contact_drops(int part) {
        const model::Part& owner = circuit_.parts[at(part)];
        const auto electrics =
            network::electrics_of(circuit_, owner, owner.numbers, network::complete_quantities(circuit_, {}));
        for (const model::Element& element : electrics.elements) {
            const auto is_wired = [&](model::Terminal end) {
                return end >= 0 && at(end) < owner.pins.size() && wired_[at(part)][at(end)];
            };
            if (element.contact && is_wired(element.from) && is_wired(element.to))
                add_drop({part, element.from}, {part, element.to});
        }
    }

    /// An ideal link is no branch of the network: nobody knows what flows in it.
    void add_current(const model::Wire& wire) {
        if (wire.ohm && *wire.ohm == 0) return;
        found_.push_back({Finding::Kind::current, wire.id, "", either_place(wire.from, wire.to)});
    }

    const Circuit& circuit_;
    std::vector<std::vector<bool>> wired_;
    std::vector<Finding> found_;
};

}  // namespace

std::vector<Finding> findings_of(const Circuit& circuit) {
    return Collector(circuit).all();
}

}  // namespace halfsplit::diagnosis
