#pragma once

#include <algorithm>
#include <deque>
#include <string>
#include <variant>
#include <vector>

#include "engine/model/chart/chart.h"

namespace halfsplit::test {

/// The algorithm of SCXML appendix D (Recommendation, 1 September 2015; from memory) procedure by procedure,
/// without the shortcuts of the engine: ancestors are walked, exit sets are computed and intersected, domains
/// are found anew. For charts whose conditions are In() and `not`, and whose actions are <log label> and
/// <raise>.
class AppendixD {
  public:
    explicit AppendixD(const model::chart::Chart& chart, int most_microsteps)
        : chart_(chart), most_microsteps_(most_microsteps) {}

    using States = std::vector<int>;
    using Transitions = std::vector<const model::chart::Transition*>;

    std::vector<std::string> trace;
    States configuration;
    bool running = true;
    bool endless = false;
    int microsteps = 0;
    int preempted = 0;

    void interpret() {
        model::chart::Transition initial;
        initial.source = 0;
        initial.targets = chart_.state(0).initial;
        enter_states({&initial});
        main_loop();
    }

    void external(const std::string& event) {
        external_.push_back(event);
        main_loop();
    }

  private:
    void main_loop() {
        int in_this_call = 0;
        const auto step = [&](const Transitions& enabled) {
            if (++in_this_call > most_microsteps_) {
                endless = true;
                running = false;
                return;
            }
            ++microsteps;
            microstep(enabled);
        };
        while (running) {
            bool macrostep_done = false;
            while (running && !macrostep_done) {
                Transitions enabled = select_transitions(nullptr);
                if (enabled.empty()) {
                    if (internal_.empty()) {
                        macrostep_done = true;
                    } else {
                        const std::string event = internal_.front();
                        internal_.pop_front();
                        enabled = select_transitions(&event);
                    }
                }
                if (!enabled.empty()) step(enabled);
            }
            if (!running || external_.empty()) break;
            const std::string event = external_.front();
            external_.pop_front();
            const Transitions enabled = select_transitions(&event);
            if (!enabled.empty()) step(enabled);
        }
        if (!running && !endless) exit_interpreter();
    }

    void exit_interpreter() {
        while (!configuration.empty()) exit_state(configuration.back());
    }

    bool is(int state, model::chart::StateKind kind) const { return chart_.state(state).kind == kind; }
    int parent(int state) const { return chart_.state(state).parent; }

    bool is_descendant(int state, int ancestor) const {
        for (int each = parent(state); each >= 0; each = parent(each))
            if (each == ancestor) return true;
        return false;
    }

    /// From the parent outwards, up to but without `end` (-1: all).
    States proper_ancestors(int state, int end) const {
        States found;
        for (int each = parent(state); each >= 0 && each != end; each = parent(each)) found.push_back(each);
        return found;
    }

    static bool holds(const States& states, int state) {
        return std::find(states.begin(), states.end(), state) != states.end();
    }

    static void add(States& states, int state) {
        if (!holds(states, state)) states.push_back(state);
    }

    static bool name_match(const std::vector<std::string>& descriptors, const std::string& event) {
        return std::any_of(descriptors.begin(), descriptors.end(), [&](const std::string& descriptor) {
            return descriptor == "*" || event == descriptor || event.rfind(descriptor + ".", 0) == 0;
        });
    }

    bool condition_match(const model::chart::Transition& transition) const {
        if (!transition.condition) return true;
        bool value = false;
        for (const auto& node : transition.condition->nodes)
            value = node.op == model::chart::Op::in_state ? holds(configuration, node.index) : !value;
        return value;
    }

    Transitions select_transitions(const std::string* event) {
        Transitions enabled;
        for (const int state : configuration) {
            if (!chart_.state(state).children.empty()) continue;
            States chain{state};
            for (const int each : proper_ancestors(state, -1)) chain.push_back(each);
            const auto* found = first_match(chain, event);
            if (found != nullptr && std::find(enabled.begin(), enabled.end(), found) == enabled.end())
                enabled.push_back(found);
        }
        return remove_conflicting(enabled);
    }

    const model::chart::Transition* first_match(const States& chain, const std::string* event) const {
        for (const int state : chain)
            for (const auto& transition : chart_.state(state).transitions) {
                const bool fits =
                    event == nullptr ? transition.events.empty() : name_match(transition.events, *event);
                if (fits && condition_match(transition)) return &transition;
            }
        return nullptr;
    }

    Transitions remove_conflicting(const Transitions& enabled) {
        Transitions filtered;
        for (const auto* t1 : enabled) {
            bool t1_preempted = false;
            Transitions to_remove;
            for (const auto* t2 : filtered) {
                if (!intersect(exit_set({t1}), exit_set({t2}))) continue;
                if (is_descendant(t1->source, t2->source)) {
                    to_remove.push_back(t2);
                } else {
                    t1_preempted = true;
                    break;
                }
            }
            preempted += (t1_preempted ? 1 : 0) + static_cast<int>(t1_preempted ? 0 : to_remove.size());
            if (t1_preempted) continue;
            for (const auto* t3 : to_remove) filtered.erase(std::find(filtered.begin(), filtered.end(), t3));
            filtered.push_back(t1);
        }
        return filtered;
    }

