#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/diagnosis/sheet/read_readings.h"
#include "engine/model/circuit.h"
#include "ui/window/frame/task.h"

namespace halfsplit::window {

/// Writes sheets to files of their own, beside the window.
class Printing {
  public:
    enum class Form {
        page,  ///< HTML, for a browser to print
        table  ///< CSV, for a spreadsheet; what was measured is filled in
    };

    /// Of these states, or of all where `states` is empty.
    void print(Form form, std::shared_ptr<const model::Circuit> circuit, const std::string& name,
               std::vector<int> states, std::vector<diagnosis::FilledRow> readings);
    void advance();
    void stop() { working_.cancel(); }
    void forget();

    bool is_working() const { return working_.is_running(); }
    double share() const { return working_.share(); }
    /// Where it is, or why it is not.
    const std::string& told() const { return told_; }
    bool went_wrong() const { return went_wrong_; }

  private:
    struct Printed {
        std::string told;
        bool went_wrong = false;
    };

    std::string told_;
    bool went_wrong_ = false;
    Task<Printed> working_;
};

}  // namespace halfsplit::window
