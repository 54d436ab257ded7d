#include "tests/support/random_network.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::test {

using network::Branch;
using network::kBody;

std::uint64_t Random::bits() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31U);
}

double Random::uniform(double low, double high) {
    return low + (high - low) * static_cast<double>(bits() >> 11U) * 0x1.0p-53;
}

double Random::log_uniform(double low, double high) {
    return std::exp(uniform(std::log(low), std::log(high)));
}

int Random::below(int count) {
    return static_cast<int>(bits() % static_cast<std::uint64_t>(count));
}

NetworkKind with_nonlinear_parts(int node_count) {
    NetworkKind kind;
    kind.node_count = node_count;
    kind.lamps = 0.06;
    kind.diodes = 0.02;
    kind.motors = 0.01;
    return kind;
}

namespace {

/// Grows one vehicle after the other until the nodes are used up.
class Builder {
  public:
    Builder(std::uint64_t start, const NetworkKind& kind) : random_(start), kind_(kind) {}

    RandomNetwork build() {
        while (left() > 0) vehicle(std::min(left(), 2000));
        cross_links();
        nonlinear_parts();
        for (Branch& branch : built_.branches)
            if (!std::holds_alternative<model::Source>(branch.law))
                branch.conducts = !random_.chance(kind_.open);
        return std::move(built_);
    }

  private:
    int left() const { return kind_.node_count - built_.node_count; }
    int node() { return left() > 0 ? built_.node_count++ : built_.node_count - 1; }

    void join(int from, int to, double low_ohm, double high_ohm) {
        if (from != to)
            built_.branches.push_back({from, to, model::Resistance{random_.log_uniform(low_ohm, high_ohm)}});
    }
    int chain(int from, int length) {
        for (int i = 0; i < length && left() > 0; ++i) {
            const int to = node();
            join(from, to, 1e-3, 0.05);
            passages_.push_back(built_.branches.size() - 1);
            from = to;
        }
        return from;
    }

    void vehicle(int size) {
        const int end = built_.node_count + size;
        const int strap = node();
        join(strap, kBody, 2e-4, 1e-3);
        const int bus = node();
        built_.branches.push_back(
            {bus, strap, model::Source{random_.uniform(11.8, 12.9), random_.uniform(5e-3, 1e-2)}});
        if (random_.chance(kind_.alternators))
            built_.branches.push_back(
                {bus, strap, model::RegulatedSource{14.2, 0.01, random_.uniform(5, 90)}});
        while (built_.node_count < end) circuit(bus);
    }

    /// Fuse, feed, splice, one to six loads, a shared ground splice and its stud.
    void circuit(int bus) {
        int at = node();
        join(bus, at, 2e-3, 2e-2);
        const int feed = chain(at, 2 + random_.below(5));
        at = chain(feed, 1);
        const int ground = node();
        join(ground, kBody, 5e-4, 5e-3);
        for (int load = 1 + random_.below(6); load > 0 && left() > 0; --load) {
            const int supply_side = chain(at, 1 + random_.below(2));
            const int ground_side = node();
            join(supply_side, ground_side, 0.5, 100);
            if (supply_side != ground_side) loads_.push_back(built_.branches.size() - 1);
            const int end = chain(ground_side, random_.below(2));
            join(end, ground, 1e-3, 0.02);
        }
    }

    /// Mostly within a circuit or to the next ones, as between parts that lie close to one another; one in
    /// fifty far.
    void cross_links() {
        for (int i = built_.node_count / 14; i > 0; --i) {
            const int from = random_.below(built_.node_count);
            const int reach = random_.chance(0.02) ? built_.node_count : 30;
            join(from, std::min(from + 1 + random_.below(reach), built_.node_count - 1), 10, 1e4);
        }
    }

    void replace(std::vector<std::size_t>& among, double share, const model::Law& law) {
        const auto count = static_cast<std::size_t>(share * static_cast<double>(built_.branches.size()));
        for (std::size_t i = 0; i < count && !among.empty(); ++i) {
            std::swap(among[static_cast<std::size_t>(random_.below(static_cast<int>(among.size())))],
                      among.back());
            built_.branches[among.back()].law = law;
            among.pop_back();
        }
    }

