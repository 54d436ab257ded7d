#include "engine/model/reading/draft.h"

namespace halfsplit::model::reading {

const Ids::Entry* Ids::add(const std::string& id, Entry entry) {
    const auto [place, is_new] = entries_.emplace(id, std::move(entry));
    return is_new ? nullptr : &place->second;
}

const Ids::Entry* Ids::find(std::string_view id) const {
    const auto found = entries_.find(id);
    return found == entries_.end() ? nullptr : &found->second;
}

std::optional<int> Ids::find(std::string_view id, Sort sort) const {
    const Entry* entry = find(id);
    if (entry == nullptr || entry->sort != sort) return std::nullopt;
    return entry->index;
}

std::vector<std::string_view> Ids::all(Sort sort) const {
    std::vector<std::string_view> ids;
    for (const auto& [id, entry] : entries_)
        if (entry.sort == sort) ids.emplace_back(id);
    return ids;
}

bool add_thing(const Context& context, Draft& draft, const std::string& id, Ids::Entry entry) {
    const Location where = entry.where;
    const Ids::Entry* first = draft.things.add(id, std::move(entry));
    if (first == nullptr) return true;
    context.report.error(where,
                         "the id " + id + " is given twice; it first stands at " + to_text(first->where));
    return false;
}

}  // namespace halfsplit::model::reading
