#pragma once

#include <cstdint>
#include <vector>

#include "engine/network/nodal/branch.h"

namespace halfsplit::test {

/// The same numbers from the same start on every machine and standard library (SplitMix64, Steele, Lea &
/// Flood 2014).
class Random {
  public:
    explicit Random(std::uint64_t start) : state_(start) {}
    std::uint64_t bits();
    double uniform(double low, double high);
    /// Evenly spread in the logarithm; 0 < low < high.
    double log_uniform(double low, double high);
    int below(int count);
    bool chance(double probability) { return uniform(0, 1) < probability; }

  private:
    std::uint64_t state_;
};

struct RandomNetwork {
    int node_count = 0;
    std::vector<network::Branch> branches;
};

struct NetworkKind {
    int node_count = 100;
    double lamps = 0;        ///< share of all branches
    double diodes = 0;       ///< share of all branches
    double motors = 0;       ///< share of all branches
    double open = 0.04;      ///< share of branches that do not conduct
    double alternators = 0;  ///< probability that a battery has one beside it
};

/// One in eleven branches nonlinear: lamps two thirds, diodes and motors the rest.
NetworkKind with_nonlinear_parts(int node_count);

/// Like the wiring of a vehicle body: a battery for every 2 000 nodes, tied to the body by a strap, bus,
/// fuses, chains of wires, contacts and switches, splices, loads, shared ground splices, studs, and a few
/// cross links.
RandomNetwork body_electrics(std::uint64_t start, const NetworkKind& kind);

/// Any graph: `extra` branches more than a random tree, resistances over `decades` powers of ten, a few
/// sources anywhere (also floating ones), nothing tied to the body but by chance.
RandomNetwork random_graph(std::uint64_t start, int node_count, int extra, double decades);

/// Such a graph with four in ten resistances replaced by the other laws, their values over wide ranges and
/// their polarity either way: nothing anyone would build, and hard to solve.
RandomNetwork every_law(std::uint64_t start, int node_count, int extra);

/// A square mesh of resistances of about 1 ohm with a 12 V source in one corner and the body at the other.
RandomNetwork grid(std::uint64_t start, int side);

/// Random opens, resistances in series and shorts to the body.
void add_faults(std::uint64_t start, int count, RandomNetwork& network);

}  // namespace halfsplit::test
