#pragma once

#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/diagnosis/dictionary/sign.h"
#include "engine/instruments/live_bench.h"
#include "engine/instruments/live_recorder.h"
#include "ui/window/desk/mode.h"
#include "ui/window/expected/state_sheets.h"
#include "ui/window/hands/controls.h"
#include "ui/window/hands/leads.h"
#include "ui/window/recorder/recorder_screen.h"
#include "ui/window/study/way.h"

namespace halfsplit::window {

/// A circuit that runs before one's eyes: operated, measured, broken and mended at will, with everything that
/// is inside to be seen.
class StudyMode : public Mode {
  public:
    StudyMode();

    std::string_view id() const override { return "study"; }
    std::string_view title() const override { return "Study"; }
    std::string_view about() const override;
    const DrawnCircuit* drawn() const override { return drawn_ ? &*drawn_ : nullptr; }
    Marks marks() const override;
    void trolley(const Frame& frame, Paper& paper) override;
    void done_on_paper(const PaperDeed& deed) override;
    bool has_screen() const override { return bench_ && recorder_.is_on(); }
    void screen(const Frame& frame) override;
    void keys() override;
    std::vector<std::pair<std::string, std::string>> key_list() const override;
    std::string hint() const override;
    void advance(double seconds) override;
    bool is_lively() const override;
    bool takes(const std::string& path) const override;
    Diagnostics open(const std::string& path) override;

    /// The circuit itself, already read.
    void show(std::shared_ptr<const model::Circuit> circuit);
    const instruments::LiveBench* bench() const { return bench_ ? &*bench_ : nullptr; }
    const instruments::Strip& recorded() const { return recorder_.strip(); }
    /// Of what is in hand.
    const Way& way() const { return way_; }
    const RecorderScreen& recorder_screen() const { return screen_; }
    /// What the instrument in hand shows.
    const std::optional<instruments::Reading>& reading() const { return reading_; }

  private:
    enum class Overlay { plain, potentials, currents };

    void begin(int state);
    void take_result(const tl::expected<void, Diagnostics>& result);
    void set(const Setting& setting);
    void change_faults(const std::string& fault, bool present);
    void take_out(const std::string& name, bool is_pulled, bool out);
    void read_meter();
    void collect_events();
    tl::expected<void, Diagnostics> go_on(double seconds);
    /// What the leads in hand are on, where a recorder can be there.
    std::optional<instruments::Channel> channel_at_leads() const;
    bool can_record() const;
    void record_at_leads();

    void state_drawer(const Frame& frame);
    void operate_drawer(const Frame& frame);
    void meter_drawer(const Frame& frame);
    void recorder_drawer(const Frame& frame);
    void chosen_drawer(const Frame& frame, Paper& paper);
    void way_drawer(const Frame& frame);
    void expected_words(const Frame& frame) const;
    void faults_drawer(const Frame& frame);
    void events_drawer(const Frame& frame);

    void choose(const Pick& pick, bool first);
    /// What is not looked at in every frame: the way of the current, what should be found.
    void look_around();
    std::vector<const view::ExpectedRow*> expected_at(const std::string& name) const;
    /// "12.31 V, should be 11.9 … 12.6 V"
    std::string found_and_expected(const view::ExpectedRow& row) const;

    void find_branches();
    void look();
    void mark_parts(Marks& marks) const;
    void mark_wires(Marks& marks) const;
    void mark_chosen(Marks& marks) const;
    void mark_channels(Marks& marks) const;

    std::optional<DrawnCircuit> drawn_;
    std::optional<instruments::LiveBench> bench_;
    std::vector<diagnosis::SignSource> sources_;
    std::map<std::string, std::vector<int>, std::less<>> branches_;  ///< of the network, by name
    /// Where a wire's ends and its copper are in the network.
    struct PlacedWire {
        int from = 0;
        int to = 0;
        std::vector<int> branches;
    };
    std::vector<PlacedWire> wires_;         ///< in the circuit's order
    network::Solution now_;                 ///< as it was looked at last
    std::vector<double> shares_;            ///< what each source shows of its rating
    std::vector<std::string> fault_texts_;  ///< all that could be wrong
    std::string fault_words_;               ///< what is looked for among them
    std::string trouble_;                   ///< why it does not go on
    int state_ = -1;
    std::string state_id_;  ///< to come back to where the file is read again
    bool is_running_ = true;
    int pace_ = 1;  ///< index into the paces
    Overlay overlay_ = Overlay::potentials;
    bool shows_numbers_ = true;
    instruments::LiveRecorder recorder_;
    RecorderScreen screen_;
    LeadsInHand leads_;
    bool is_held_ = false;
    double since_read_s_ = 0;
    std::optional<instruments::Reading> reading_;
    std::optional<Pick> chosen_;
    StateSheets sheets_;
    const ExpectedState* expected_ = nullptr;  ///< of the state that was chosen; nullptr: not yet
    bool has_left_state_ = false;              ///< something was operated since
    Way way_;
    bool shows_way_ = true;
    std::deque<std::string> events_;
    std::vector<double> turns_;  ///< how far each source that turns has come
};

}  // namespace halfsplit::window
