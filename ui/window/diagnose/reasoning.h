#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "ui/files/text_files.h"
#include "ui/window/diagnose/conclusion.h"
#include "ui/window/frame/task.h"

namespace halfsplit::window {

/// What is known about a vehicle.
struct Known {
    std::vector<diagnosis::FilledRow> readings;
    std::vector<std::string> cleared;  ///< faults looked for that are not there
    bool complaint = false;            ///< something is certainly wrong
};

/// Predicts faults and draws conclusions, both beside the window.
class Reasoning {
  public:
    /// Another circuit; nothing is predicted before somebody asks.
    void begin(std::shared_ptr<const files::CircuitOnDisk> circuit, const std::string& path);
    /// Draws conclusions from this as soon as it can.
    void consider(Known known);
    /// Predicts, if that is not done or under way.
    void predict();
    void stop_predicting();
    /// Looks what has become of the work. Once a frame.
    void advance();

    bool is_predicting() const { return predicting_.is_running(); }
    double predicted_share() const { return predicting_.share(); }
    bool is_concluding() const { return concluding_.is_running() || (is_to_conclude_ && consultation_); }
    const diagnosis::Consultation* consultation() const { return consultation_.get(); }
    /// The last one; what is shown may be older than what is known while is_concluding().
    const std::optional<Conclusion>& conclusion() const { return conclusion_; }
    /// Why nothing is predicted; "" where nothing went wrong.
    const std::string& trouble() const { return trouble_; }

  private:
    using Predicted = tl::expected<std::shared_ptr<diagnosis::Consultation>, Diagnostics>;

    bool is_enough() const;
    void start_predicting();
    void start_concluding();
    void start_thinking_ahead();
    std::vector<int> indices_of_cleared() const;

    std::shared_ptr<const files::CircuitOnDisk> circuit_;
    std::string path_;
    Known known_;
    bool is_wanted_ = false;  ///< predictions are
    bool is_to_conclude_ = false;
    int own_states_ = 0;
    std::string trouble_;
    std::shared_ptr<diagnosis::Consultation> consultation_;
    std::optional<Conclusion> conclusion_;
    // Last, so that they end first: they work on what stands above.
    Task<Predicted> predicting_;
    Task<Conclusion> concluding_;
    Task<bool> thinking_ahead_;  ///< whether there was anything; never while concluding: both work out what
                                 ///< is in consultation_
};

}  // namespace halfsplit::window
