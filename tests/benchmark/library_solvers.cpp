#include "tests/benchmark/library_solvers.h"

#include <cholmod.h>
#include <klu.h>

#include <algorithm>

namespace halfsplit::benchmark_of {

namespace {

using Matrix = Eigen::SparseMatrix<double>;

template <class Factorisation>
class EigenSolver : public LibrarySolver {
  public:
    EigenSolver(std::string name, const Matrix& matrix, const Eigen::VectorXd& right)
        : name_(std::move(name)), matrix_(matrix), right_(right) {
        factorisation_.analyzePattern(matrix_);
    }
    std::string name() const override { return name_; }
    void factor_and_solve() override {
        factorisation_.factorize(matrix_);
        solution_ = factorisation_.solve(right_);
    }
    Eigen::VectorXd solution() const override { return solution_; }

  private:
    std::string name_;
    const Matrix& matrix_;
    const Eigen::VectorXd& right_;
    Factorisation factorisation_;
    Eigen::VectorXd solution_;
};

class KluSolver : public LibrarySolver {
  public:
    KluSolver(Matrix& matrix, const Eigen::VectorXd& right) : matrix_(matrix), right_(right) {
        klu_defaults(&common_);
        const int n = static_cast<int>(matrix.rows());
        symbolic_ = klu_analyze(n, matrix.outerIndexPtr(), matrix.innerIndexPtr(), &common_);
        numeric_ = klu_factor(matrix.outerIndexPtr(), matrix.innerIndexPtr(), matrix.valuePtr(), symbolic_,
                              &common_);
    }
    KluSolver(const KluSolver&) = delete;
    KluSolver& operator=(const KluSolver&) = delete;
    ~KluSolver() override {
        klu_free_numeric(&numeric_, &common_);
        klu_free_symbolic(&symbolic_, &common_);
    }
    std::string name() const override { return "KLU"; }
    void factor_and_solve() override {
        klu_refactor(matrix_.outerIndexPtr(), matrix_.innerIndexPtr(), matrix_.valuePtr(), symbolic_,
                     numeric_, &common_);
        solution_ = right_;
        klu_solve(symbolic_, numeric_, static_cast<int>(solution_.size()), 1, solution_.data(), &common_);
    }
    Eigen::VectorXd solution() const override { return solution_; }

  private:
    Matrix& matrix_;
    const Eigen::VectorXd& right_;
    klu_common common_{};
    klu_symbolic* symbolic_ = nullptr;
    klu_numeric* numeric_ = nullptr;
    Eigen::VectorXd solution_;
};

class CholmodSolver : public LibrarySolver {
  public:
    CholmodSolver(const Matrix& matrix, const Eigen::VectorXd& right) {
        cholmod_start(&common_);
        common_.supernodal = CHOLMOD_SIMPLICIAL;
        const auto n = static_cast<std::size_t>(matrix.rows());
        matrix_ = cholmod_allocate_sparse(n, n, static_cast<std::size_t>(matrix.nonZeros()), 1, 1, -1,
                                          CHOLMOD_REAL, &common_);
        std::copy_n(matrix.outerIndexPtr(), n + 1, static_cast<int*>(matrix_->p));
        std::copy_n(matrix.innerIndexPtr(), matrix.nonZeros(), static_cast<int*>(matrix_->i));
        std::copy_n(matrix.valuePtr(), matrix.nonZeros(), static_cast<double*>(matrix_->x));
        right_ = cholmod_allocate_dense(n, 1, n, CHOLMOD_REAL, &common_);
        std::copy_n(right.data(), n, static_cast<double*>(right_->x));
        factor_ = cholmod_analyze(matrix_, &common_);
    }
    CholmodSolver(const CholmodSolver&) = delete;
    CholmodSolver& operator=(const CholmodSolver&) = delete;
    ~CholmodSolver() override {
        cholmod_free_sparse(&matrix_, &common_);
        cholmod_free_dense(&right_, &common_);
        cholmod_free_dense(&solution_, &common_);
        cholmod_free_factor(&factor_, &common_);
        cholmod_finish(&common_);
    }
    std::string name() const override { return "CHOLMOD"; }
    void factor_and_solve() override {
        cholmod_factorize(matrix_, factor_, &common_);
        cholmod_free_dense(&solution_, &common_);
        solution_ = cholmod_solve(CHOLMOD_A, factor_, right_, &common_);
    }
    Eigen::VectorXd solution() const override {
        return Eigen::Map<Eigen::VectorXd>(static_cast<double*>(solution_->x),
                                           static_cast<Eigen::Index>(solution_->nrow));
    }

  private:
    cholmod_common common_{};
    cholmod_sparse* matrix_ = nullptr;
    cholmod_dense* right_ = nullptr;
    cholmod_dense* solution_ = nullptr;
    cholmod_factor* factor_ = nullptr;
};

}  // namespace

std::vector<std::unique_ptr<LibrarySolver>> library_solvers(Matrix& matrix, const Eigen::VectorXd& right) {
    matrix.makeCompressed();
    std::vector<std::unique_ptr<LibrarySolver>> solvers;
    solvers.push_back(
        std::make_unique<EigenSolver<Eigen::SimplicialLLT<Matrix>>>("Eigen LLT", matrix, right));
    solvers.push_back(
        std::make_unique<EigenSolver<Eigen::SimplicialLDLT<Matrix>>>("Eigen LDLT", matrix, right));
    solvers.push_back(std::make_unique<CholmodSolver>(matrix, right));
    solvers.push_back(std::make_unique<KluSolver>(matrix, right));
    return solvers;
}

}  // namespace halfsplit::benchmark_of
