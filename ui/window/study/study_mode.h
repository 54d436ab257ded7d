#pragma once

#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/diagnosis/dictionary/sign.h"
#include "engine/instruments/live_bench.h"
#include "ui/window/desk/mode.h"
#include "ui/window/hands/controls.h"
#include "ui/window/hands/leads.h"

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

    void state_drawer(const Frame& frame);
    void operate_drawer(const Frame& frame);
    void meter_drawer(const Frame& frame);
    void chosen_drawer(const Frame& frame, Paper& paper);
    void faults_drawer(const Frame& frame);
    void events_drawer(const Frame& frame);

    void find_branches();
    void look();
    void mark_parts(Marks& marks) const;
    void mark_wires(Marks& marks) const;

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
    LeadsInHand leads_;
    bool is_held_ = false;
    double since_read_s_ = 0;
    std::optional<instruments::Reading> reading_;
    std::optional<Pick> chosen_;
    std::deque<std::string> events_;
    std::vector<double> turns_;  ///< how far each source that turns has come
};

}  // namespace halfsplit::window
