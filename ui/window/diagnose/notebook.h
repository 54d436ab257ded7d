#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/sheet/read_readings.h"
#include "engine/model/circuit.h"

namespace halfsplit::window {

/// A thing looked at in a state of the circuit.
struct Spotted {
    int state = 0;  ///< index into the circuit
    diagnosis::Finding finding;
};

/// What was read at the vehicle, in the order it was taken, each thing once in a state. Kept in the working
/// directory, in the sheet's CSV form, before anything is made of it.
class Notebook {
  public:
    Notebook() = default;
    /// Reads what was kept for this circuit file.
    Notebook(std::shared_ptr<const model::Circuit> circuit, const std::string& circuit_path);

    const std::vector<diagnosis::FilledRow>& readings() const { return readings_; }
    const diagnosis::FilledRow* find(const Spotted& what) const;
    /// In the place of an earlier one of the same thing; what the customer complained of he still does.
    void put(diagnosis::FilledRow reading);
    /// That the customer complained of it, or did not.
    void mark(const Spotted& what, bool is_complaint);
    void take_back(const Spotted& what);
    void begin_anew();
    /// Adds what stands in a filled sheet.
    Diagnostics read_in(const std::string& path);

    const std::string& path() const { return path_; }
    /// Where readings come from that nobody typed today: "5 readings from horn.readings.csv."; "" else.
    const std::string& told() const { return told_; }
    /// Why they are not kept; "" where they are.
    const std::string& trouble() const { return trouble_; }

  private:
    void enter(const diagnosis::FilledRow& reading);
    void keep();

    std::shared_ptr<const model::Circuit> circuit_;
    std::string path_;
    std::string name_;
    std::vector<diagnosis::FilledRow> readings_;
    std::string told_;
    std::string trouble_;
    bool holds_something_else_ = false;  ///< the file there is not ours to write over
};

}  // namespace halfsplit::window
