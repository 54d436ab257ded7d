#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "ui/view/session_json.h"

namespace halfsplit::files {

/// What a session's log holds.
struct LoggedSession {
    view::SessionHead head;
    std::vector<practice::Entry> entries;
};

/// Reads a log. A last line that was cut off by a crash or power cut counts nothing: it had not been shown
/// yet. An error says which line is wrong.
tl::expected<LoggedSession, std::string> read_session(const std::string& path);

/// Whether there is a file with a whole line in it: something to go on with, or somebody's.
bool holds_session(const std::string& path);

/// A log that is being written to: by this program alone, until it is closed. Each line is on the disk before
/// append() comes back.
class SessionLog {
  public:
    /// Begins a new one. An error: the file holds something already, or cannot be written.
    static tl::expected<SessionLog, std::string> begin(const std::string& path,
                                                       const view::SessionHead& head);
    /// Goes on with one, after what was cut off has been taken away. An error: another program writes it, or
    /// it is no log.
    static tl::expected<SessionLog, std::string> resume(const std::string& path);

    SessionLog(SessionLog&& other) noexcept;
    SessionLog& operator=(SessionLog&&) = delete;
    ~SessionLog();

    /// False where it cannot be written: then nothing of it is in the file, as far as that can be seen to.
    bool append(const practice::Entry& entry);

    const LoggedSession& logged() const { return logged_; }

  private:
    explicit SessionLog(int descriptor) : descriptor_(descriptor) {}
    bool write_line(const std::string& line);

    int descriptor_ = -1;
    bool is_spoilt_ = false;  ///< ends in half a line that could not be taken away
    LoggedSession logged_;
};

}  // namespace halfsplit::files