    static bool intersect(const States& a, const States& b) {
        return std::any_of(a.begin(), a.end(), [&](int state) { return holds(b, state); });
    }

    States exit_set(const Transitions& transitions) const {
        States leaving;
        for (const auto* transition : transitions) {
            if (transition->targets.empty()) continue;
            const int domain = transition_domain(*transition);
            for (const int state : configuration)
                if (is_descendant(state, domain)) add(leaving, state);
        }
        return leaving;
    }

    /// The chart does not keep whether a transition is internal; what it keeps is its domain. Random charts
    /// mark internal transitions by their event.
    int transition_domain(const model::chart::Transition& transition) const {
        const bool internal =
            !transition.events.empty() && transition.events.front().rfind("internal", 0) == 0;
        const auto inside_source = [&](int target) { return is_descendant(target, transition.source); };
        if (internal && is(transition.source, model::chart::StateKind::compound) &&
            std::all_of(transition.targets.begin(), transition.targets.end(), inside_source))
            return transition.source;
        return find_lcca(transition.source, transition.targets);
    }

    int find_lcca(int head, const States& others) const {
        for (const int ancestor : proper_ancestors(head, -1)) {
            if (!is(ancestor, model::chart::StateKind::compound) &&
                !is(ancestor, model::chart::StateKind::root))
                continue;
            if (std::all_of(others.begin(), others.end(),
                            [&](int state) { return is_descendant(state, ancestor); }))
                return ancestor;
        }
        return 0;
    }

    void microstep(const Transitions& enabled) {
        States leaving = exit_set(enabled);
        std::sort(leaving.rbegin(), leaving.rend());
        for (const int state : leaving) exit_state(state);
        for (const auto* transition : enabled) execute(transition->actions);
        enter_states(enabled);
    }

    void exit_state(int state) {
        for (const auto& block : chart_.state(state).on_exit) execute(block);
        configuration.erase(std::find(configuration.begin(), configuration.end(), state));
    }

    void enter_states(const Transitions& enabled) {
        States entering;
        for (const auto* transition : enabled) {
            if (transition->targets.empty()) continue;
            for (const int state : transition->targets) add_descendants(state, entering);
            const int domain = transition->source == 0 ? 0 : transition_domain(*transition);
            for (const int state : transition->targets) add_ancestors(state, domain, entering);
        }
        std::sort(entering.begin(), entering.end());
        for (const int state : entering) {
            configuration.push_back(state);
            std::sort(configuration.begin(), configuration.end());
            for (const auto& block : chart_.state(state).on_entry) execute(block);
            if (is(state, model::chart::StateKind::final)) enter_final(state);
        }
    }

    void enter_final(int state) {
        if (parent(state) == 0) {
            running = false;
            return;
        }
        internal_.push_back("done.state." + chart_.state(parent(state)).id);
        const int grandparent = parent(parent(state));
        if (!is(grandparent, model::chart::StateKind::parallel)) return;
        const States& regions = chart_.state(grandparent).children;
        if (std::all_of(regions.begin(), regions.end(),
                        [&](int region) { return is_in_final_state(region); }))
            internal_.push_back("done.state." + chart_.state(grandparent).id);
    }

    bool is_in_final_state(int state) const {
        const States& children = chart_.state(state).children;
        if (is(state, model::chart::StateKind::compound))
            return std::any_of(children.begin(), children.end(), [&](int child) {
                return is(child, model::chart::StateKind::final) && holds(configuration, child);
            });
        return is(state, model::chart::StateKind::parallel) &&
               std::all_of(children.begin(), children.end(),
                           [&](int child) { return is_in_final_state(child); });
    }

    void add_descendants(int state, States& entering) const {
        add(entering, state);
        if (is(state, model::chart::StateKind::compound)) {
            for (const int target : chart_.state(state).initial) add_descendants(target, entering);
            for (const int target : chart_.state(state).initial) add_ancestors(target, state, entering);
        } else if (is(state, model::chart::StateKind::parallel)) {
            add_regions(state, entering);
        }
    }

    void add_ancestors(int state, int end, States& entering) const {
        for (const int ancestor : proper_ancestors(state, end)) {
            add(entering, ancestor);
            if (is(ancestor, model::chart::StateKind::parallel)) add_regions(ancestor, entering);
        }
    }

    void add_regions(int parallel, States& entering) const {
        for (const int child : chart_.state(parallel).children)
            if (std::none_of(entering.begin(), entering.end(),
                             [&](int each) { return is_descendant(each, child); }))
                add_descendants(child, entering);
    }

    void execute(const model::chart::Block& block) {
        for (const auto& action : block) {
            if (const auto* log = std::get_if<model::chart::Log>(&action.what)) trace.push_back(log->label);
            if (const auto* raise = std::get_if<model::chart::Raise>(&action.what))
                internal_.push_back(raise->event);
        }
    }

    const model::chart::Chart& chart_;
    int most_microsteps_;
    std::deque<std::string> internal_;
    std::deque<std::string> external_;
};

}  // namespace halfsplit::test
