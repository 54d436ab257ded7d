#pragma once

#include <cstddef>
#include <string>

#include "engine/base/diagnostic.h"
#include "engine/xml/document.h"

namespace halfsplit::model::reading {

/// Collects what is wrong. After xml::kMaxErrors it only says that there is more.
class Report {
  public:
    void error(Location where, std::string message);
    bool full() const;
    std::size_t size() const { return errors_.size(); }
    /// Adds "(included from FILE:LINE:COLUMN)" to the errors from number `first` on
    /// that are not at the include itself.
    void add_included_from(std::size_t first, const Location& include);
    const Diagnostics& errors() const { return errors_; }

  private:
    Diagnostics errors_;
};

/// The file being read and where to report what is wrong with it.
struct Context {
    const std::string& file;
    Report& report;

    Location at(xml::Mark mark) const { return {file, mark.line, mark.column}; }
    void error(xml::Mark mark, std::string message) const { report.error(at(mark), std::move(message)); }
};

/// "FILE:LINE:COLUMN"
std::string to_text(const Location& where);

}  // namespace halfsplit::model::reading
