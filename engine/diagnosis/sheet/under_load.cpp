#include "engine/diagnosis/sheet/under_load.h"

#include <algorithm>
#include <utility>

#include "engine/base/index.h"
#include "engine/diagnosis/sheet/test_points.h"

namespace halfsplit::diagnosis {

namespace {

/// Wires up to here are stubs of a rail; a run is worth two leads from kRunM on. From memory.
constexpr double kStubM = 0.2;
constexpr double kRunM = 0.5;

class Collector {
  public:
    explicit Collector(const model::Circuit& circuit) : circuit_(circuit) {}

    void follow(const LiveWay& way) {
        const Passage* last = nullptr;  // that is more than a joint
        std::vector<int> wires;         // since then
        int couplings = 0;              // since then
        for (const Passage& passage : way.passages) {
            wires.insert(wires.end(), passage.wires.begin(), passage.wires.end());
            if (passage.kind == Passage::Kind::joint) {
                ++couplings;
                continue;
            }
            if (last != nullptr && passage.kind == Passage::Kind::ground)
                add({Practice::ground, last->out, "body", -1, {}, couplings});
            else if (last != nullptr)
                add_run(*last, passage, wires, couplings);
            add_passage(passage);
            last = &passage;
            wires.clear();
            couplings = 0;
        }
    }

    std::vector<UnderLoad> take() { return std::move(found_); }

  private:
    void add(UnderLoad what) {
        const auto same = [&](const UnderLoad& each) {
            return each.at == what.at && each.against == what.against;
        };
        const auto known = std::ranges::find_if(found_, same);
        if (known == found_.end()) {
            found_.push_back(std::move(what));
        } else if (known->practice == Practice::none) {
            known->practice = what.practice;
            known->couplings = what.couplings;
        }
    }

    void add_passage(const Passage& passage) {
        switch (passage.kind) {
            case Passage::Kind::fuse:
                return add({Practice::fuse, passage.in, passage.out, passage.part});
            case Passage::Kind::contact:
                return add({Practice::contact, passage.in, passage.out});
            case Passage::Kind::load:
                add({Practice::none, passage.in, "body"});
                return add({Practice::none, passage.out, "body"});
            case Passage::Kind::ground:
                return add({Practice::ground, passage.in, "body"});
            case Passage::Kind::supply:
            case Passage::Kind::joint:
                return;
        }
    }

    void add_run(const Passage& from, const Passage& to, const std::vector<int>& wires, int couplings) {
        std::vector<int> counted;
        double length_m = 0;
        for (const int wire : wires) {
            if (circuit_.wires[at(wire)].length_m <= kStubM) continue;
            counted.push_back(wire);
            length_m += circuit_.wires[at(wire)].length_m;
        }
        if (length_m < kRunM || place_of(circuit_, from.part) == place_of(circuit_, to.part)) return;
        if (std::ranges::find(runs_, counted) != runs_.end()) return;
        runs_.push_back(counted);
        add({Practice::wire, from.out, to.in, -1, wires, couplings});
    }

    const model::Circuit& circuit_;
    std::vector<UnderLoad> found_;
    std::vector<std::vector<int>> runs_;
};

}  // namespace

std::vector<UnderLoad> under_load(const model::Circuit& circuit, const std::vector<LiveWay>& ways) {
    Collector collector(circuit);
    for (const LiveWay& way : ways)
        if (way.current_a >= kUnderLoadA) collector.follow(way);
    return collector.take();
}

}  // namespace halfsplit::diagnosis
