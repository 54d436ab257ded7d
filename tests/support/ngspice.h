#pragma once

#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/network/branch.h"

namespace halfsplit::test {

/// The same network as a deck for ngspice: nodes n0, n1 …, the body 0, a device for each branch that
/// conducts. Linear elements are R and V, all other laws behavioural sources written from the formulas of
/// engine/model/law.h.
std::vector<std::string> ngspice_deck(int node_count, std::span<const network::Branch> branches);

/// libngspice in this process. It keeps global state: one at a time.
class Ngspice {
  public:
    Ngspice();
    ~Ngspice();
    Ngspice(const Ngspice&) = delete;
    Ngspice& operator=(const Ngspice&) = delete;

    /// Parses a deck and makes it the present circuit. Analysis commands count from here.
    tl::expected<void, std::string> load(const std::vector<std::string>& deck);
    /// One command ("op", "alter r3 = 5"), an error if ngspice complained.
    tl::expected<void, std::string> command(const std::string& text);
    /// Node voltages of the last operating point.
    tl::expected<std::vector<double>, std::string> potentials(int node_count);
    /// load, op, potentials.
    tl::expected<std::vector<double>, std::string> operating_point(int node_count,
                                                                   std::span<const network::Branch> branches);

    /// The same for networks in which ngspice runs in circles between two pieces of a law that is made of
    /// straight pieces (cells, regulated sources, motors): each is written as the piece it works on at
    /// `expected` potentials, and an error is returned if ngspice's own voltages then lie on another piece.
    /// Laws are monotone, so there is one operating point, and pieces that agree are its proof.
    tl::expected<std::vector<double>, std::string> operating_point_by_pieces(
        int node_count, std::span<const network::Branch> branches, std::span<const double> expected);

  private:
    static int on_text(char* text, int id, void* self);
    static int on_exit(int status, bool immediate, bool quit, int id, void* self);

    std::string complaints_;
    bool is_loaded_ = false;
};

}  // namespace halfsplit::test
