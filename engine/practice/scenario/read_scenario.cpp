#include "engine/practice/scenario/read_scenario.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/base/nearest.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/instruments/instrument.h"
#include "engine/model/reading/fields.h"
#include "engine/practice/scenario/structure.h"

namespace halfsplit::practice {

namespace {

using diagnosis::Finding;
using model::reading::Context;
using model::reading::Fields;
using xml::Element;

const Element* child_of(const Element& element, std::string_view name) {
    const auto found = std::ranges::find(element.children, name, &Element::name);
    return found == element.children.end() ? nullptr : &*found;
}

Fields fields_of(const Context& context, const Element& element) {
    const model::StructureSpec& spec = scenario_structure(element.name);
    check_children(context, element, spec);
    return {context, element, {model::reading::declared_by(spec)}};
}

/// Text in one piece, whatever its line breaks in the file.
std::string words_of(const Context& context, const Element& element) {
    fields_of(context, element);
    std::string text;
    for (const char c : element.text) {
        const bool is_space = c == '\n' || c == '\r' || c == '\t' || c == ' ';
        if (!is_space)
            text += c;
        else if (!text.empty() && text.back() != ' ')
            text += ' ';
    }
    if (text.empty())
        context.error(element.where, "<" + element.name + "> is empty; some words are expected");
    return text;
}

std::vector<std::string> list_of_words(const Context& context, const Element& root, std::string_view list,
                                       std::string_view item) {
    std::vector<std::string> words;
    const Element* element = child_of(root, list);
    if (element == nullptr) return words;
    fields_of(context, *element);
    for (const Element& child : element->children)
        if (child.name == item) words.push_back(words_of(context, child));
    return words;
}

JobCard read_job_card(const Context& context, const Element& element) {
    const Fields fields = fields_of(context, element);
    JobCard card{fields.word("vehicle"), fields.number("mileage-km"), "", {}};
    for (const Element& child : element.children) {
        if (child.name == "complaint") card.complaint = words_of(context, child);
        if (child.name == "history") card.history.push_back(words_of(context, child));
    }
    return card;
}

std::vector<std::string> read_instruments(const Context& context, const Element& root) {
    std::vector<std::string> known;
    for (const instruments::Instrument& each : instruments::instruments()) known.emplace_back(each.id);
    const Element* element = child_of(root, "instruments");
    if (element == nullptr) return known;
    fields_of(context, *element);
    std::vector<std::string> allowed;
    for (const Element& child : element->children) {
        if (child.name != "instrument") continue;
        Fields fields = fields_of(context, child);
        if (!fields.good()) continue;
        const std::string id = fields.word("id");
        if (std::ranges::find(known, id) == known.end())
            fields.refuse("id", "there is no instrument '" + id + "'; " + listed(known) + " is expected" +
                                    did_you_mean(id, known));
        else
            allowed.push_back(id);
    }
    return allowed;
}

std::optional<int> read_state(const model::Circuit& circuit, Fields& fields, std::string_view name) {
    const std::string id = fields.word(name);
    if (id.empty()) return std::nullopt;
    const auto found = std::ranges::find(circuit.states, id, &model::OperatingState::id);
    if (found != circuit.states.end()) return static_cast<int>(found - circuit.states.begin());
    std::vector<std::string> known;
    for (const model::OperatingState& state : circuit.states) known.push_back(state.id);
    fields.refuse(name, std::string(name) + ": the circuit has no state '" + id + "'; " + listed(known) +
                            " is expected" + did_you_mean(id, known));
    return std::nullopt;
}

std::optional<Symptom> read_sign_symptom(const model::Circuit& circuit, Fields& fields) {
    const std::string at = fields.word("at");
    const auto sources = diagnosis::sign_sources(circuit);
    const diagnosis::SignSource* source = find_sign_source(sources, at);
    if (source == nullptr) {
        std::vector<std::string> known;
        known.reserve(sources.size());
        for (const diagnosis::SignSource& each : sources) known.push_back(each.name);
        fields.refuse("at", "at: nothing is seen or heard of '" + at +
                                "'; a lamp, motor, horn, fuse or the like "
                                "is expected" +
                                did_you_mean(at, known));
        return std::nullopt;
    }
    const auto sign = diagnosis::read_sign(source->shows, fields.word("shows"));
    if (!sign) {
        fields.refuse("shows", "shows: '" + fields.word("shows") + "' is nothing that " + at + " does; " +
                                   diagnosis::expected_words(source->shows) + " is expected");
        return std::nullopt;
    }
    return Symptom{0, {Finding::Kind::sign, at, "", -1}, static_cast<double>(*sign), {}};
}

std::optional<Symptom> read_symptom(const Context& context, const Element& element,
                                    const model::Circuit& circuit) {
    Fields fields = fields_of(context, element);
    if (!fields.good()) return std::nullopt;
    const auto state = read_state(circuit, fields, "state");
    const int given = (fields.gives("shows") ? 1 : 0) + (fields.gives("reads-a") ? 1 : 0) +
                      (fields.gives("reads-v") ? 1 : 0);
    if (given != 1) {
        context.error(element.where,
                      "<symptom> says nothing, or several things; one of shows, reads-a and "
                      "reads-v is expected");
        return std::nullopt;
    }
    const std::string at = fields.word("at");
    std::optional<Symptom> symptom;
    if (fields.gives("shows"))
        symptom = read_sign_symptom(circuit, fields);
    else if (fields.gives("reads-a") && circuit.find_wire(at) == nullptr)
        fields.refuse("at", "at: there is no wire '" + at + "'; the wire the clamp was around is expected");
    else if (fields.gives("reads-a"))
        symptom = Symptom{0, {Finding::Kind::current, at, "", -1}, fields.number("reads-a"), {}};
    else if (!circuit.find_pin(at))
        fields.refuse("at", "at: there is no point '" + at + "'; a point such as K2.30 is expected");
    else
        symptom = Symptom{0, {Finding::Kind::voltage, at, "body", -1}, fields.number("reads-v"), {}};
    if (!symptom || !state) return std::nullopt;
    symptom->state = *state;
    symptom->where = fields.where();
    return symptom;
}

void read_hidden(const Context& context, const Element& hidden, const model::Circuit& circuit,
                 Scenario& scenario) {
    fields_of(context, hidden);
    for (const Element& child : hidden.children) {
        if (child.name == "lesson") scenario.lesson = words_of(context, child);
        if (child.name != "fault") continue;
        Fields fields = fields_of(context, child);
        if (!fields.good()) continue;
        const auto fault = network::parse_fault(circuit, fields.word("spec"));
        if (fault)
            scenario.faults.push_back(*fault);
        else
            fields.refuse("spec", "spec: " + fault.error());
    }
}

/// What needs the circuit to be understood.
void read_about_circuit(const Context& context, const Element& root, const model::Circuit& circuit,
                        Fields& head, Scenario& scenario) {
    if (const auto state = read_state(circuit, head, "arrives")) scenario.arrives_in = *state;
    bool has_symptom = false;
    if (const Element* symptoms = child_of(root, "symptoms")) {
        fields_of(context, *symptoms);
        for (const Element& child : symptoms->children) {
            if (child.name != "symptom") continue;
            has_symptom = true;
            if (auto symptom = read_symptom(context, child, circuit))
                scenario.symptoms.push_back(std::move(*symptom));
        }
    }
    if (const Element* hidden = child_of(root, "hidden")) read_hidden(context, *hidden, circuit, scenario);
    if (!scenario.faults.empty() && !has_symptom)
        context.error(root.where, "the scenario has a fault and no symptom; <symptom> is expected");
}

Scenario read_head(const Context& context, const Element& root, Fields& fields) {
    Scenario scenario;
    scenario.where = fields.where();
    scenario.id = fields.name_word("id");
    scenario.title = fields.word("title");
    scenario.budget_min = fields.number("budget-min");
    const double level = fields.number("level");
    if (std::isfinite(level) && level != std::floor(level))
        fields.refuse("level", "level: a whole number is expected");
    else if (std::isfinite(level))
        scenario.level = static_cast<int>(level);
    if (const Element* card = child_of(root, "job-card")) scenario.job_card = read_job_card(context, *card);
    scenario.instruments = read_instruments(context, root);
    scenario.hints = list_of_words(context, root, "hints", "hint");
    scenario.cautions = list_of_words(context, root, "cautions", "caution");
    return scenario;
}

/// The circuit the scenario names; nullopt where it cannot be had, after its errors were reported.
std::optional<model::Circuit> read_its_circuit(const model::TextSource& source,
                                               const std::string& circuit_path,
                                               model::reading::Report& report) {
    auto circuit = model::read_circuit(circuit_path, source);
    if (circuit) return std::move(*circuit);
    for (const Diagnostic& problem : circuit.error()) report.error(problem.where, problem.message);
    return std::nullopt;
}

std::string folder_of(std::string_view path) {
    const std::size_t slash = path.rfind('/');
    return std::string(path.substr(0, slash == std::string_view::npos ? 0 : slash + 1));
}

}  // namespace

tl::expected<std::string, std::string> circuit_path_of(std::string_view from, std::string_view href) {
    const bool is_relative = !href.empty() && href.front() != '/' &&
                             href.find(':') == std::string_view::npos &&
                             href.find('\\') == std::string_view::npos;
    if (!is_relative || !href.ends_with(".circuit.xml"))
        return tl::unexpected("'" + std::string(href) +
                              "' is no circuit file; a path from this file's folder is expected, such as "
                              "../circuits/horn.circuit.xml");
    std::string folder = folder_of(from);
    std::string_view rest = href;
    while (rest.starts_with("../")) {
        const bool can_go_up = !folder.empty() && folder != "/" && !folder.ends_with("../");
        if (can_go_up)
            folder = folder_of(std::string_view(folder).substr(0, folder.size() - 1));
        else
            folder += "../";
        rest.remove_prefix(3);
    }
    return folder + std::string(rest);
}

tl::expected<ScenarioWithCircuit, Diagnostics> read_scenario(const std::string& path,
                                                             const model::TextSource& source) {
    const auto text = source(path);
    if (!text) return tl::unexpected(one_problem("cannot read " + path + ": " + text.error()));
    const auto document = xml::read_document(*text, path, kScenarioNamespace);
    if (!document) return tl::unexpected(document.error());
    const Element& root = document->root;
    model::reading::Report report;
    const Context context{document->file, report};
    if (root.name != "scenario") {
        context.error(root.where, "<" + root.name + "> is not a scenario; <scenario> is expected");
        return tl::unexpected(report.errors());
    }
    Fields fields = fields_of(context, root);
    ScenarioWithCircuit read{read_head(context, root, fields), {}, {}};
    if (fields.gives("circuit")) {
        const auto circuit_path = circuit_path_of(path, fields.word("circuit"));
        if (!circuit_path)
            fields.refuse("circuit", "circuit: " + circuit_path.error());
        else if (auto circuit = read_its_circuit(source, *circuit_path, report)) {
            read_about_circuit(context, root, *circuit, fields, read.scenario);
            read.circuit = std::move(*circuit);
            read.circuit_path = *circuit_path;
        }
    }
    if (!report.errors().empty()) return tl::unexpected(report.errors());
    return read;
}

}  // namespace halfsplit::practice
