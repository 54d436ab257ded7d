#pragma once

#include <string>

namespace halfsplit::diagnosis {

/// What can be found out about a circuit in some state without changing it.
struct Finding {
    enum class Kind {
        voltage,  ///< V, a 10 megohm voltmeter at a point, against another (most often the body)
        current,  ///< A, a clamp around a wire, from its first end to its second
        sign      ///< what a part does that anybody sees or hears, see Sign
    };
    Kind kind = Kind::voltage;
    std::string at;       ///< point; wire; part
    std::string against;  ///< point; "" for current and sign
    int place = -1;       ///< index into model::Circuit::places, or -1: where one has to be for it

    friend bool operator==(const Finding&, const Finding&) = default;
};

/// Whether they read the same thing. Where one has to be for it makes no other reading of it.
inline bool is_same_finding(const Finding& one, const Finding& other) {
    const bool has_leads = one.kind == Finding::Kind::voltage;
    return one.kind == other.kind && one.at == other.at && (!has_leads || one.against == other.against);
}

/// What a lamp, motor, horn, heater or the like is seen to do, against what it does in a sound vehicle in the
/// same state, where something that travels is found, or how a fuse is.
enum class Sign {
    none = 0,   ///< dark, silent, still; unlocked, where its travel begins; a fuse that is whole
    weak = 1,   ///< clearly less than it would with its rated voltage; between the ends of its travel
    works = 2,  ///< as it should when on; locked, where its travel ends
    blown = 3   ///< a fuse that is blown, seen from its window
};

}  // namespace halfsplit::diagnosis
