#pragma once

#include <map>
#include <string>
#include <vector>

#include "ui/view/diagram/pages/page_cut.h"

namespace halfsplit::view::diagram {

/// On which pages things are. Pages count from 0, the map first if there is one.
class Whereabouts {
  public:
    /// `first`: the page of the first cut.
    Whereabouts(const model::Circuit& circuit, const Heights& heights, const std::vector<PageCut>& cuts,
                int first);

    /// Pages with a wire on the point, ascending.
    std::vector<int> pages_at(model::PinRef point) const;
    /// What a point's wires on that page lead to: parts, in the author's order.
    std::vector<int> parts_from(model::PinRef point, int page) const;
    /// Where the wire comes from that feeds the point, or that hangs highest.
    int home_of(model::PinRef point) const;
    /// Where most of the part's wires are; of a part without wires the first page it is drawn on.
    int page_of(int part) const;
    /// Pages of a circuit on one page have no numbers worth telling.
    bool is_on_several() const { return is_on_several_; }

  private:
    using Point = std::pair<int, int>;

    const model::Circuit& circuit_;
    bool is_on_several_;
    std::map<Point, std::map<int, std::vector<int>>> wires_;  ///< by point and page
    std::map<Point, int> home_;
    std::vector<int> page_of_part_;
};

/// "3", as a page is called.
std::string page_number(int page);

}  // namespace halfsplit::view::diagram
