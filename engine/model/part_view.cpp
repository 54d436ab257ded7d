#include "engine/model/part_view.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace halfsplit::model {

namespace {

[[noreturn]] void undeclared(const Part& part, std::string_view name) {
    throw std::logic_error("the kind '" + std::string(part.kind->element) + "' declares no '" +
                           std::string(name) + "'");
}

std::size_t number_index(const Part& part, std::string_view name) {
    const auto found = std::ranges::find(part.kind->numbers, name, &NumberSpec::name);
    if (found == part.kind->numbers.end()) undeclared(part, name);
    return static_cast<std::size_t>(found - part.kind->numbers.begin());
}

}  // namespace

PartView::PartView(const Part& part, std::span<const double> numbers, const Quantities& quantities,
                   double nominal_v)
    : part_(part), numbers_(numbers), quantities_(quantities), nominal_v_(nominal_v) {}

double PartView::number(std::string_view name) const {
    return numbers_[number_index(part_, name)];
}

bool PartView::has(std::string_view name) const {
    return !std::isnan(number(name));
}

std::string_view PartView::word(std::string_view name) const {
    const auto found = std::ranges::find(part_.kind->words, name, &WordSpec::name);
    if (found == part_.kind->words.end()) undeclared(part_, name);
    return part_.words[static_cast<std::size_t>(found - part_.kind->words.begin())];
}

int PartView::pin(std::string_view id) const {
    const auto found = std::ranges::find(part_.pins, id, &Pin::id);
    if (found == part_.pins.end()) undeclared(part_, id);
    return static_cast<int>(found - part_.pins.begin());
}

int PartView::condition(std::string_view id) const {
    const auto found = std::ranges::find(part_.positions, id, &Position::id);
    if (found == part_.positions.end()) undeclared(part_, id);
    return static_cast<int>(found - part_.positions.begin());
}

double PartView::quantity(std::string_view id, double otherwise) const {
    const auto found = quantities_.find(id);
    return found == quantities_.end() ? otherwise : found->second;
}

}  // namespace halfsplit::model
