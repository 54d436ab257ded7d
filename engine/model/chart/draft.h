#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/model/chart/chart.h"
#include "engine/model/chart/parse_expression.h"
#include "engine/model/reading/report.h"
#include "engine/xml/document.h"

namespace halfsplit::model::chart {

/// A chart being put together, and what its expressions can name so far.
struct Draft {
    const reading::Context& context;
    std::string_view text;  ///< of the whole file
    Chart chart = {};
    Scope scope = {};
    /// The element of each state.
    std::vector<const xml::Element*> sources = {};

    /// Where code point `column` of the attribute's value stands.
    Location at(const xml::Attribute& attribute, int column = 1) const {
        return context.at(xml::mark_in_value(text, attribute, column));
    }
    /// Nothing more is worth finding out.
    bool full() const { return context.report.full(); }
    void error(const xml::Attribute& attribute, int column, std::string message) const {
        context.report.error(at(attribute, column), std::move(message));
    }
};

/// A word of a list, and its first code point's place in it (from 1).
struct Word {
    std::string_view text;
    int column = 1;
};
std::vector<Word> words_of(std::string_view list);

/// Events of this beginning come from the unit's pins.
inline constexpr std::string_view kPinEvents = "in.";

/// Why this is no name of an event; nullopt where it is one.
std::optional<std::string> event_problem(std::string_view name);

/// The attribute as an expression of the wanted type, with the pins it asks for noted in the chart. nullopt
/// where it is not given, or wrong: that has been reported.
std::optional<Expression> read_expression(Draft& draft, const xml::Element& element, std::string_view name,
                                          std::optional<ValueType> wanted = std::nullopt);

// The steps of reading, in this order. Errors are reported and what they concern is left out.

/// The tree of states with their ids and kinds.
void read_states(Draft& draft, const xml::Element& root);

/// All <data>, in the order of the file.
void read_data(Draft& draft);

/// Transitions, initial states, and what is done on entry and exit.
void read_contents(Draft& draft);

/// The executable content of an element.
Block read_block(Draft& draft, const xml::Element& element);

std::optional<Action> read_assign(Draft& draft, const xml::Element& element);

/// The state whose descendants a transition leaves: the innermost compound state (or the root) that holds its
/// source and all targets, which is the source itself where it is compound, holds the targets and the
/// transition is internal. -1 without targets.
int transition_domain(const Chart& chart, const Transition& transition, bool internal);

/// What is wrong with entering these together: each must lie in a region of its own of a <parallel>.
std::optional<std::string> targets_problem(const Chart& chart, const std::vector<int>& targets);

}  // namespace halfsplit::model::chart
