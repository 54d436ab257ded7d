#pragma once

#include <unistd.h>

#include <filesystem>
#include <string>

namespace halfsplit::test {

/// A folder of its own among the system's temporary ones, gone at the end with all that is in it.
class TemporaryFolder {
  public:
    explicit TemporaryFolder(const std::string& name)
        : path_(std::filesystem::temp_directory_path() /
                ("halfsplit-" + name + "-" + std::to_string(getpid()))) {
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_);
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    ~TemporaryFolder() { std::filesystem::remove_all(path_); }

    std::string path() const { return path_.string(); }
    std::string file(const std::string& name) const { return (path_ / name).string(); }

  private:
    std::filesystem::path path_;
};

}  // namespace halfsplit::test
