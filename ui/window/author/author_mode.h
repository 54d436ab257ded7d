#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "ui/window/author/job_work.h"
#include "ui/window/desk/mode.h"

namespace halfsplit::window {

/// A trainer makes a job of a circuit: what is wrong, what the customer says of it, how hard it is; proved to
/// be fair before it is kept as a file.
class AuthorMode : public Mode {
  public:
    std::string_view id() const override { return "author"; }
    std::string_view title() const override { return "Author"; }
    std::string_view about() const override;
    const DrawnCircuit* drawn() const override { return drawn_ ? &*drawn_ : nullptr; }
    Marks marks() const override;
    void trolley(const Frame& frame, Paper& paper) override;
    void done_on_paper(const PaperDeed& deed) override;
    std::string hint() const override;
    void advance(double seconds) override;
    bool is_lively() const override { return predicting_.is_running() || proving_.is_running(); }
    bool takes(const std::string& path) const override;
    Diagnostics open(const std::string& path) override;

  private:
    void set_fault(const std::string& fault, bool is_wrong);
    void take_symptoms(const Noticed& noticed);
    void find_symptoms();
    practice::Scenario scenario() const;
    void keep();

    void wrong_drawer(const Frame& frame);
    void complaint_drawer(const Frame& frame);
    void proof_drawer(const Frame& frame);

    std::shared_ptr<const files::CircuitOnDisk> on_disk_;
    std::string path_;
    std::optional<DrawnCircuit> drawn_;
    std::vector<std::string> all_faults_;
    std::optional<Pick> chosen_;

    std::vector<std::string> faults_;  ///< what is wrong
    std::vector<Noticed> noticed_;     ///< of the first of them
    int noticed_as_ = -1;
    std::string title_;
    std::string complaint_;
    std::string vehicle_;
    std::string hint_;
    double mileage_km_ = 0;
    int level_ = 2;
    double budget_min_ = 0;

    Task<Predicted> predicting_;
    std::shared_ptr<const KnownFaults> known_;
    Task<Proved> proving_;
    std::optional<Proved> proved_;
    std::string file_;
    std::string told_;  ///< where it was kept
    Diagnostics trouble_;
};

}  // namespace halfsplit::window
