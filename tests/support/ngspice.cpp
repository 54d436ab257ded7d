#include "tests/support/ngspice.h"

#include <ngspice/sharedspice.h>

namespace halfsplit::test {

namespace {

/// What ngspice has printed since the last command, as far as it is about an error.
struct LibraryState {
    std::string errors;
    bool dead = false;
};

/// "stderr Warning: …" is no error; failed analyses always print one of these words.
bool tells_of_error(std::string_view line) {
    for (const std::string_view word : {"rror", "aborted", "failed", "singular", "no such", "unknown"})
        if (line.find(word) != std::string_view::npos) return true;
    return false;
}

/// Trials that ngspice announces with the same words, before it goes on with the next method.
bool tells_of_retry(std::string_view line) {
    return line.find("stepping failed") != std::string_view::npos ||
           line.find("Warning") != std::string_view::npos || line.find("Note") != std::string_view::npos;
}

int on_text(char* text, int, void* user) {
    auto& library = *static_cast<LibraryState*>(user);
    if (tells_of_error(text) && !tells_of_retry(text)) library.errors += std::string(text) + "\n";
    return 0;
}

int on_exit(int, bool, bool, int, void* user) {
    static_cast<LibraryState*>(user)->dead = true;
    return 0;
}

int on_status(char*, int, void*) {
    return 0;
}
int on_thread(bool, int, void*) {
    return 0;
}

/// The one state of the library, which wants the address of its user for as long as the process lives.
LibraryState& library() {
    static LibraryState only;
    static const bool initialised = [] {
        ngSpice_Init(on_text, on_status, on_exit, nullptr, nullptr, on_thread, &only);
        ngSpice_Command(std::string("set ngbehavior=none").data());
        return true;
    }();
    static_cast<void>(initialised);
    return only;
}

Ngspice::Done outcome(int status) {
    const LibraryState& now = library();
    if (now.dead) return tl::make_unexpected("ngspice has ended itself: " + now.errors);
    if (!now.errors.empty()) return tl::make_unexpected(now.errors);
    if (status != 0) return tl::make_unexpected("ngspice refused, status " + std::to_string(status));
    return {};
}

}  // namespace

Ngspice::Ngspice() {
    library();
}

Ngspice::Done Ngspice::command(const std::string& text) {
    library().errors.clear();
    return outcome(ngSpice_Command(std::string(text).data()));
}

Ngspice::Done Ngspice::load(const std::vector<std::string>& deck) {
    // With no circuit there is nothing to remove, and ngspice calls that an error.
    static_cast<void>(command("destroy all"));
    static_cast<void>(command("remcirc"));
    std::vector<std::string> lines = deck;
    lines.emplace_back(".end");
    std::vector<char*> pointers;
    pointers.reserve(lines.size() + 1);
    for (std::string& line : lines) pointers.push_back(line.data());
    pointers.push_back(nullptr);
    library().errors.clear();
    return outcome(ngSpice_Circ(pointers.data()));
}

Ngspice::Done Ngspice::operating_point() {
    static_cast<void>(command("destroy all"));
    return command("op");
}

tl::expected<double, std::string> Ngspice::value(const std::string& vector) const {
    const auto all = values(vector);
    if (!all) return tl::make_unexpected(all.error());
    return all->back();
}

tl::expected<std::vector<double>, std::string> Ngspice::values(const std::string& vector) const {
    const vector_info* found = ngGet_Vec_Info(std::string(vector).data());
    if (found == nullptr || found->v_length < 1 || found->v_realdata == nullptr)
        return tl::make_unexpected("ngspice has no vector " + vector);
    return std::vector<double>(found->v_realdata, found->v_realdata + found->v_length);
}

}  // namespace halfsplit::test
