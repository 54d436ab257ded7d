#include "engine/practice/session/replay.h"

namespace halfsplit::practice {

tl::expected<void, std::string> replay(Session& session, std::span<const Entry> entries,
                                       const TellReplay& tell) {
    int done = 0;
    for (const Entry& entry : entries) {
        const std::string step = "step " + std::to_string(entry.number) + ": ";
        const auto again = session.act(entry.action);
        if (!again) return tl::unexpected(step + again.error());
        if (*again != entry)
            return tl::unexpected(
                step +
                "the vehicle answers otherwise than it did; the log was changed, or the program "
                "was");
        if (tell) tell(++done, static_cast<int>(entries.size()));
    }
    return {};
}

}  // namespace halfsplit::practice
