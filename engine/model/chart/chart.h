#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/base/diagnostic.h"
#include "engine/model/chart/expression.h"

namespace halfsplit::model::chart {

// A state chart as its author wrote it, in the subset of W3C SCXML that circuits/BEHAVIOUR.md describes:
// checked, names turned into indices, never changed afterwards. What it is doing at a moment stands beside it
// (simulation::ChartState).

/// What a driver can be told: `on` and `off` for high-side and low-side drivers, `high`, `low` and `off` for
/// half-bridges.
enum class Drive : unsigned char { off, on, high, low };

/// What a driver does. `duty` is the share of time a driver that is on conducts, above 0 and up to 1.
struct DriverLevel {
    Drive drive = Drive::off;
    double duty = 1;
};

struct Action;
using Block = std::vector<Action>;

struct Raise {
    std::string event;
};
struct Send {
    std::string event;
    std::string id;                      ///< "" = none: it cannot be cancelled
    double delay_s = 0;                  ///< where there is no expression
    std::optional<Expression> delay_of;  ///< a number, in s
};
struct Cancel {
    std::string send_id;
};
struct Log {
    std::string label;                ///< "" = none
    std::optional<Expression> value;  ///< of any type
};
struct AssignData {
    int data = 0;  ///< index
    Expression value;
};
struct AssignDriver {
    std::string pin;
    std::variant<Drive, Expression> level;  ///< the expression gives the duty: a number from 0 to 1
};
struct AssignAsleep {
    Expression value;  ///< true or false
};
struct Branch {
    std::optional<Expression> condition;  ///< nullopt: `else`
    Block actions;
};
struct If {
    std::vector<Branch> branches;
};

/// One element of executable content.
struct Action {
    std::variant<Raise, Send, Cancel, Log, AssignData, AssignDriver, AssignAsleep, If> what;
    Location where;
};

struct Transition {
    int source = 0;
    std::vector<std::string>
        events;  ///< descriptors without their trailing ".*"; "*" for any; empty: eventless
    std::optional<Expression> condition;
    std::vector<int> targets;  ///< states of different regions; empty: nothing is left or entered
    /// The state whose active descendants are left (SCXML: the transition's domain); -1 without targets.
    int domain = -1;
    Block actions;
    Location where;
};

enum class StateKind : unsigned char { root, compound, atomic, parallel, final };

struct State {
    std::string id;  ///< "" for the root
    StateKind kind = StateKind::atomic;
    int parent = -1;
    int last =
        0;  ///< its last descendant, or itself: descendants are the states from its own index + 1 to here
    std::vector<int> children;
    std::vector<int> initial;  ///< what is entered with it; root and compound only
    Block initial_actions;     ///< of the transition in its <initial>
    std::vector<Transition> transitions;
    std::vector<Block> on_entry;
    std::vector<Block> on_exit;
    Location where;
};

/// Keeps the type of its first value for ever.
struct DataItem {
    std::string name;
    Expression initial;
    Location where;
};

enum class PinUse : unsigned char { volts, hertz, amperes, drive, event };

/// A pin of the unit that the chart names somewhere, for check_unit.
struct PinReference {
    PinUse use = PinUse::volts;
    std::string pin;
    std::optional<Drive> level;  ///< PinUse::drive: nullopt where the driver is given a duty
    Location where;
};

struct Chart {
    std::string name;  ///< "" where the author gives none
    std::string file;
    std::vector<State> states;  ///< in the order of the file, the root (<scxml>) first
    std::vector<DataItem> data;
    std::vector<PinReference> pins;

    const State& state(int index) const { return states[static_cast<std::size_t>(index)]; }
    std::optional<int> find_state(std::string_view id) const;
    /// Whether `state` lies inside `ancestor`; a state does not lie inside itself.
    bool is_descendant(int state_index, int ancestor) const {
        return state_index > ancestor && state_index <= state(ancestor).last;
    }
};

}  // namespace halfsplit::model::chart
