#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "ui/window/author/job_work.h"
#include "ui/window/desk/mode.h"
#include "ui/window/frame/worker.h"

namespace halfsplit::window {

/// A trainer makes a job of a circuit, or opens one to change it: what is wrong, what the customer says of
/// it, how hard it is; proved to be fair before it is kept as a file.
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
    bool gives_away(const std::string& path) const override;
    Diagnostics open(const std::string& path) override;

    /// As it would be written.
    const practice::Scenario& job() const { return desk_.job; }

  private:
    /// A job somebody is at.
    struct JobOnDesk {
        practice::Scenario job;
        bool nothing_is_wrong = false;  ///< and that is meant so
        std::string file;               ///< name it is to be kept under
        std::string own_file;           ///< name of the file it is in; "": it was never kept
        std::string own_text;           ///< what stands in that, as far as is known here
        std::string as_kept;            ///< as it would have been written when it was opened or kept
        std::string proposed;           ///< complaint that was made up from the symptoms
        std::string proposed_title;
    };
    struct JobAside {
        JobOnDesk desk;
        std::shared_ptr<const files::CircuitOnDisk> circuit;
    };

    Diagnostics open_circuit(const std::string& path);
    Diagnostics open_job(const std::string& path);
    /// Takes the circuit; what was proved or predicted of another is forgotten.
    void lay_out(const std::string& circuit_path, files::CircuitOnDisk read);
    void carry_over_to(const std::string& circuit_path, files::CircuitOnDisk read);
    /// Takes up what was put aside of the same file, or else this.
    void begin(const std::string& path, JobOnDesk fresh);
    void put_aside();
    const model::Circuit& circuit() const { return on_disk_->circuit; }

    void set_fault(const std::string& fault, bool is_wrong);
    void take_symptoms(int noticed);
    void find_symptoms();
    /// Index of what was chosen among what can be noticed; -1: the job's file says something else.
    int noticed_as() const;
    practice::Scenario scenario() const;
    std::string written() const;
    /// Why it must not be written; "" if it may be.
    std::string reason_against_keeping() const;
    void keep();

    void wrong_drawer(const Frame& frame);
    void complaint_drawer(const Frame& frame);
    void symptom_choice(const Frame& frame);
    void card_drawer(const Frame& frame);
    void help_drawer(const Frame& frame);
    void proof_drawer(const Frame& frame);
    void proof(const Frame& frame);

    std::shared_ptr<const files::CircuitOnDisk> on_disk_;
    std::string circuit_path_;
    std::optional<DrawnCircuit> drawn_;
    std::vector<std::string> all_faults_;
    std::optional<Pick> chosen_;

    std::string path_;  ///< of what was opened: a circuit, or a job
    JobOnDesk desk_;
    std::map<std::string, JobAside> aside_;  ///< by path: what was typed and not kept when another was opened
    std::vector<Noticed> noticed_;           ///< of the first fault

    Worker<Predicted> predicting_;
    std::shared_ptr<const KnownFaults> known_;
    Worker<Proved> proving_;
    std::optional<Proved> proved_;
    std::string told_;  ///< where it was kept
    Diagnostics trouble_;
};

}  // namespace halfsplit::window