    void nonlinear_parts() {
        replace(loads_, kind_.lamps / 2, model::Filament{12, 21, 0.1});
        replace(loads_, kind_.lamps / 2, model::Filament{13.5, 6, 1.0 / 15});
        replace(loads_, kind_.motors, model::RunningMotor{0.9, 0.6, 1.4, 12});
        replace(passages_, kind_.diodes, model::Junction{1e-12, 0.026});
    }

    Random random_;
    NetworkKind kind_;
    RandomNetwork built_;
    std::vector<std::size_t> loads_;
    std::vector<std::size_t> passages_;
};

}  // namespace

RandomNetwork body_electrics(std::uint64_t start, const NetworkKind& kind) {
    return Builder(start, kind).build();
}

RandomNetwork random_graph(std::uint64_t start, int node_count, int extra, double decades) {
    Random random(start);
    RandomNetwork built{node_count, {}};
    const auto resistance = [&] {
        return model::Resistance{random.log_uniform(1, std::pow(10.0, decades)) * 1e-3};
    };
    for (int node = 0; node < node_count; ++node) {
        const int to = random.below(node + 1) - 1;
        built.branches.push_back({node, to, resistance(), random.chance(0.95)});
    }
    for (int i = 0; i < extra; ++i) {
        const int from = random.below(node_count);
        const int to = random.below(node_count + 1) - 1;
        if (random.chance(0.05))
            built.branches.push_back(
                {from, to, model::Source{random.uniform(-24, 24), random.log_uniform(1e-3, 10)}});
        else
            built.branches.push_back({from, to, resistance(), random.chance(0.9)});
    }
    return built;
}

namespace {

model::Law any_law(Random& random) {
    switch (random.below(4)) {
        case 0:
            return model::Junction{random.log_uniform(1e-20, 1e-6), random.uniform(0.02, 0.1)};
        case 1:
            return model::Filament{random.uniform(5, 28), random.log_uniform(1, 100), 0.08};
        case 2:
            return model::RegulatedSource{random.uniform(5, 28), random.log_uniform(1e-3, 1),
                                          random.log_uniform(0.1, 100)};
        default: {
            const double ohm = random.log_uniform(0.05, 50);
            const double load_v = random.uniform(6, 24);
            const double breakaway_a = random.uniform(0.01, 0.3) * load_v / ohm;
            return model::RunningMotor{ohm, breakaway_a, breakaway_a + random.uniform(0, 0.3) * load_v / ohm,
                                       load_v};
        }
    }
}

}  // namespace

RandomNetwork every_law(std::uint64_t start, int node_count, int extra) {
    Random random(start);
    RandomNetwork built = random_graph(start, node_count, extra, 6);
    for (Branch& branch : built.branches)
        if (std::holds_alternative<model::Resistance>(branch.law) && random.chance(0.4))
            branch.law = any_law(random);
    return built;
}

RandomNetwork grid(std::uint64_t start, int side) {
    Random random(start);
    RandomNetwork built{side * side, {}};
    const auto join = [&](int a, int b) {
        built.branches.push_back({a, b, model::Resistance{random.uniform(0.5, 2)}});
    };
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) {
            if (x > 0) join(y * side + x - 1, y * side + x);
            if (y > 0) join((y - 1) * side + x, y * side + x);
        }
    built.branches.push_back({0, kBody, model::Source{12, 0.01}});
    join(side * side - 1, kBody);
    return built;
}

void add_faults(std::uint64_t start, int count, RandomNetwork& network) {
    Random random(start);
    for (; count > 0; --count) {
        Branch& branch =
            network
                .branches[static_cast<std::size_t>(random.below(static_cast<int>(network.branches.size())))];
        auto* resistance = std::get_if<model::Resistance>(&branch.law);
        if (random.chance(0.3)) {
            network.branches.push_back(
                {random.below(network.node_count), kBody, model::Resistance{random.log_uniform(1e-3, 10)}});
        } else if (resistance != nullptr && random.chance(0.5)) {
            resistance->ohm += random.log_uniform(0.1, 1e4);
        } else {
            branch.conducts = false;
        }
    }
}

}  // namespace halfsplit::test
