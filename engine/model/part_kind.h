#pragma once

#include <limits>
#include <span>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/model/element.h"

namespace halfsplit::model {

class PartView;

/// A number an author may give. `fallback` NaN: nothing is assumed, see `required`.
struct NumberSpec {
    std::string_view name;  ///< the XML attribute, its unit at the end: "coil-ohm"
    std::string_view unit;  ///< as people write it: "ohm", "A", "%", "" for a plain factor
    double fallback = std::numeric_limits<double>::quiet_NaN();
    double low = 0;   ///< smallest allowed
    double high = 0;  ///< largest allowed
    double tolerance_percent = 0;
    std::string_view text;
    bool required = false;
};

/// A word an author may give: one of `choices`, or any text where `choices` is empty.
struct WordSpec {
    std::string_view name;
    std::vector<std::string_view> choices;
    std::string_view fallback;
    std::string_view text;
    bool required = false;
    std::string_view refers_to =
        {};  ///< "quantity", or a part's XML element: the word must be such a thing's id
};

struct PinSpec {
    std::string_view id;
    std::string_view text;
};

/// Where a part's pins come from.
enum class PinPolicy {
    fixed,     ///< those of the kind, always
    authored,  ///< `<pin id="…"/>` children; the kind's own pins where the author writes none
    counted,   ///< `pins="6"`: contacts 1 … 6, each with an `a` and a `b` side (couplings)
    single     ///< the part is one point, named by the part's id alone (splices, ground points)
};

/// What a part can be in: a relay at rest or energised, a motor running or stalled.
struct ConditionSpec {
    std::string_view id;
    std::string_view text;
};

/// Who moves a part from one condition to another.
enum class Operation {
    none,      ///< it has one condition only
    person,    ///< a hand does (switches): settable in states and on the command line
    stated,    ///< circumstances outside the electrics do (motor stalled, breaker tripped): settable likewise
    triggered  ///< the part itself does, by its triggers (relays)
};

// What a fault changes. The fault's value (ohm, factor, level …) is the one given, or the FaultSpec's own.
struct OpenElement {
    std::string_view element;  ///< this element carries nothing
};
struct ShortElement {
    std::string_view element;  ///< this element becomes a resistance of the fault's value in ohm
};
struct SeriesElement {
    std::string_view element;  ///< a resistance of the fault's value in ohm comes in series
};
struct ScaleNumber {
    std::string_view number;  ///< the part's number is multiplied by the fault's value
};
struct SetNumber {
    std::string_view number;  ///< the part's number becomes the fault's value
};
struct ForceCondition {
    std::string_view condition;  ///< the part stays in this condition
};
struct ContactEffect {  ///< on one contact of a switch: never closes, never opens, or with the value in
                        ///< series
    enum class What { stuck_open, stuck_closed, resistance } what;
};
struct LinkEffect {  ///< on wires, plug contacts and whole plugs; the network knows what each means
    enum class What {
        open,
        resistance,
        to_body,
        to_supply,
        between_wires,
        chafed,
        wet,
        swapped,
        unplugged
    } what;
};
struct Ailment {
};  ///< what it means the kind's electrics() says, by PartView::ailment (sluggish, ripple, seized)
struct DeadInput {};  ///< a control unit does not see one of its pins

using FaultEffect = std::variant<OpenElement, ShortElement, SeriesElement, ScaleNumber, SetNumber,
                                 ForceCondition, ContactEffect, LinkEffect, Ailment, DeadInput>;

/// One way this kind of part fails. Written `kind:where[=value]`; `where` is the part, `part.element` where
/// `element` is given, or `part.contact` for a ContactEffect.
struct FaultSpec {
    std::string_view kind;     ///< "open", "drift" …
    std::string_view element;  ///< "" = the part as a whole
    FaultEffect effect;
    std::string_view value_unit;  ///< "" = takes no value
    double value = 0;             ///< used where none is given
    double value_low = 0;
    double value_high = 0;
    double rate = 1;  ///< how often, relative to other faults
    std::string_view text;
};

/// One kind of part, declared once: the reader, the schema, the fault universe and the manual come from this.
struct PartKind {
    std::string_view element;  ///< the XML element: "fuse"
    std::string_view letter;   ///< IEC 81346-2 class, by habit: "F"
    std::string_view title;
    std::string_view text;  ///< one to three sentences for the manual
    PinPolicy pin_policy = PinPolicy::fixed;
    std::vector<PinSpec> pins = {};
    std::vector<std::string_view> pin_kinds =
        {};                                    ///< authored pins must be of one of these; empty = no kinds
    std::vector<NumberSpec> pin_numbers = {};  ///< what an authored pin may say besides (kept as words)
    bool plugged = true;                       ///< false: as if plug="none" unless the author says otherwise
    double contact_ohm = 0.002;                ///< of each plug contact, where the author does not say
    std::vector<NumberSpec> numbers = {};
    std::vector<WordSpec> words = {};
    bool authored_positions = false;  ///< `<position id="…"><contact from="…" to="…"/></position>` children
    std::vector<ConditionSpec> conditions = {};  ///< first = at rest; empty where positions are authored
    Operation operation = Operation::none;
    std::vector<FaultSpec> faults = {};
    Electrics (*electrics)(const PartView& part) = nullptr;
};

/// All kinds, in the order of the manual.
std::span<const PartKind* const> part_kinds();

/// nullptr where no kind has this XML element.
const PartKind* find_part_kind(std::string_view element);

/// The wire: not a part in `<parts>`, but declared the same way (numbers, words, faults).
const PartKind& wire_kind();

/// What every plug contact (`M3.1`) and every whole plug (`M3`, `X20`) can suffer; no part of its own.
std::span<const FaultSpec> contact_faults();
std::span<const FaultSpec> plug_faults();

/// Numbers and words every part in `<parts>` takes besides its own (contact-ohm, tolerance-percent; title,
/// place, plug, at).
std::span<const NumberSpec> common_numbers();
std::span<const WordSpec> common_words();

}  // namespace halfsplit::model
