#pragma once

#include <string>
#include <vector>

#include "engine/diagnosis/dictionary/make_dictionary.h"

namespace halfsplit::test {

/// Names of the circuits we ship but the whole van: "horn".
std::vector<std::string> small_circuits();
model::Circuit shipped(const std::string& name);

/// How far two dictionaries of one circuit are apart, over the rows that both have and the first tells so.
struct Apart {
    double worst_v = 0;  ///< voltages
    double worst_a = 0;  ///< currents, as a share of 1 A or of the current where that is more
    int signs = 0;       ///< how many differ
    int rows = 0;        ///< compared
    int not_at_all = 0;  ///< rows that one of them alone has nothing for
    std::string where;   ///< of the worst voltage
};
Apart apart(const diagnosis::Dictionary& one, const diagnosis::Dictionary& other,
            diagnosis::Told told = diagnosis::Told::exactly);

}  // namespace halfsplit::test
