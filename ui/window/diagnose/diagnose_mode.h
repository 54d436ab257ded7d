#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "ui/window/desk/mode.h"
#include "ui/window/diagnose/expected_table.h"
#include "ui/window/diagnose/notebook.h"
#include "ui/window/diagnose/printing.h"
#include "ui/window/diagnose/reasoning.h"
#include "ui/window/expected/state_sheets.h"

namespace halfsplit::window {

/// For who stands before a real vehicle: what should be found there, room to write what was, and what to
/// make of it.
class DiagnoseMode : public Mode {
  public:
    std::string_view id() const override { return "diagnose"; }
    std::string_view title() const override { return "Diagnose"; }
    std::string_view about() const override;
    const DrawnCircuit* drawn() const override { return drawn_ ? &*drawn_ : nullptr; }
    Marks marks() const override;
    void trolley(const Frame& frame, Paper& paper) override;
    void done_on_paper(const PaperDeed& deed) override;
    void keys() override;
    std::vector<std::pair<std::string, std::string>> key_list() const override;
    std::string hint() const override;
    void advance(double seconds) override;
    bool is_lively() const override;
    bool takes(const std::string& path) const override;
    Diagnostics open(const std::string& path) override;

    const Notebook& notebook() const { return notebook_; }
    const Reasoning& reasoning() const { return reasoning_; }
    /// The state that readings are of: index into the circuit.
    int state() const { return state_; }

  private:
    const model::Circuit& circuit() const { return *drawn_->circuit; }

    void take_circuit(std::shared_ptr<const files::CircuitOnDisk> on_disk, const std::string& path);
    void begin_in(const std::string& state);
    void turn_to(int state);
    /// To its state, its row, and its field; on the diagram too where `shows`.
    void go_to(const Spotted& what, bool shows);
    void go_to_part(int part);
    void take_next_test();
    void know_more();
    void find_extra_rows();
    void do_in_table(const TableDeed& deed);
    /// Of the sheet, if it is there and proposes it.
    view::ExpectedRow row_of(const ExpectedState* sheet, const Spotted& what) const;
    Pick pick_of(const diagnosis::Finding& finding) const;
    Pick pick_of_thing(const std::string& id) const;
    int chosen_part() const;
    bool is_here(const view::ExpectedRow& row) const;
    std::vector<ExpectedTable::Group> groups() const;

    std::string suspects_title() const;
    void vehicle_drawer(const Frame& frame);
    void predicting(const Frame& frame);
    void cautions_drawer(const Frame& frame);
    void expected_drawer(const Frame& frame);
    void readings_drawer(const Frame& frame);
    void next_drawer(const Frame& frame);
    void suspects_drawer(const Frame& frame);
    void cleared_list(const Frame& frame);
    void suspect(const Frame& frame, const SuspectLine& line, int number);
    void about_suspect(const Frame& frame, const SuspectLine& line);
    void print_drawer(const Frame& frame);
    void begin_anew(const Frame& frame);

    void mark_expected(Marks& marks, const Pick& pick) const;
    void mark_suspects(Marks& marks) const;
    void mark_leads(Marks& marks) const;

    std::shared_ptr<const files::CircuitOnDisk> on_disk_;
    std::string path_;
    std::optional<DrawnCircuit> drawn_;
    std::vector<int> states_;  ///< as they are offered: the file's own first
    int state_ = -1;
    Notebook notebook_;
    StateSheets sheets_;
    Reasoning reasoning_;
    Printing printing_;
    ExpectedTable table_;
    const ExpectedState* expected_ = nullptr;  ///< of the state; nullptr while it is worked out
    std::vector<view::ExpectedRow> extra_;     ///< what is asked for or was read and no sheet proposes
    const diagnosis::Consultation* predicted_by_ = nullptr;  ///< what extra_ was made with
    std::optional<Spotted> asked_;
    std::optional<Pick> chosen_;
    std::optional<Pick> near_;
    std::optional<Pick> to_show_;  ///< on the paper, with the next frame
    std::optional<int> to_find_;   ///< a part that was clicked: its first row, once there are some
    bool only_here_ = false;
    bool opens_table_ = false;
    bool has_begun_ = false;
    bool complaint_ = false;
    std::vector<std::string> cleared_;
    bool shows_all_suspects_ = false;
    std::string open_suspect_;           ///< by name
    std::optional<bool> shows_meaning_;  ///< nullopt: as there is room
    bool asks_anew_ = false;
    std::string csv_path_;
    std::string csv_trouble_;
};

}  // namespace halfsplit::window
