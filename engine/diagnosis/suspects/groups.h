#pragma once

#include <optional>
#include <vector>

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/permitted.h"

namespace halfsplit::diagnosis {

/// Whether some permitted reading decides between two hypotheses by itself (are_told_apart()). Remembers
/// where others differed: often so do the next two. Borrows both; pairs must have been predicted in all
/// permitted states.
class TellingApart {
  public:
    TellingApart(const Hypotheses& hypotheses, const Permitted& permitted)
        : hypotheses_(hypotheses), permitted_(permitted) {}

    bool operator()(int one, int other);

  private:
    struct Where {
        int state = 0;
        int finding = 0;
    };
    bool differ_at(int one, int other, const Where& where) const;
    std::optional<Where> difference(int one, int other) const;

    const Hypotheses& hypotheses_;
    const Permitted& permitted_;
    std::vector<Where> remembered_;  ///< the last first
};

/// Groups that no permitted finding in any permitted state can tell apart. The first of each group stands for
/// it: each of `members` (best the most probable first) joins the first group whose first member it cannot
/// be told from, or begins its own.
std::vector<std::vector<int>> ambiguity_groups(const Hypotheses& hypotheses, const std::vector<int>& members,
                                               const Permitted& permitted);

/// Of all hypotheses, as they are numbered.
std::vector<std::vector<int>> ambiguity_groups(const Hypotheses& hypotheses, const Permitted& permitted);

}  // namespace halfsplit::diagnosis
