#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "ui/view/expected_row.h"
#include "ui/window/diagnose/notebook.h"
#include "ui/window/frame/frame.h"

namespace halfsplit::window {

/// What somebody did in the table.
struct TableDeed {
    std::optional<diagnosis::FilledRow> taken;
    std::optional<Spotted> taken_back;       ///< its field was emptied
    std::optional<view::ExpectedRow> shown;  ///< clicked: it is wanted on the diagram
};

/// Rows with what is expected and a field for what was measured, under the places one stands at.
class ExpectedTable {
  public:
    /// `groups`: rows with a heading, in the order they are drawn; at most `most_height_px` high.
    struct Group {
        std::string heading;
        std::vector<const view::ExpectedRow*> rows;
    };
    TableDeed draw(const Frame& frame, const model::Circuit& circuit, const std::vector<Group>& groups,
                   const Notebook& notebook, float most_height_px);

    /// The keyboard goes to this row's field as soon as that is there.
    void go_to(const Spotted& what) { wanted_ = what; }
    const std::optional<Spotted>& wanted() const { return wanted_; }
    /// Nothing typed, nothing wanted.
    void clear();

  private:
    /// What stands in a field and has not been taken.
    struct Entry {
        std::string text;
        std::string trouble;
    };

    void row(const Frame& frame, const model::Circuit& circuit, const view::ExpectedRow& row,
             const Notebook& notebook, TableDeed& deed);
    static std::string taken_text(const model::Circuit& circuit, const view::ExpectedRow& row,
                                  const Notebook& notebook);
    /// How the reading stands to what is expected, ending at that pixel.
    void status(const Frame& frame, const view::ExpectedRow& row, const Notebook& notebook,
                float right_px) const;
    void field(const Frame& frame, const model::Circuit& circuit, const view::ExpectedRow& row,
               const Notebook& notebook, TableDeed& deed);
    void take(const model::Circuit& circuit, const view::ExpectedRow& row, const std::string& key,
              const std::string& text, TableDeed& deed);
    bool is_wanted(const view::ExpectedRow& row) const;

    std::map<std::string, Entry> entries_;  ///< by state and place in it
    std::optional<Spotted> wanted_;
    float filled_px_ = 0;  ///< how high its contents were in the last frame
};

/// "K2.85", "F7.1-K2.30", "W12": what the landmarks of a row are called by, after "row:" and "field:".
std::string row_name(const view::ExpectedRow& row);

}  // namespace halfsplit::window
