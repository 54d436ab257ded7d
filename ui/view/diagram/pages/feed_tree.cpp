#include "ui/view/diagram/pages/feed_tree.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/shape.h"

namespace halfsplit::view::diagram {

namespace {

using Point = std::pair<int, int>;

Point key(model::PinRef pin) {
    return {pin.part, pin.pin};
}

class FeedFinder {
  public:
    FeedFinder(const model::Circuit& circuit, const Heights& heights) : circuit_(circuit), heights_(heights) {
        for (int wire = 0; wire < static_cast<int>(circuit.wires.size()); ++wire)
            for (const model::PinRef pin : {circuit.wires[at(wire)].from, circuit.wires[at(wire)].to})
                wires_at_[key(pin)].push_back(wire);
    }

    std::vector<FeedBlock> find() {
        for (int part = 0; part < static_cast<int>(circuit_.parts.size()); ++part)
            if (shape_of(part) == Shape::battery) start_from(part, "+");
        // Protections that nothing but an alternator or a control unit feeds.
        for (int part = 0; part < static_cast<int>(circuit_.parts.size()); ++part)
            if (is_protection(part) && !seen_protections_.contains(part)) start_before(part);
        return std::move(blocks_);
    }

  private:
    Shape shape_of(int part) const { return picture_of(circuit_.parts[at(part)]).shape; }
    bool is_protection(int part) const { return circuit_.parts[at(part)].kind->letter == "F"; }

    model::PinRef far_end(int wire, model::PinRef from) const {
        const model::Wire& drawn = circuit_.wires[at(wire)];
        return drawn.from == from ? drawn.to : drawn.from;
    }
    const std::vector<int>& wires_at(model::PinRef pin) const {
        static const std::vector<int> none;
        const auto found = wires_at_.find(key(pin));
        return found == wires_at_.end() ? none : found->second;
    }

    void start_from(int part, std::string_view pin_id) {
        if (const auto pin = model::find_pin_index(circuit_.parts[at(part)], pin_id)) {
            open({part, *pin}, {-1, -1});
            work_off();
        }
    }

    void start_before(int part) {
        for (int pin = 0; pin < static_cast<int>(circuit_.parts[at(part)].pins.size()); ++pin)
            for (const int wire : wires_at({part, pin})) {
                open(far_end(wire, {part, pin}), {-1, -1});
                return work_off();
            }
    }

    /// The block of that point, a new one if there is none yet.
    int open(model::PinRef point, model::PinRef from) {
        const auto [found, is_new] = block_at_.try_emplace(key(point), static_cast<int>(blocks_.size()));
        if (is_new) blocks_.push_back({point, from});
        return found->second;
    }

    /// Blocks open others while they are filled.
    void work_off() {
        for (; filled_ < static_cast<int>(blocks_.size()); ++filled_) fill(filled_);
    }

    void fill(int number) {
        const model::PinRef point = blocks_[at(number)].at;
        std::vector<FeedWay> ways;
        for (const int wire : wires_at(point)) {
            if (come_by_.contains(wire)) continue;
            const model::PinRef in = far_end(wire, point);
            const bool is_new_protection = is_protection(in.part) && seen_protections_.insert(in.part).second;
            if (is_protection(in.part) && !is_new_protection) continue;
            ways.push_back({wire, is_new_protection ? in.part : -1, in});
        }
        for (FeedWay& way : ways) {
            follow(way);
            std::ranges::sort(way.loads);
        }
        blocks_[at(number)].ways = std::move(ways);
    }

    void follow(FeedWay& way) {
        passed_.clear();
        if (way.protection < 0) return enter(way.in, way, {-1, -1});
        for (int pin = 0; pin < static_cast<int>(circuit_.parts[at(way.protection)].pins.size()); ++pin)
            if (pin != way.in.pin) {
                leave({way.protection, pin}, way, {way.protection, pin});
                if (way.blocks.empty() && way.loads.empty()) name_next({way.protection, pin}, way);
            }
    }

    /// Where nothing follows but a switch that nothing is wired to: that.
    void name_next(model::PinRef point, FeedWay& way) const {
        for (const int wire : wires_at(point)) add(way.loads, far_end(wire, point).part);
    }

    /// From a point along its wires; `last` is the pin it was come to through a part.
    void leave(model::PinRef point, FeedWay& way, model::PinRef last) {
        if (!passed_.insert(key(point)).second) return;
        if (is_distributed_at(point)) return add(way.blocks, open(point, last));
        for (const int wire : wires_at(point)) {
            const model::PinRef end = far_end(wire, point);
            // Behind a protection every wire leads on; later, one that leads up comes from another feed.
            if (!is_protection(point.part) && Heights::is_above(heights_.of(end), heights_.of(point)))
                continue;
            come_by_.insert(wire);
            enter(end, way, last);
        }
    }

