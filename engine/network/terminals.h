#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/model/circuit.h"

namespace halfsplit::network {

/// Every place a conductor can end, before ideal shorts are merged: the body, each pin on the harness side
/// and on the part's own side of its plug, nodes inside parts and instruments. Terminals that are merged
/// share a root.
class Terminals {
  public:
    static constexpr int kBodyTerminal = 0;

    explicit Terminals(const model::Circuit& circuit);

    int harness_side(int part, int pin) const;
    int part_side(int part, int pin) const;
    int add_inner(std::string name);

    void merge(int a, int b);
    int root(int terminal) const;

    int count() const { return static_cast<int>(parent_.size()); }
    const std::string& name(int terminal) const { return names_[static_cast<std::size_t>(terminal)]; }

  private:
    int add(std::string name);

    std::vector<int> harness_base_;  // per part: terminal of its first pin
    std::vector<int> part_base_;     // the same where the part has no plug
    std::vector<int> parent_;
    std::vector<std::string> names_;
};

}  // namespace halfsplit::network
