#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "ui/view/expected_row.h"
#include "ui/window/frame/task.h"

namespace halfsplit::window {

/// The sheet of one state, in words.
struct ExpectedState {
    std::vector<view::ExpectedRow> rows;
    std::vector<std::string> cautions;  ///< what to mind before anything is measured
    std::vector<std::string> doubts;    ///< when the limits do not hold
    std::string trouble;                ///< why there are no rows
};

/// Works out what should be found, one state after the other, beside the window.
class StateSheets {
  public:
    void begin(std::shared_ptr<const model::Circuit> circuit);
    /// nullptr while it is worked out.
    const ExpectedState* of(int state);
    /// Looks what has become of the work. Once a frame.
    void advance();
    bool is_working() const { return working_.is_running(); }

  private:
    struct Made {
        int state = 0;
        ExpectedState expected;
    };

    std::shared_ptr<const model::Circuit> circuit_;
    std::map<int, ExpectedState> made_;
    int wanted_ = -1;
    Task<Made> working_;
};

}  // namespace halfsplit::window
