#pragma once

#include <memory>
#include <string>

#include <tl/expected.hpp>

#include "engine/practice/results/class_table.h"

struct sqlite3;

namespace halfsplit::files {

/// Results of many sessions in one SQLite file. What was put in is there after a crash or power cut as well;
/// put in twice it is there once.
class ResultsStore {
  public:
    /// Made where it is not there. An error: it cannot be opened, or is another kind of file.
    static tl::expected<ResultsStore, std::string> open(const std::string& path);

    /// The job and the session's result, or neither.
    tl::expected<void, std::string> put(const practice::Job& job, const practice::Result& result);
    /// Jobs nobody has done yet, to be recommended.
    tl::expected<void, std::string> put(const practice::Job& job);
    tl::expected<practice::ClassResults, std::string> all() const;

  private:
    struct Close {
        void operator()(sqlite3* database) const;
    };
    explicit ResultsStore(sqlite3* database) : database_(database) {}

    std::unique_ptr<sqlite3, Close> database_;
};

}  // namespace halfsplit::files
