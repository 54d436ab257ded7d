#include "engine/model/chart/read_chart.h"

#include <algorithm>
#include <tuple>

#include "engine/base/nearest.h"
#include "engine/model/chart/draft.h"
#include "engine/xml/limits.h"

namespace halfsplit::model::chart {
namespace {

/// An attribute that has one value only.
struct FixedAttribute {
    std::string_view name;
    std::string_view value;
};
constexpr FixedAttribute kFixed[]{{"version", "1.0"}, {"datamodel", "halfsplit"}, {"binding", "early"}};

void read_head(Draft& draft, const xml::Element& root) {
    for (const FixedAttribute& fixed : kFixed) {
        const xml::Attribute* given = root.attribute(fixed.name);
        if (given == nullptr || given->value == fixed.value) continue;
        draft.error(*given, 1,
                    std::string(fixed.name) + ": '" + given->value + "' is outside the subset; " +
                        std::string(fixed.value) + " is expected");
    }
    if (const xml::Attribute* name = root.attribute("name")) draft.chart.name = name->value;
}

tl::unexpected<Diagnostics> refuse(const std::string& file, xml::Mark where, std::string message) {
    return tl::unexpected(Diagnostics{{{file, where.line, where.column}, std::move(message)}});
}

/// In the order of the file; that there are more errors stays the last.
Diagnostics in_order(Diagnostics errors) {
    const auto end = errors.begin() + static_cast<std::ptrdiff_t>(std::min(errors.size(), xml::kMaxErrors));
    std::stable_sort(errors.begin(), end, [](const Diagnostic& a, const Diagnostic& b) {
        return std::tie(a.where.line, a.where.column) < std::tie(b.where.line, b.where.column);
    });
    return errors;
}

}  // namespace

tl::expected<Chart, Diagnostics> read_chart(std::string_view text, const std::string& file) {
    if (text.size() > kMaxChartBytes)
        return refuse(
            file, {1, 1},
            "the file is too large; " + std::to_string(kMaxChartBytes >> 10U) + " KiB at most are expected");
    const auto document = xml::read_document(text, file, kScxmlNamespace);
    if (!document) return tl::unexpected(document.error());
    const xml::Element& root = document->root;
    if (root.name != "scxml")
        return refuse(file, root.where, "<" + root.name + "> is not a state chart; <scxml> is expected");
    if (document->element_count > kMaxChartElements)
        return refuse(file, root.where,
                      "there are more than " + std::to_string(kMaxChartElements) + " elements");
    reading::Report report;
    const reading::Context context{file, report};
    Draft draft{context, text};
    draft.chart.file = file;
    read_head(draft, root);
    read_states(draft, root);
    read_data(draft);
    read_contents(draft);
    if (!report.errors().empty()) return tl::unexpected(in_order(report.errors()));
    return std::move(draft.chart);
}

}  // namespace halfsplit::model::chart
