#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/base/diagnostic.h"
#include "engine/model/chart/chart.h"
#include "engine/model/part_kind.h"

namespace halfsplit::model {

struct Quantity {
    std::string id;
    std::string title;
    std::string unit;
    double min = 0;
    double max = 0;
    double value = 0;  ///< where nobody sets it
    Location where;
};

struct Place {
    std::string id;
    std::string title;
    double access_min = 0;  ///< minutes to get at it
    Location where;
};

struct Pin {
    std::string id;    ///< "" for the one pin of a splice or ground point
    std::string kind;  ///< control units: supply, ground, input, driver …; "" elsewhere
    std::map<std::string, std::string, std::less<>> words;  ///< control units: further settings of the pin
    Location where;
};

struct Contact {
    int from = 0;  ///< pin indices
    int to = 0;
};

/// One position of a switch, or one condition of a part that has fixed ones.
struct Position {
    std::string id;
    std::string title;
    bool momentary = false;  ///< springs back to the first position when let go
    std::vector<Contact> contacts;
    Location where;
};

/// Grid hint for the diagram.
struct GridPlace {
    int column = 0;
    int row = 0;
};

struct FaultRate {
    std::string kind;
    std::string where;  ///< "" = every fault of this kind on the part
    double rate = 1;
};

struct Part {
    std::string id;
    const PartKind* kind = nullptr;
    std::string title;  ///< the kind's title where the author gives none
    std::string place;  ///< id of a place, "" where not said
    bool plugged = true;
    std::string plug;                       ///< the plug's own name, where it has one
    double contact_ohm = 0;                 ///< of each plug contact
    std::vector<double> numbers;            ///< one per kind->numbers; NaN where neither given nor assumed
    std::vector<double> tolerance_percent;  ///< one per kind->numbers
    std::vector<std::string> words;         ///< one per kind->words
    std::vector<Pin> pins;                  ///< a coupling of n contacts has 2n pins: 1a 1b 2a 2b …
    std::vector<Position> positions;        ///< authored, or the kind's conditions; first = at rest
    std::optional<GridPlace> at;
    std::vector<FaultRate> fault_rates;
    Location where;
};

/// A point a wire ends on: a pin of a part, on the harness side of its plug.
struct PinRef {
    int part = 0;
    int pin = 0;

    friend bool operator==(const PinRef&, const PinRef&) = default;
};

struct Wire {
    std::string id;
    PinRef from;
    PinRef to;
    double area_mm2 = 0;
    double length_m = 0;
    std::optional<double> ohm;  ///< overrides what area and length give
    double tolerance_percent = 0;
    std::string base_colour;    ///< IEC 60757 letters: "GN"
    std::string tracer_colour;  ///< second colour, "" where there is none
    std::vector<FaultRate> fault_rates;
    Location where;
};

struct SetStep {
    std::string what;  ///< a part with positions or conditions, or a quantity
    std::string to;    ///< the position's id, or a number
    Location where;
};
struct SettleStep {
    double seconds = 0;
};
using StateStep = std::variant<SetStep, SettleStep>;

struct OperatingState {
    std::string id;
    std::string title;
    std::vector<StateStep> steps;
    Location where;
};

/// A circuit as its author wrote it: checked, never changed afterwards. Positions, faults and readings stand
/// beside it.
struct Circuit {
    std::string id;
    std::string title;
    std::string about;
    double nominal_v = 12;
    std::vector<Quantity> quantities;
    std::vector<Place> places;
    std::vector<Part> parts;
    std::vector<Wire> wires;
    std::vector<OperatingState> states;
    std::map<std::string, chart::Chart, std::less<>> behaviours;  ///< of control units, by their id
    std::vector<std::string> files;                               ///< the file itself and all it includes

    const Part* find_part(std::string_view part_id) const;
    const Wire* find_wire(std::string_view wire_id) const;
    const Quantity* find_quantity(std::string_view quantity_id) const;
    const Place* find_place(std::string_view place_id) const;
    const OperatingState* find_state(std::string_view state_id) const;
    /// nullopt where `point` ("M3.1", "J14") names no pin.
    std::optional<PinRef> find_pin(std::string_view point) const;
    /// "M3.1", or "J14" for a part that is one point.
    std::string point_name(PinRef pin) const;
};

/// Whether the part is one point, named by its id alone (splices, ground points).
bool is_one_point(const Part& part);

/// nullopt where the part has no pin of that id.
std::optional<int> find_pin_index(const Part& part, std::string_view pin_id);

/// "M3.1" is pin 1 of M3. Pin ids have no dot, part ids may: the last dot counts.
struct PointName {
    std::string_view part;
    std::string_view pin;
};
PointName split_point(std::string_view point);

}  // namespace halfsplit::model
