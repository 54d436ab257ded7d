#include "engine/model/part_view.h"

#include <cmath>
#include <stdexcept>

namespace halfsplit::model {
namespace {

/// Index of the entry whose `field` is `name`; a name nobody declared is a slip in the kind's own file.
template <class List, class Field>
std::size_t index_of(const Part& part, const List& list, Field field, std::string_view name,
                     const char* what) {
    for (std::size_t i = 0; i < list.size(); ++i)
        if (list[i].*field == name) return i;
    throw std::logic_error(std::string(part.kind->element) + " has no " + what + " " + std::string(name));
}

}  // namespace

PartView::PartView(const Part& part, std::span<const double> numbers, const Quantities& quantities,
                   double nominal_v, Ailments ailments)
    : part_(part),
      numbers_(numbers),
      quantities_(quantities),
      nominal_v_(nominal_v),
      ailments_(std::move(ailments)) {
    if (numbers_.size() != part.kind->numbers.size())
        throw std::logic_error(std::string(part.kind->element) + ": one value per declared number is needed");
}

double PartView::number(std::string_view name) const {
    return numbers_[index_of(part_, part_.kind->numbers, &NumberSpec::name, name, "number")];
}

double PartView::authored(std::string_view name) const {
    return part_.numbers.at(index_of(part_, part_.kind->numbers, &NumberSpec::name, name, "number"));
}

bool PartView::has(std::string_view name) const {
    return !std::isnan(number(name));
}

std::string_view PartView::word(std::string_view name) const {
    return part_.words.at(index_of(part_, part_.kind->words, &WordSpec::name, name, "word"));
}

int PartView::pin(std::string_view id) const {
    return static_cast<int>(index_of(part_, part_.pins, &Pin::id, id, "pin"));
}

int PartView::condition(std::string_view id) const {
    return static_cast<int>(index_of(part_, part_.positions, &Position::id, id, "condition"));
}

double PartView::quantity(std::string_view id, double otherwise) const {
    felt_.emplace(id);
    const auto found = quantities_.find(id);
    return found == quantities_.end() ? otherwise : found->second;
}

std::optional<double> PartView::ailment(std::string_view kind) const {
    const auto found = ailments_.find(kind);
    return found == ailments_.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace halfsplit::model
