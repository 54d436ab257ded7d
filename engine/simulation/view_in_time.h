#pragma once

#include <map>
#include <string>
#include <string_view>

#include "engine/network/network.h"
#include "engine/simulation/course_state.h"
#include "engine/simulation/integrator.h"

namespace halfsplit::simulation {

/// Which number the integrator gave to what; -1 where there is none.
struct Numbers {
    std::vector<int> heat_of_trigger;
    std::vector<int> way_of_travel;
    std::vector<int> rotors;                          ///< branches
    std::map<std::string, int, std::less<>> changes;  ///< of what changes slowly, by its branches' name
};

/// The circuit at a share of the step that was tried (0: as it stands).
class ViewInTime {
  public:
    ViewInTime(const network::Network& network, const Integrator& integrator, const Numbers& numbers,
               const CourseState& state, double time_s, double share)
        : network_(network),
          integrator_(integrator),
          numbers_(numbers),
          state_(state),
          share_(share),
          time_s_(time_s) {}

    const network::Network& network() const { return network_; }
    const Integrator& integrator() const { return integrator_; }
    const Numbers& numbers() const { return numbers_; }
    const CourseState& state() const { return state_; }
    double time_s() const { return time_s_; }

    int condition(int slot) const { return state_.conditions[static_cast<std::size_t>(slot)]; }
    double potential_v(int node) const { return integrator_.potential_at(node, share_); }
    double voltage_v(int branch) const { return integrator_.voltage_at(branch, share_); }
    double current_a(int branch) const { return integrator_.current_at(branch, share_); }
    double value(int number) const {
        return share_ == 0 ? integrator_.value(number) : integrator_.value_at(number, share_);
    }
    double quantity(std::string_view id) const;

  private:
    const network::Network& network_;
    const Integrator& integrator_;
    const Numbers& numbers_;
    const CourseState& state_;
    double share_;
    double time_s_;
};

/// What the quantity is at a time: where a ramp has brought it, else as it is set.
double quantity_at(const network::Network& network, const CourseState& state, std::string_view id,
                   double time_s);

}  // namespace halfsplit::simulation
