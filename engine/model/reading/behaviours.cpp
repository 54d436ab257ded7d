#include "engine/model/reading/behaviours.h"

#include <map>

#include "engine/model/chart/check_unit.h"
#include "engine/model/chart/read_chart.h"
#include "engine/model/reading/include.h"

namespace halfsplit::model::reading {
namespace {

using chart::Chart;

/// The file its part kind's word `behaviour` names; nullopt for parts that have none.
std::optional<std::string> behaviour_of(const Part& part) {
    for (std::size_t i = 0; i < part.kind->words.size(); ++i)
        if (part.kind->words[i].name == "behaviour") return part.words[i];
    return std::nullopt;
}

/// Several units may share a file: it is read, and complained of, once.
class Charts {
  public:
    Charts(const TextSource& source, Report& report) : source_(source), report_(report) {}

    const Chart* read(const std::string& path, const Location& asked_for_at) {
        const auto [found, is_new] = charts_.try_emplace(path);
        if (is_new) found->second = read_new(path, asked_for_at);
        return found->second ? &*found->second : nullptr;
    }

  private:
    std::optional<Chart> read_new(const std::string& path, const Location& asked_for_at) {
        const auto text = source_(path);
        if (!text) {
            report_.error(asked_for_at, "cannot read behaviour " + path + ": " + text.error());
            return std::nullopt;
        }
        auto chart = chart::read_chart(*text, path);
        if (chart) return std::move(*chart);
        for (const Diagnostic& error : chart.error()) report_.error(error.where, error.message);
        return std::nullopt;
    }

    const TextSource& source_;
    Report& report_;
    std::map<std::string, std::optional<Chart>> charts_;
};

}  // namespace

void read_behaviours(const TextSource& source, Report& report, Circuit& circuit) {
    Charts charts(source, report);
    for (const Part& part : circuit.parts) {
        const auto file = behaviour_of(part);
        const auto path = file ? included_path(part.where.file, *file) : std::string();
        if (!file || !path) continue;
        const Chart* chart = charts.read(*path, part.where);
        if (chart == nullptr) continue;
        for (const Diagnostic& error : chart::check_unit(*chart, part))
            report.error(error.where, error.message);
        circuit.behaviours.emplace(part.id, *chart);
    }
}

}  // namespace halfsplit::model::reading
