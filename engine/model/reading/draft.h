#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/model/circuit.h"
#include "engine/model/reading/report.h"

namespace halfsplit::model::reading {

enum class Sort { part, wire, plug, quantity };

/// Ids that share one name space, with what they stand for and where.
class Ids {
  public:
    struct Entry {
        Sort sort = Sort::part;
        int index = 0;  ///< of the part (also for its plug), wire or quantity
        Location where;
    };
    /// nullptr where the id was free; else what has it already, and nothing changes.
    const Entry* add(const std::string& id, Entry entry);
    const Entry* find(std::string_view id) const;
    std::optional<int> find(std::string_view id, Sort sort) const;
    /// All ids of one sort, for suggestions.
    std::vector<std::string_view> all(Sort sort) const;

  private:
    std::map<std::string, Entry, std::less<>> entries_;
};

/// A circuit being put together: its parts and wires, those of the files it includes, and what can be found
/// by which id.
struct Draft {
    Circuit circuit;
    /// Parts, wires, plugs and quantities: whatever a fault, a reading or a `set` can name.
    Ids things;
    std::map<std::string, Location, std::less<>> places;
    std::map<std::string, Location, std::less<>> states;
    /// Ids of what is there but wrong: no more is said about references to them.
    std::set<std::string, std::less<>> spoiled;
    /// An include could not be read, so what seems to be missing may be there.
    bool incomplete = false;

    bool may_exist(std::string_view id) const { return incomplete || spoiled.count(id) > 0; }
    const Part& part(int index) const { return circuit.parts.at(static_cast<std::size_t>(index)); }
};

/// Adds the thing under its id, or reports where the id first stands.
bool add_thing(const Context& context, Draft& draft, const std::string& id, Ids::Entry entry);

}  // namespace halfsplit::model::reading
