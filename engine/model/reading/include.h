#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/model/reading/draft.h"
#include "engine/xml/document.h"

namespace halfsplit::model::reading {

/// What an <include> says.
struct Include {
    std::string path;    ///< of the file, as the text source knows it
    std::string prefix;  ///< "" = none
    struct Same {
        std::string as;
        Location where;
        bool used = false;  ///< the included file has such an id
    };
    std::map<std::string, Same, std::less<>> same;  ///< id in the included file -> id in this file
    Location where;                                 ///< of its href
};

/// nullopt where something is wrong; it has been reported.
std::optional<Include> read_include(const Context& context, const xml::Element& element);

/// The path of `href` as written in the file `from`: below that file's folder, "./" and "//" taken out. The
/// error says why it may not be included: absolute, with "..", a backslash or a scheme.
tl::expected<std::string, std::string> included_path(std::string_view from, std::string_view href);

/// An included circuit on its way into the one that includes it.
struct Joined {
    Include include;
    Circuit circuit;              ///< as if read alone, its ids without prefix
    std::vector<int> part_index;  ///< of each of its parts in the draft; -1 where it found no place
};

// The steps of joining, in this order; ids that clash are reported at the include.

/// Quantities and places: what has an id that is already there is the same thing.
void join_world(const Context& context, const Joined& joined, Draft& draft);
/// The draft's own parts must be there.
void join_parts(const Context& context, Joined& joined, Draft& draft);
/// The draft's own wires must be there.
void join_wires(const Context& context, Joined& joined, Draft& draft);
/// The draft's own states must be there.
void join_states(const Context& context, const Joined& joined, Draft& draft);

}  // namespace halfsplit::model::reading
