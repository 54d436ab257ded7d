#pragma once

#include <Eigen/Sparse>
#include <memory>
#include <string>
#include <vector>

namespace halfsplit::benchmark_of {

/// A sparse solver from a library, with its symbolic analysis of one matrix done.
class LibrarySolver {
  public:
    virtual ~LibrarySolver() = default;
    virtual std::string name() const = 0;
    /// Factors the matrix anew, with the analysis it has, and solves for the right side.
    virtual void factor_and_solve() = 0;
    virtual Eigen::VectorXd solution() const = 0;
};

/// Eigen's LLT and LDLT, CHOLMOD's simplicial factorisation and KLU's refactorisation, for the same system.
/// The matrix and the right side must outlive them.
std::vector<std::unique_ptr<LibrarySolver>> library_solvers(Eigen::SparseMatrix<double>& matrix,
                                                            const Eigen::VectorXd& right);

}  // namespace halfsplit::benchmark_of
