#include "ui/window/author/author_mode.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "engine/base/index.h"
#include "engine/diagnosis/fault_universe.h"
#include "engine/practice/draft/complaint.h"
#include "engine/practice/scenario/read_scenario.h"
#include "engine/practice/scenario/write_scenario.h"
#include "ui/window/author/made_job.h"
#include "ui/window/hands/faults_of.h"

namespace halfsplit::window {

namespace {

namespace fs = std::filesystem;

constexpr int kDays = 3;
constexpr std::string_view kJobEnding = ".scenario.xml";

/// A text that somebody has put into words of their own stays.
void propose(std::string& text, std::string& proposed_before, std::string proposed) {
    if (text.empty() || text == proposed_before) text = proposed;
    proposed_before = std::move(proposed);
}

bool are_same(const std::vector<practice::Symptom>& some, const std::vector<practice::Symptom>& others) {
    return std::ranges::equal(some, others, [](const practice::Symptom& one, const practice::Symptom& other) {
        return one.state == other.state && is_same_finding(one.finding, other.finding) &&
               one.value == other.value;
    });
}

}  // namespace

std::string_view AuthorMode::about() const {
    return "Make a job for others to practise on, or open one to change it, and have it proved that it is "
           "fair "
           "and how hard it is.";
}

bool AuthorMode::takes(const std::string& path) const {
    return path.ends_with(".circuit.xml") || path.ends_with(kJobEnding);
}

bool AuthorMode::gives_away(const std::string& path) const {
    return path.ends_with(kJobEnding);
}

Diagnostics AuthorMode::open(const std::string& path) {
    told_.clear();
    trouble_.clear();
    return path.ends_with(kJobEnding) ? open_job(path) : open_circuit(path);
}

Diagnostics AuthorMode::open_circuit(const std::string& path) {
    auto read = files::read_circuit_on_disk(path);
    if (!read) return read.error();
    if (read->circuit.states.empty())
        return {{{path, 0, 0}, "a job is about an operating state, and this circuit has none"}};
    if (path == path_) {
        carry_over_to(path, std::move(*read));
        return {};
    }
    put_aside();
    lay_out(path, std::move(*read));
    JobOnDesk fresh;
    fresh.job = new_job(circuit());
    fresh.file = circuit().id + "-job.scenario.xml";
    fresh.proposed_title = fresh.job.title;
    begin(path, std::move(fresh));
    return {};
}

Diagnostics AuthorMode::open_job(const std::string& path) {
    auto text = files::read_text(path);
    if (!text) return text.error();
    auto read = practice::read_scenario(path, files::file_texts());
    if (!read) return read.error();
    auto circuit_read = files::read_circuit_on_disk(read->circuit_path);
    if (!circuit_read) return circuit_read.error();
    if (path == path_ && (*text == desk_.own_text || written() != desk_.as_kept)) {
        carry_over_to(read->circuit_path, std::move(*circuit_read));
        return {};
    }
    if (path != path_) put_aside();
    lay_out(read->circuit_path, std::move(*circuit_read));
    JobOnDesk found;
    found.job = carried_over(read->scenario, read->circuit, circuit());
    found.nothing_is_wrong = found.job.faults.empty();
    found.file = found.own_file = path;
    found.own_text = std::move(*text);
    begin(path, std::move(found));
    return {};
}

void AuthorMode::lay_out(const std::string& circuit_path, files::CircuitOnDisk read) {
    predicting_.leave();
    proving_.leave();
    known_.reset();
    proved_.reset();
    noticed_.clear();
    circuit_path_ = circuit_path;
    on_disk_ = std::make_shared<const files::CircuitOnDisk>(std::move(read));
    const std::shared_ptr<const model::Circuit> circuit(on_disk_, &on_disk_->circuit);
    drawn_ = window::drawn(circuit);
    all_faults_.clear();
    for (const auto& possible : diagnosis::fault_universe(*circuit))
        all_faults_.push_back(possible.fault.text);
}

void AuthorMode::carry_over_to(const std::string& circuit_path, files::CircuitOnDisk read) {
    const auto before = on_disk_;
    lay_out(circuit_path, std::move(read));
    desk_.job = carried_over(desk_.job, before->circuit, circuit());
    find_symptoms();
}

void AuthorMode::begin(const std::string& path, JobOnDesk fresh) {
    path_ = path;
    chosen_.reset();
    desk_ = std::move(fresh);
    desk_.as_kept = written();
    if (const auto found = aside_.find(path); found != aside_.end()) {
        const JobAside aside = std::move(found->second);
        aside_.erase(found);
        desk_ = aside.desk;
        desk_.job = carried_over(aside.desk.job, aside.circuit->circuit, circuit());
    }
    find_symptoms();
}

void AuthorMode::put_aside() {
    if (on_disk_ && written() != desk_.as_kept) aside_[path_] = {desk_, on_disk_};
}

void AuthorMode::set_fault(const std::string& fault, bool is_wrong) {
    std::vector<network::Fault>& faults = desk_.job.faults;
    const std::string first = faults.empty() ? "" : faults.front().text;
    std::erase_if(faults, [&fault](const network::Fault& each) { return each.text == fault; });
    if (auto parsed = network::parse_fault(circuit(), fault); is_wrong && parsed)
        faults.push_back(std::move(*parsed));
    if (faults.empty() || faults.front().text != first) desk_.job.symptoms.clear();
    desk_.nothing_is_wrong = false;
    proved_.reset();
    told_.clear();
    find_symptoms();
}

void AuthorMode::find_symptoms() {
    noticed_.clear();
    const std::vector<network::Fault>& faults = desk_.job.faults;
    if (faults.empty() && !desk_.nothing_is_wrong) return;
    if (!known_) {
        if (!predicting_.is_running())
            predicting_.start("predicting what every fault would show",
                              prediction_work(on_disk_, circuit_path_));
        return;
    }
    if (faults.empty()) return;
    noticed_ = noticed_of(*known_, faults.front().text);
    if (desk_.job.symptoms.empty() && !noticed_.empty()) take_symptoms(0);
}

void AuthorMode::take_symptoms(int noticed) {
    practice::Scenario& job = desk_.job;
    job.symptoms = noticed_[at(noticed)].symptoms;
    job.arrives_in = noticed_[at(noticed)].state;
    propose(job.title, desk_.proposed_title, practice::title_for(circuit(), job.symptoms));
    propose(job.job_card.complaint, desk_.proposed, practice::complaint_for(circuit(), job.symptoms, kDays));
    proved_.reset();
}

int AuthorMode::noticed_as() const {
    const auto same = std::ranges::find_if(
        noticed_, [&](const Noticed& each) { return are_same(each.symptoms, desk_.job.symptoms); });
    return same == noticed_.end() ? -1 : static_cast<int>(same - noticed_.begin());
}

practice::Scenario AuthorMode::scenario() const {
    practice::Scenario made = desk_.job;
    const std::string name = fs::path(desk_.file).filename().string();
    made.id = name.substr(0, name.find('.'));
    return made;
}

std::string AuthorMode::written() const {
    return practice::written_scenario(scenario(), circuit(), href_to(circuit_path_, desk_.file));
}

std::string AuthorMode::reason_against_keeping() const {
    if (!desk_.file.ends_with(kJobEnding)) return "a name that ends with .scenario.xml is expected";
    std::error_code unknown;
    if (!fs::exists(desk_.file, unknown)) return "";
    if (desk_.file != desk_.own_file) return desk_.file + " is there already; another name is expected";
    const auto stands_there = files::read_text(desk_.file);
    if (!stands_there || *stands_there != desk_.own_text)
        return desk_.file + " was changed meanwhile; keep this under another name and compare them";
    return "";
}

void AuthorMode::keep() {
    trouble_.clear();
    told_.clear();
    std::string reason = reason_against_keeping();
    const std::string text = written();
    if (reason.empty() && !files::write_atomically(desk_.file, text))
        reason = desk_.file + " cannot be written";
    if (!reason.empty()) {
        trouble_ = one_problem(reason);
        return;
    }
    desk_.own_file = desk_.file;
    desk_.own_text = desk_.as_kept = text;
    told_ = "Kept in " + desk_.file + ".";
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
    for (const network::Fault& fault : desk_.job.faults)
        marks.doubts[marked_by(circuit(), fault)] = fault.text;
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
