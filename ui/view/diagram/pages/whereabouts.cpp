#include "ui/view/diagram/pages/whereabouts.h"

#include <algorithm>
#include <set>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

Whereabouts::Whereabouts(const model::Circuit& circuit, const Heights& heights,
                         const std::vector<PageCut>& cuts, int first)
    : circuit_(circuit), is_on_several_(cuts.size() > 1), page_of_part_(circuit.parts.size(), -1) {
    std::vector<std::map<int, int>> wires_of_part(circuit.parts.size());
    std::map<Point, double> highest;
    for (int cut = 0; cut < static_cast<int>(cuts.size()); ++cut) {
        const int page = first + cut;
        const Selection& selection = cuts[at(cut)].selection;
        for (const int part : selection.parts)
            if (page_of_part_[at(part)] < 0) page_of_part_[at(part)] = page;
        for (const int index : selection.wires) {
            const model::Wire& wire = circuit.wires[at(index)];
            for (const auto& [own, other] : {std::pair(wire.from, wire.to), std::pair(wire.to, wire.from)}) {
                const Point point{own.part, own.pin};
                wires_[point][page].push_back(index);
                ++wires_of_part[at(own.part)][page];
                const auto [found, is_new] = highest.try_emplace(point, heights.of(other));
                if (!is_new && !Heights::is_above(heights.of(other), found->second)) continue;
                found->second = heights.of(other);
                home_[point] = page;
            }
        }
    }
    for (std::size_t part = 0; part < circuit.parts.size(); ++part) {
        const auto most =
            std::ranges::max_element(wires_of_part[part], {}, &std::pair<const int, int>::second);
        if (most != wires_of_part[part].end()) page_of_part_[part] = most->first;
    }
}

std::vector<int> Whereabouts::pages_at(model::PinRef point) const {
    std::vector<int> pages;
    if (const auto found = wires_.find({point.part, point.pin}); found != wires_.end())
        for (const auto& [page, wires] : found->second) pages.push_back(page);
    return pages;
}

std::vector<int> Whereabouts::parts_from(model::PinRef point, int page) const {
    std::set<int> parts;
    for (const int index : wires_.at({point.part, point.pin}).at(page)) {
        const model::Wire& wire = circuit_.wires[at(index)];
        parts.insert(wire.from == point ? wire.to.part : wire.from.part);
    }
    return {parts.begin(), parts.end()};
}

int Whereabouts::home_of(model::PinRef point) const {
    return home_.at({point.part, point.pin});
}

int Whereabouts::page_of(int part) const {
    return page_of_part_.at(at(part));
}

std::string page_number(int page) {
    return std::to_string(page + 1);
}

}  // namespace halfsplit::view::diagram
