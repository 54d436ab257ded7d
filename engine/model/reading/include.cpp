#include "engine/model/reading/include.h"

#include <algorithm>

#include "engine/model/reading/fields.h"

namespace halfsplit::model::reading {
namespace {

void read_same(const Context& context, const xml::Element& element, Include& include) {
    Fields fields(context, element, {declared_by(structure("same"))});
    refuse_content(context, element);
    if (!fields.good()) return;
    const Include::Same same{fields.word("as"), fields.where()};
    const auto [first, is_new] = include.same.emplace(fields.word("id"), same);
    if (!is_new)
        fields.refuse("id", "<same> for " + first->first + " is given twice; it first stands at " +
                                to_text(first->second.where));
}

}  // namespace

tl::expected<std::string, std::string> included_path(std::string_view from, std::string_view href) {
    const std::string expected =
        "; a file below this file's folder, such as lights/horn.circuit.xml, is expected";
    const auto refusal = [&](const std::string& reason) {
        return tl::unexpected("'" + std::string(href) + "' " + reason + expected);
    };
    if (href.find('\\') != std::string_view::npos) return refusal("has a backslash");
    if (href.find(':') != std::string_view::npos) return refusal("names a drive or a scheme");
    if (!href.empty() && href.front() == '/') return refusal("is absolute");
    std::string path(from.substr(0, from.rfind('/') == std::string_view::npos ? 0 : from.rfind('/') + 1));
    std::string name;
    std::size_t begin = 0;
    while (begin <= href.size()) {
        const std::size_t end = std::min(href.find('/', begin), href.size());
        const std::string_view segment = href.substr(begin, end - begin);
        if (segment == "..") return refusal("leads out of the folder");
        if (!segment.empty() && segment != ".") name += (name.empty() ? "" : "/") + std::string(segment);
        begin = end + 1;
    }
    if (name.empty() || href.back() == '/') return refusal("is no file");
    return path + name;
}

std::optional<Include> read_include(const Context& context, const xml::Element& element) {
    const std::size_t errors_before = context.report.size();
    Fields fields(context, element, {declared_by(structure("include"))});
    check_children(context, element, structure("include"));
    Include include;
    include.where = context.at(fields.mark("href"));
    include.prefix = fields.name_word("prefix");
    for (const xml::Element& child : element.children)
        if (child.name == "same") read_same(context, child, include);
    if (fields.gives("href")) {
        const auto path = included_path(context.file, fields.word("href"));
        if (path)
            include.path = *path;
        else
            fields.refuse("href", "href: " + path.error());
    }
    if (context.report.size() != errors_before) return std::nullopt;
    return include;
}

}  // namespace halfsplit::model::reading
