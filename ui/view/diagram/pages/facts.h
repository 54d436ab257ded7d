#pragma once

#include <vector>

#include "ui/view/diagram/pages/pages.h"
#include "ui/view/table.h"

namespace halfsplit::view::diagram {

/// A row a page: what is on it, how often lines cross, how large it is, and at which scale it is printed.
Table facts_table(const std::vector<Page>& pages);

}  // namespace halfsplit::view::diagram
