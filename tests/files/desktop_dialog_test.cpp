#include "ui/files/desktop_dialog.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>

#include "tests/support/temporary_folder.h"
#include "ui/files/text_files.h"

namespace halfsplit {

namespace {

namespace fs = std::filesystem;

/// PATH with a folder of our own before all others, for as long as it lives.
class OwnPrograms {
  public:
    OwnPrograms() : folder_("dialog"), before_(std::getenv("PATH")) {
        setenv("PATH", (folder_.path() + ":" + before_).c_str(), 1);
    }
    OwnPrograms(const OwnPrograms&) = delete;
    OwnPrograms& operator=(const OwnPrograms&) = delete;
    ~OwnPrograms() { setenv("PATH", before_.c_str(), 1); }

    void add(const std::string& name, const std::string& script) const {
        REQUIRE(files::write_atomically(folder_.file(name), "#!/bin/sh\n" + script + "\n"));
        fs::permissions(folder_.file(name), fs::perms::owner_all);
    }

  private:
    test::TemporaryFolder folder_;
    std::string before_;
};

}  // namespace

TEST_CASE("What was chosen in the desktop's dialog is its path, and nothing where it was put away") {
    const OwnPrograms programs;
    programs.add("zenity", "echo '/tmp/my circuits/horn.circuit.xml'");
    REQUIRE(files::desktop_dialog() == "zenity");
    CHECK(files::choose_file("zenity") == "/tmp/my circuits/horn.circuit.xml");
    programs.add("zenity", "exit 1");
    CHECK_FALSE(files::choose_file("zenity"));
    CHECK_FALSE(files::choose_file("anything else"));
}

}  // namespace halfsplit
