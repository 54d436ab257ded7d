#include "ui/window/author/author_mode.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "engine/base/index.h"
#include "engine/diagnosis/fault_universe.h"
#include "engine/instruments/instrument.h"
#include "engine/practice/draft/complaint.h"
#include "engine/practice/scenario/write_scenario.h"

namespace halfsplit::window {

namespace {

namespace fs = std::filesystem;

/// Until somebody says otherwise.
constexpr double kMileageKm = 84000;
constexpr double kBudgetMin = 60;
constexpr int kDays = 3;
const char* const kVehicle = "A vehicle with this circuit, invented";

std::string href_to(const std::string& circuit, const std::string& job) {
    std::error_code unknown;
    const fs::path folder = fs::absolute(job, unknown).parent_path();
    const fs::path relative = fs::relative(fs::absolute(circuit, unknown), folder, unknown);
    return (unknown || relative.empty() ? fs::path(circuit) : relative).generic_string();
}

}  // namespace

std::string_view AuthorMode::about() const {
    return "Make a job for others to practise on, and have it proved that it is fair and how hard it is.";
}

bool AuthorMode::takes(const std::string& path) const {
    return path.ends_with(".circuit.xml");
}

Diagnostics AuthorMode::open(const std::string& path) {
    auto read = files::read_circuit_on_disk(path);
    if (!read) return read.error();
    predicting_.cancel();
    proving_.cancel();
    known_.reset();
    proved_.reset();
    on_disk_ = std::make_shared<const files::CircuitOnDisk>(std::move(*read));
    const std::shared_ptr<const model::Circuit> circuit(on_disk_, &on_disk_->circuit);
    const bool is_another = path != path_;
    path_ = path;
    drawn_ = window::drawn(circuit);
    all_faults_.clear();
    for (const auto& possible : diagnosis::fault_universe(*circuit))
        all_faults_.push_back(possible.fault.text);
    noticed_.clear();
    noticed_as_ = -1;
    if (!is_another) {
        std::erase_if(faults_, [&](const std::string& fault) {
            return std::ranges::find(all_faults_, fault) == all_faults_.end();
        });
        return {};
    }
    faults_.clear();
    chosen_.reset();
    title_ = complaint_ = hint_ = told_ = "";
    vehicle_ = kVehicle;
    mileage_km_ = kMileageKm;
    budget_min_ = kBudgetMin;
    file_ = circuit->id + "-job.scenario.xml";
    return {};
}

void AuthorMode::set_fault(const std::string& fault, bool is_wrong) {
    std::erase(faults_, fault);
    if (is_wrong) faults_.push_back(fault);
    proved_.reset();
    told_.clear();
    find_symptoms();
}

void AuthorMode::find_symptoms() {
    noticed_.clear();
    noticed_as_ = -1;
    if (faults_.empty()) return;
    if (known_) {
        noticed_ = noticed_of(*known_, faults_.front());
        if (!noticed_.empty()) take_symptoms(noticed_.front());
    } else if (!predicting_.is_running()) {
        predicting_.start("predicting what every fault would show", prediction_work(on_disk_, path_));
    }
}

void AuthorMode::take_symptoms(const Noticed& noticed) {
    noticed_as_ = static_cast<int>(&noticed - noticed_.data());
    title_ = practice::title_for(on_disk_->circuit, noticed.symptoms);
    complaint_ = practice::complaint_for(on_disk_->circuit, noticed.symptoms, kDays);
    proved_.reset();
}

practice::Scenario AuthorMode::scenario() const {
    practice::Scenario made;
    std::string name = fs::path(file_).filename().string();
    made.id = name.substr(0, name.find('.'));
    made.title = title_;
    made.level = level_;
    made.budget_min = budget_min_;
    made.job_card = {vehicle_, mileage_km_, complaint_, {}};
    if (!hint_.empty()) made.hints.push_back(hint_);
    for (const auto& each : instruments::instruments()) made.instruments.emplace_back(each.id);
    if (noticed_as_ >= 0) {
        made.arrives_in = noticed_[at(noticed_as_)].state;
        made.symptoms = noticed_[at(noticed_as_)].symptoms;
    }
    for (const std::string& fault : faults_)
        if (auto parsed = network::parse_fault(on_disk_->circuit, fault)) made.faults.push_back(*parsed);
    return made;
}

void AuthorMode::keep() {
    trouble_.clear();
    told_.clear();
    std::error_code unknown;
    if (!file_.ends_with(".scenario.xml"))
        trouble_ = one_problem("a name that ends with .scenario.xml is expected");
    else if (fs::exists(file_, unknown))
        trouble_ = one_problem(file_ + " is there already; another name is expected");
    else if (!files::write_atomically(
                 file_, practice::written_scenario(scenario(), on_disk_->circuit, href_to(path_, file_))))
        trouble_ = one_problem(file_ + " cannot be written");
    else
        told_ = "Kept in " + file_ + "; hints, history and a lesson can be added there.";
}

void AuthorMode::advance(double) {
    if (auto predicted = predicting_.take()) {
        if (*predicted) {
            known_ = **predicted;
            find_symptoms();
        } else {
            trouble_ = predicted->error();
        }
    }
    if (auto proved = proving_.take()) proved_ = std::move(*proved);
}

Marks AuthorMode::marks() const {
    Marks marks;
    marks.chosen = chosen_;
    for (const std::string& text : faults_) {
        const auto fault = network::parse_fault(on_disk_->circuit, text);
        if (!fault) continue;
        const model::Circuit& circuit = on_disk_->circuit;
        if (fault->wire >= 0)
            marks.doubts[circuit.wires[at(fault->wire)].id] = text;
        else if (fault->part >= 0)
            marks.doubts[circuit.parts[at(fault->part)].id] = text;
    }
    return marks;
}

void AuthorMode::done_on_paper(const PaperDeed& deed) {
    if (deed.first) chosen_ = deed.first;
    if (deed.beside) chosen_.reset();
}

std::string AuthorMode::hint() const {
    return "Left button on a part, a point or a wire: what may be wrong with it.";
}

}  // namespace halfsplit::window