    /// Into a part and through it, as far as it lets current pass.
    void enter(model::PinRef pin, FeedWay& way, model::PinRef last) {
        if (is_protection(pin.part)) return;
        if (shape_of(pin.part) == Shape::splice) return leave(pin, way, last);
        bool passes = false;
        for (int other = 0; other < static_cast<int>(circuit_.parts[at(pin.part)].pins.size()); ++other) {
            if (other == pin.pin || !lets_pass(pin.part, pin.pin, other)) continue;
            // A relay's contacts might lead back up to what feeds the other side of them.
            if (shape_of(pin.part) == Shape::relay &&
                Heights::is_above(heights_.of({pin.part, other}), heights_.of(pin)))
                continue;
            passes = true;
            leave({pin.part, other}, way, {pin.part, other});
        }
        if (!passes) add(way.loads, pin.part);
    }

    static void add(std::vector<int>& to, int what) {
        if (std::ranges::find(to, what) == to.end()) to.push_back(what);
    }

    /// Whether a wire leads from there to a protection nobody has come to yet.
    bool is_distributed_at(model::PinRef pin) const {
        return block_at_.contains(key(pin)) || std::ranges::any_of(wires_at(pin), [&](int wire) {
                   const int other = far_end(wire, pin).part;
                   return is_protection(other) && !seen_protections_.contains(other);
               });
    }

    bool lets_pass(int part, int a, int b) const {
        const model::Part& passed = circuit_.parts[at(part)];
        switch (shape_of(part)) {
            case Shape::coupling:
                return a / 2 == b / 2;
            case Shape::relay:
                return !is_coil(passed, a) && !is_coil(passed, b);
            case Shape::contact:
            case Shape::common_contacts:
            case Shape::contact_table:
                return std::ranges::any_of(contacts_of(passed), [&](const auto& contacts) {
                    return std::ranges::any_of(contacts, [&](const model::Contact& contact) {
                        return std::minmax(contact.from, contact.to) == std::minmax(a, b);
                    });
                });
            case Shape::push_contact:
            case Shape::thermo_contact:
                return true;
            default:
                return false;
        }
    }

    static bool is_coil(const model::Part& relay, int pin) {
        const std::string& id = relay.pins[at(pin)].id;
        return id == "85" || id == "86";
    }

    const model::Circuit& circuit_;
    const Heights& heights_;
    std::map<Point, std::vector<int>> wires_at_;
    std::vector<FeedBlock> blocks_;
    int filled_ = 0;
    std::map<Point, int> block_at_;
    std::set<int> come_by_;  ///< wires that lead to a block, not from it
    std::set<int> seen_protections_;
    std::set<Point> passed_;  ///< on the way that is followed
};

/// Back from a ground point over wires, splices and plugs.
class GroundFollower {
  public:
    explicit GroundFollower(const model::Circuit& circuit) : circuit_(circuit) {}

    GroundUse follow(int ground) {
        std::vector<model::PinRef> open{{ground, 0}};
        while (!open.empty()) {
            const model::PinRef point = open.back();
            open.pop_back();
            if (!seen_.insert(key(point)).second) continue;
            for (const model::Wire& wire : circuit_.wires)
                for (const auto& [own, other] :
                     {std::pair(wire.from, wire.to), std::pair(wire.to, wire.from)})
                    if (own == point) enter(other, open);
        }
        return {ground, {parts_.begin(), parts_.end()}};
    }

  private:
    void enter(model::PinRef pin, std::vector<model::PinRef>& open) {
        switch (picture_of(circuit_.parts[at(pin.part)]).shape) {
            case Shape::splice:
            case Shape::ground:
                return open.push_back(pin);
            case Shape::coupling:
                seen_.insert(key(pin));
                return open.push_back({pin.part, pin.pin % 2 == 0 ? pin.pin + 1 : pin.pin - 1});
            default:
                parts_.insert(pin.part);
        }
    }

    const model::Circuit& circuit_;
    std::set<Point> seen_;
    std::set<int> parts_;
};

}  // namespace

std::vector<FeedBlock> feed_blocks(const model::Circuit& circuit, const Heights& heights) {
    return FeedFinder(circuit, heights).find();
}

std::vector<GroundUse> ground_uses(const model::Circuit& circuit) {
    std::vector<GroundUse> uses;
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
        if (picture_of(circuit.parts[at(part)]).shape == Shape::ground)
            uses.push_back(GroundFollower(circuit).follow(part));
    return uses;
}

}  // namespace halfsplit::view::diagram
