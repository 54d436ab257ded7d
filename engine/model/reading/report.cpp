#include "engine/model/reading/report.h"

#include "engine/xml/limits.h"

namespace halfsplit::model::reading {

void Report::error(Location where, std::string message) {
    if (full()) return;
    errors_.push_back({std::move(where), std::move(message)});
    if (full()) errors_.push_back({errors_.back().where, "there are more errors; the first ones are listed"});
}

bool Report::full() const {
    return errors_.size() >= xml::kMaxErrors;
}

void Report::add_included_from(std::size_t first, const Location& include) {
    for (std::size_t i = first; i < errors_.size(); ++i)
        if (to_text(errors_[i].where) != to_text(include))
            errors_[i].message += " (included from " + to_text(include) + ")";
}

std::string to_text(const Location& where) {
    return where.file + ":" + std::to_string(where.line) + ":" + std::to_string(where.column);
}

}  // namespace halfsplit::model::reading
