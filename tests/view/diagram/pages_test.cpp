#include "ui/view/diagram/pages/pages.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "tests/support/circuit_text.h"
#include "tests/view/diagram/drawing_checks.h"
#include "tests/view/diagram/shipped.h"
#include "ui/view/diagram/crossings.h"

namespace halfsplit {

using namespace test;
using namespace view::diagram;

namespace {

using Complaints = std::vector<std::string>;
using PagesByPoint = std::map<std::string, std::set<int>>;

const model::Circuit& whole_van() {
    static const model::Circuit van = circuit_file("circuits/van-body.circuit.xml");
    return van;
}

const std::vector<Page>& van_pages() {
    static const std::vector<Page> pages = pages_of(whole_van());
    return pages;
}

void check_none(const Complaints& complaints) {
    for (std::size_t i = 0; i < std::min<std::size_t>(complaints.size(), 10); ++i)
        UNSCOPED_INFO(complaints[i]);
    CHECK(complaints.size() == 0);
}

/// A map repeats wires of other pages without their colours and sizes in letters.
Complaints complaints_of_map(const Diagram& diagram) {
    Complaints all;
    for (const auto& check :
         {lines_through_symbols, false_joints, illegible_texts, dots_amiss, out_of_bounds}) {
        const Complaints some = check(diagram);
        all.insert(all.end(), some.begin(), some.end());
    }
    return all;
}

/// On which pages a wire ends on a point.
PagesByPoint wired_on(const std::vector<Page>& pages) {
    PagesByPoint found;
    for (int page = 0; page < static_cast<int>(pages.size()); ++page)
        if (!pages[static_cast<std::size_t>(page)].is_map)
            for (const WireLine& wire : pages[static_cast<std::size_t>(page)].diagram.wires)
                for (const std::string& point : {wire.from, wire.to}) found[point].insert(page);
    return found;
}

/// The pages somebody gets to who follows a point's references from one of them. On the map it is the line of
/// the ground point that leads on.
std::set<int> reached(const std::vector<Page>& pages, const std::string& point, int from) {
    std::set<int> seen{from};
    std::vector<int> open{from};
    while (!open.empty()) {
        const Page& page = pages[static_cast<std::size_t>(open.back())];
        open.pop_back();
        for (const Label& label : page.diagram.labels)
            if (label.role == Label::Role::reference && label.owner == point &&
                seen.insert(label.page).second)
                open.push_back(label.page);
    }
    return seen;
}

/// The references on a map's line of a part, without their arrows: "3: K2, P5".
std::string line_of(const Diagram& diagram, const std::string& part) {
    std::string text;
    int top = 0;
    for (const Label& label : diagram.labels)
        if (label.owner == part && label.role == Label::Role::part && label.text.starts_with(part))
            top = label.box.top;
    for (const Label& label : diagram.labels)
        if (label.owner == part && label.box.top == top && label.role != Label::Role::part)
            text += (text.empty() ? "" : " | ") + label.text;
    return text;
}

}  // namespace

TEST_CASE("Every page of the whole van is drawn completely, legibly and without false joints") {
    REQUIRE(van_pages().size() > 15);
    for (const Page& page : van_pages()) {
        INFO(page.title);
        check_none(page.is_map ? complaints_of_map(page.diagram)
                               : all_complaints(page.diagram, whole_van(), page.selection));
    }
}

TEST_CASE("The map of every circuit is drawn legibly, without false joints and without a crossing") {
    for (const std::string& path : shipped_circuits()) {
        INFO(path);
        const Page map = map_of(circuit_file(path));
        check_none(complaints_of_map(map.diagram));
        CHECK(crossings(map.diagram) == 0);
    }
}

TEST_CASE("A page holds wires that no other holds, and all pages together hold all") {
    std::map<std::string, int> drawn;
    std::set<std::string> parts;
    for (const Page& page : van_pages()) {
        if (page.is_map) continue;
        for (const WireLine& wire : page.diagram.wires) ++drawn[wire.wire];
        for (const int part : page.selection.parts)
            parts.insert(whole_van().parts[static_cast<std::size_t>(part)].id);
    }
    CHECK(drawn.size() == whole_van().wires.size());
    for (const auto& [wire, times] : drawn) {
        INFO(wire);
        CHECK(times == 1);
    }
    CHECK(parts.size() == whole_van().parts.size());
}

// Common practice with diagrams of several sheets, and IEC 61082-1 (from memory): a line that goes on
// elsewhere says where, at both of its ends.
TEST_CASE("Whatever goes on elsewhere says so, and by following that one gets to all of it") {
    int several = 0;
    for (const auto& [point, pages] : wired_on(van_pages())) {
        if (pages.size() < 2) continue;
        ++several;
        for (const int page : pages) {
            INFO(point << " from page " << page + 1);
            const std::set<int> found = reached(van_pages(), point, page);
            CHECK(std::includes(found.begin(), found.end(), pages.begin(), pages.end()));
        }
    }
    CHECK(several > 20);
}

TEST_CASE("A reference leads to a page that draws what it names") {
    for (std::size_t number = 0; number < van_pages().size(); ++number)
        for (const Label& label : van_pages()[number].diagram.labels) {
            if (label.role != Label::Role::reference) continue;
            INFO("page " << number + 1 << ", \"" << label.text << "\"");
            REQUIRE(label.page >= 0);
            REQUIRE(label.page < static_cast<int>(van_pages().size()));
            const Diagram& there = van_pages()[static_cast<std::size_t>(label.page)].diagram;
            const std::string part(model::split_point(label.leads_to).part);
            const bool is_drawn =
                std::ranges::any_of(there.symbols,
                                    [&](const Symbol& symbol) {
                                        return symbol.part == part || symbol.part == label.leads_to;
                                    }) ||
                std::ranges::any_of(there.rails,
                                    [&](const Rail& rail) { return rail.splice == label.leads_to; });
            CHECK(is_drawn);
        }
}

TEST_CASE("The map has every fuse, breaker, link and ground point once") {
    for (const std::string& path : shipped_circuits()) {
        const model::Circuit circuit = circuit_file(path);
        std::map<std::string, int> shown;
        for (const Symbol& symbol : map_of(circuit).diagram.symbols) ++shown[symbol.part];
        for (const model::Part& part : circuit.parts) {
            const bool is_wanted = part.kind->letter == "F" || part.kind->element == "ground-point";
            INFO(path << " " << part.id);
            CHECK(shown[part.id] == (is_wanted ? 1 : 0));
        }
    }
}

// Followed by hand on circuits/horn.circuit.xml: F7 feeds both horns over the relay's contact, F8 its coil;
// the horns return to E3, the button to E5, the battery to E1.
TEST_CASE("The map of the horns says what a fuse feeds and what hangs on a ground point") {
    const Diagram diagram = map_of(circuit_file("circuits/horn.circuit.xml")).diagram;
    CHECK(line_of(diagram, "F7") == "Horns | P3, P4");
    CHECK(line_of(diagram, "F8") == "Horn relay coil | K2");
    CHECK(line_of(diagram, "F1") == "Main fusible link | → J1");
    CHECK(line_of(diagram, "F2") == "Ignition switch feed | → J2 by S1.15");
    CHECK(line_of(diagram, "E1") == "Battery ground, left inner wing | G1");
    CHECK(line_of(diagram, "E3") == "Front left ground, inner wing | P3, P4");
    CHECK(line_of(diagram, "E5") == "Dashboard ground, left A-pillar | S5");
}

/// A fuse that feeds nothing is a slip of ours or of the author's: the shipped circuits have none.
TEST_CASE("Every fuse on the map feeds something") {
    for (const std::string& path : shipped_circuits()) {
        const model::Circuit circuit = circuit_file(path);
        const Diagram diagram = map_of(circuit).diagram;
        for (const model::Part& part : circuit.parts) {
            if (part.kind->letter != "F") continue;
            INFO(path << " " << part.id);
            const std::string line = line_of(diagram, part.id);
            CHECK(line.find(" | ") != std::string::npos);
        }
    }
}

TEST_CASE("A circuit that fits is one page without references") {
    const std::vector<Page> pages = pages_of(circuit_file("circuits/turn-signals.circuit.xml"));
    REQUIRE(pages.size() == 1);
    CHECK_FALSE(pages.front().is_map);
    CHECK(std::ranges::none_of(pages.front().diagram.labels,
                               [](const Label& label) { return label.role == Label::Role::reference; }));
}

}  // namespace halfsplit
