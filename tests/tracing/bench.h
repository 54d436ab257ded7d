#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "engine/model/circuit.h"
#include "engine/network/network.h"
#include "engine/simulation/operating_point.h"
#include "engine/tracing/wiring.h"

namespace halfsplit::test {

/// Of the i-th of many like points.
inline std::string point_name(int i) {
    return "P" + std::to_string(i);
}

/// A small circuit put together by hand, without files, part kinds or solver: its potentials and currents are
/// those a test gives it. Pins have one side (no plugs) unless `plug` is called for.
class Bench {
  public:
    Bench();

    /// A part of the IEC 81346-2 class `letter`; no pins: it is one point.
    void part(const std::string& id, std::string_view letter, const std::vector<std::string>& pins = {},
              const std::string& place = "");
    /// Gives each of the part's pins a second side behind a plug contact; before any element of the part.
    void plug(const std::string& part);
    /// An element between two pins of a part; `to` "body" or a pin; a pin "*…" is a node inside the part.
    void element(const std::string& part, const std::string& name, const std::string& from,
                 const std::string& to, const model::Law& law, const std::vector<int>& conducts_in = {});
    /// A switching contact.
    void contact(const std::string& part, const std::string& name, const std::string& from,
                 const std::string& to, const std::vector<int>& conducts_in);
    void wire(const std::string& id, const std::string& from, const std::string& to,
              const std::string& colour = "", double area_mm2 = 0);
    /// A branch that a fault put there.
    void leak(const std::string& name, const std::string& from, const std::string& to);

    // A battery G1 with its negative pole on the body (by cable W0 and ground point E1), a fuse, a lamp with
    // pins 1 and 2, a single-pole switch with pins 1 and 2 (condition 0 open, 1 closed), a ground point.
    void battery();
    void fuse(const std::string& id);
    void lamp(const std::string& id);
    void on_off_switch(const std::string& id);
    void ground_point(const std::string& id);

    void open(const std::string& branch);  ///< tears it
    void put(const std::string& part, int condition);
    void carries(const std::string& branch, double current_a);  ///< from its first end to its second
    void reads(const std::string& point, double potential_v);

    int branch(const std::string& name) const;
    int node(const std::string& point) const;
    tracing::Wiring wiring() const { return {circuit, network, point}; }

    model::Circuit circuit;
    network::Network network;
    simulation::OperatingPoint point;

  private:
    int part_index(const std::string& id) const;
    int add_node(const std::string& name);
    int side_of(const std::string& part, const std::string& pin);
    void add_branch(network::NetworkBranch branch);

    std::deque<model::PartKind> kinds_;
};

}  // namespace halfsplit::test
