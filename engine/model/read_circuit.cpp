#include "engine/model/read_circuit.h"

#include <algorithm>
#include <set>

#include "engine/base/number.h"
#include "engine/model/reading/behaviours.h"
#include "engine/model/reading/fields.h"
#include "engine/model/reading/include.h"
#include "engine/model/reading/sections.h"
#include "engine/xml/limits.h"

namespace halfsplit::model {
namespace {

using reading::Context;
using reading::Draft;
using reading::Fields;
using reading::Joined;

const xml::Element* child_of(const xml::Element& element, std::string_view name) {
    const auto found = std::find_if(element.children.begin(), element.children.end(),
                                    [&](const xml::Element& child) { return child.name == name; });
    return found == element.children.end() ? nullptr : &*found;
}

/// One reading of a circuit and all it includes.
class CircuitReader {
  public:
    explicit CircuitReader(const TextSource& source) : source_(source) {}

    std::optional<Circuit> read_whole(const std::string& path) {
        auto circuit = read(path, {path, 0, 0});
        if (circuit) reading::read_behaviours(source_, report_, *circuit);
        return circuit;
    }

    std::optional<Circuit> read(const std::string& path, const Location& asked_for_at) {
        const auto text = source_(path);
        if (!text) {
            report_.error(asked_for_at, "cannot read " + path + ": " + text.error());
            return std::nullopt;
        }
        const auto document = admit(*text, path, asked_for_at);
        if (!document) return std::nullopt;
        chain_.push_back(path);
        auto circuit = read_file(*document);
        chain_.pop_back();
        return circuit;
    }

    const Diagnostics& errors() const { return report_.errors(); }

  private:
    /// The file as a tree, if it is one and the limits on all files together allow it.
    std::optional<xml::Document> admit(const std::string& text, const std::string& path,
                                       const Location& asked_for_at) {
        bytes_ += text.size();
        if (bytes_ > xml::kMaxBytes && text.size() <= xml::kMaxBytes) {
            report_.error(asked_for_at, "the circuit and its includes are larger than " +
                                            std::to_string(xml::kMaxBytes >> 20U) + " MiB");
            return std::nullopt;
        }
        auto document = xml::read_document(text, path, kCircuitNamespace);
        if (!document) {
            for (const Diagnostic& error : document.error()) report_.error(error.where, error.message);
            return std::nullopt;
        }
        elements_ += document->element_count;
        if (elements_ > xml::kMaxElements) {
            report_.error(asked_for_at, "the circuit and its includes have more than " +
                                            std::to_string(xml::kMaxElements) + " elements");
            return std::nullopt;
        }
        return std::move(*document);
    }

    std::optional<Circuit> read_file(const xml::Document& document) {
        const std::size_t errors_before = report_.size();
        const Context context{document.file, report_};
        const xml::Element& root = document.root;
        if (root.name != "circuit") {
            context.error(root.where, "<" + root.name + "> is not a circuit; <circuit> is expected");
            return std::nullopt;
        }
        Draft draft;
        draft.circuit.files.push_back(document.file);
        read_head(context, root, draft);
        read_sections(context, root, draft);
        if (report_.size() != errors_before) return std::nullopt;
        return std::move(draft.circuit);
    }

    static void read_head(const Context& context, const xml::Element& root, Draft& draft) {
        Fields fields(context, root, {reading::declared_by(structure("circuit"))});
        check_children(context, root, structure("circuit"));
        draft.circuit.id = fields.name_word("id");
        draft.circuit.title = fields.word("title");
        draft.circuit.nominal_v = fields.number("nominal-v");
        if (const xml::Element* about = child_of(root, "about")) {
            check_container(context, *about, structure("about"));
            draft.circuit.about = about->text;
        }
    }

    /// In the order in which things may refer to each other, not that of the file.
    void read_sections(const Context& context, const xml::Element& root, Draft& draft) {
        const xml::Element none;
        const auto section = [&](std::string_view name) -> const xml::Element& {
            const xml::Element* child = child_of(root, name);
            return child == nullptr ? none : *child;
        };
        read_quantities(context, section("quantities"), draft);
        read_places(context, section("places"), draft);
        std::vector<Joined> joined = read_includes(context, root, draft);
        for (const Joined& each : joined) join_world(context, each, draft);
        const auto sources = read_parts(context, section("parts"), draft);
        for (Joined& each : joined) join_parts(context, each, draft);
        check_references(context, sources, draft);
        read_harness(context, section("harness"), draft);
        for (Joined& each : joined) join_wires(context, each, draft);
        read_states(context, section("operating-states"), draft);
        for (const Joined& each : joined) join_states(context, each, draft);
    }

    std::vector<Joined> read_includes(const Context& context, const xml::Element& root, Draft& draft) {
        std::vector<Joined> joined;
        for (const xml::Element& child : root.children) {
            if (child.name != "include" || report_.full()) continue;
            auto include = read_include(context, child);
            auto circuit = include ? read_included(context, *include, draft.circuit.nominal_v) : std::nullopt;
            if (!circuit) {
                draft.incomplete = true;
                continue;
            }
            for (const std::string& file : circuit->files)
                if (std::find(draft.circuit.files.begin(), draft.circuit.files.end(), file) ==
                    draft.circuit.files.end())
                    draft.circuit.files.push_back(file);
            joined.push_back({std::move(*include), std::move(*circuit), {}});
        }
        return joined;
    }

    std::optional<Circuit> read_included(const Context& context, const reading::Include& include,
                                         double nominal_v) {
        if (failed_.count(include.path) > 0 || !may_follow(include)) return std::nullopt;
        const std::size_t errors_before = report_.size();
        auto circuit = read(include.path, include.where);
        if (!circuit) {
            failed_.insert(include.path);
            report_.add_included_from(errors_before, include.where);
        } else if (circuit->nominal_v != nominal_v) {
            context.report.error(include.where, "nominal-v is " + number_text(circuit->nominal_v) +
                                                    " in the included file and " + number_text(nominal_v) +
                                                    " here; the same is expected");
        }
        return circuit;
    }

    /// No loop, and not too deep.
    bool may_follow(const reading::Include& include) {
        std::string chain;
        for (const std::string& path : chain_) chain += path + " -> ";
        if (std::find(chain_.begin(), chain_.end(), include.path) != chain_.end())
            report_.error(include.where, "the files include each other: " + chain + include.path +
                                             "; an include that does not lead back is expected");
        else if (chain_.size() > xml::kMaxIncludeDepth)
            report_.error(include.where, "includes nest deeper than " +
                                             std::to_string(xml::kMaxIncludeDepth) + " files: " + chain +
                                             include.path);
        else
            return true;
        return false;
    }

    const TextSource& source_;
    reading::Report report_;
    std::vector<std::string> chain_;  ///< files being read, each included by the one before
    std::set<std::string> failed_;    ///< files whose errors have been reported
    std::size_t bytes_ = 0;
    int elements_ = 0;
};

}  // namespace

tl::expected<Circuit, Diagnostics> read_circuit(const std::string& path, const TextSource& source) {
    CircuitReader reader(source);
    auto circuit = reader.read_whole(path);
    if (!reader.errors().empty()) return tl::unexpected(reader.errors());
    return std::move(*circuit);
}

}  // namespace halfsplit::model
