#include "ui/files/session_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string_view>

#include "ui/files/text_files.h"

namespace halfsplit::files {

namespace {

struct Lines {
    LoggedSession session;
    std::size_t good_bytes = 0;  ///< up to the end of the last whole line
};

tl::expected<Lines, std::string> lines_in(std::string_view text, const std::string& path) {
    Lines lines;
    int number = 0;
    const auto wrong = [&](const std::string& what) {
        return tl::unexpected(path + ":" + std::to_string(number) + ": " + what);
    };
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = text.find('\n', begin);
        if (end == std::string_view::npos) break;
        ++number;
        const std::string_view line = text.substr(begin, end - begin);
        if (number == 1) {
            auto head = view::read_head_line(line);
            if (!head) return wrong(head.error());
            lines.session.head = std::move(*head);
        } else {
            auto entry = view::read_entry_line(line);
            if (!entry) return wrong(entry.error());
            if (entry->number != number - 1) return wrong("a line is missing before this one");
            lines.session.entries.push_back(std::move(*entry));
        }
        begin = end + 1;
        lines.good_bytes = begin;
    }
    if (number == 0) return tl::unexpected(path + " holds no session");
    return lines;
}

tl::expected<std::string, std::string> text_of(const std::string& path) {
    auto text = read_text(path);
    if (!text) return tl::unexpected(to_text(text.error().front()));
    return std::move(*text);
}

std::string system_says(const std::string& path) {
    return path + ": " + std::strerror(errno);
}

/// Whoever lists the folder after a power cut finds the file there.
void sync_folder_of(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
    const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return;
    fsync(descriptor);
    close(descriptor);
}

}  // namespace

tl::expected<LoggedSession, std::string> read_session(const std::string& path) {
    return text_of(path).and_then([&](const std::string& text) {
        return lines_in(text, path).map([](Lines lines) { return std::move(lines.session); });
    });
}

bool holds_session(const std::string& path) {
    const auto text = read_text(path);
    return text && text->find('\n') != std::string::npos;
}

SessionLog::SessionLog(SessionLog&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)), logged_(std::move(other.logged_)) {}

SessionLog::~SessionLog() {
    if (descriptor_ >= 0) close(descriptor_);
}

tl::expected<SessionLog, std::string> SessionLog::begin(const std::string& path,
                                                        const view::SessionHead& head) {
    SessionLog log(open(path.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644));
    if (log.descriptor_ < 0) return tl::unexpected(system_says(path));
    if (flock(log.descriptor_, LOCK_EX | LOCK_NB) != 0)
        return tl::unexpected(path + ": another program writes this session");
    if (holds_session(path)) return tl::unexpected(path + " is there already");
    if (ftruncate(log.descriptor_, 0) != 0) return tl::unexpected(system_says(path));
    if (!log.write_line(view::head_line(head))) return tl::unexpected(system_says(path));
    sync_folder_of(path);
    log.logged_.head = head;
    return log;
}

tl::expected<SessionLog, std::string> SessionLog::resume(const std::string& path) {
    SessionLog log(open(path.c_str(), O_WRONLY | O_APPEND | O_CLOEXEC));
    if (log.descriptor_ < 0) return tl::unexpected(system_says(path));
    if (flock(log.descriptor_, LOCK_EX | LOCK_NB) != 0)
        return tl::unexpected(path + ": another program writes this session");
    const auto text = text_of(path);
    if (!text) return tl::unexpected(text.error());
    auto lines = lines_in(*text, path);
    if (!lines) return tl::unexpected(lines.error());
    if (lines->good_bytes < text->size() &&
        ftruncate(log.descriptor_, static_cast<off_t>(lines->good_bytes)) != 0)
        return tl::unexpected(system_says(path));
    log.logged_ = std::move(lines->session);
    return log;
}

bool SessionLog::append(const practice::Entry& entry) {
    if (is_spoilt_ || !write_line(view::entry_line(entry))) return false;
    logged_.entries.push_back(entry);
    return true;
}

bool SessionLog::write_line(const std::string& line) {
    const off_t before = lseek(descriptor_, 0, SEEK_END);
    const std::string whole = line + "\n";
    std::size_t written = 0;
    while (written < whole.size()) {
        const ssize_t count = write(descriptor_, whole.data() + written, whole.size() - written);
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) break;
        written += static_cast<std::size_t>(count);
    }
    if (written == whole.size() && fdatasync(descriptor_) == 0) return true;
    // Half a line would be in the way of the next one.
    is_spoilt_ = before < 0 || ftruncate(descriptor_, before) != 0;
    return false;
}

}  // namespace halfsplit::files
