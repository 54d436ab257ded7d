#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/diagnosis/dictionary/sign.h"
#include "ui/window/desk/mode.h"
#include "ui/window/frame/worker.h"
#include "ui/window/hands/leads.h"
#include "ui/window/practise/action_line.h"
#include "ui/window/practise/debrief_desk.h"
#include "ui/window/practise/job_in_hand.h"
#include "ui/window/practise/seen.h"
#include "ui/window/recorder/recorder_screen.h"

namespace halfsplit::window {

/// A job with a hidden fault, from the vehicle's coming in to its being handed back and the debrief. Only
/// what a person could see, hear or measure is shown until then.
class PractiseMode : public Mode {
  public:
    std::string_view id() const override { return "practise"; }
    std::string_view title() const override { return "Practise"; }
    std::string_view about() const override;
    const DrawnCircuit* drawn() const override { return drawn_ ? &*drawn_ : nullptr; }
    Marks marks() const override;
    void trolley(const Frame& frame, Paper& paper) override;
    void done_on_paper(const PaperDeed& deed) override;
    bool has_screen() const override;
    void screen(const Frame& frame) override;
    void keys() override;
    std::vector<std::pair<std::string, std::string>> key_list() const override;
    std::string hint() const override;
    void advance(double seconds) override;
    bool is_lively() const override;
    bool takes(const std::string& path) const override;
    Diagnostics open(const std::string& path) override;

    const JobInHand* job() const { return job_.get(); }
    const RecorderScreen& recorder_screen() const { return screen_; }
    const DebriefDesk& debrief() const { return debrief_; }

  private:
    /// How long a button that springs back is held.
    enum class Hold { a_second, longer, by_a_helper };

    /// What comes of it is told in the drawer it was done in.
    void act(const std::string& drawer, const practice::Action& action);
    void act(const std::string& drawer, const std::string& typed);
    void take_trial(std::chrono::milliseconds patience);
    void measure();
    bool is_busy() const { return acting_.is_running(); }
    void begin_anew();
    void anew(const Frame& frame);
    void begin_with(std::unique_ptr<JobInHand> job);

    void job_drawer(const Frame& frame);
    void clock(const Frame& frame);
    void operate_drawer(const Frame& frame);
    void state_choice(const Frame& frame);
    void switches(const Frame& frame);
    void quantities(const Frame& frame);
    void instrument_drawer(const Frame& frame);
    void display(const Frame& frame);
    void recorder(const Frame& frame);
    void recording(const Frame& frame);
    void in_hand_drawer(const Frame& frame);
    void in_hand_words(const Frame& frame);
    void place_in_hand(const Frame& frame);
    void jumper(const Frame& frame);
    void new_fuse(const Frame& frame);
    void suspects_drawer(const Frame& frame);
    void hints_drawer(const Frame& frame);
    void log_drawer(const Frame& frame);
    void line_drawer(const Frame& frame);
    void done_drawer(const Frame& frame);
    void working_drawers(const Frame& frame);

    /// A button that does something, with the minutes it takes.
    bool offers(const Frame& frame, const std::string& name, const std::string& label,
                const practice::Action& action);
    void came_of(const Frame& frame, const std::string& drawer);
    void entry_block(const Frame& frame, const practice::Entry& entry);

    std::unique_ptr<JobInHand> job_;
    std::string path_;
    bool has_changed_ = false;  ///< on the disk
    std::string anew_trouble_;  ///< why it could not be begun anew
    std::optional<DrawnCircuit> drawn_;
    std::vector<diagnosis::SignSource> sources_;
    Seen seen_;

    Worker<Trial> acting_;
    std::string acting_in_;  ///< drawer
    std::string came_in_;    ///< drawer what was done last was done in
    std::string trouble_;    ///< why that could not be done

    LeadsInHand leads_;
    std::optional<Pick> chosen_;
    int state_chosen_ = 0;
    Hold hold_ = Hold::a_second;
    std::map<std::string, double> turned_;  ///< quantities a slider was moved for, not set yet
    std::vector<std::string> channels_;
    RecorderScreen screen_;
    bool shows_screen_ = true;
    int record_seconds_ = 2;   ///< index
    std::string jumper_from_;  ///< point its first clip is on
    int fuse_rating_ = 0;      ///< index
    std::string suspect_words_;
    bool shows_whole_log_ = false;
    ActionLine line_;
    bool asks_whether_done_ = false;
    DebriefDesk debrief_;
};

}  // namespace halfsplit::window
