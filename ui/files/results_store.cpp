#include "ui/files/results_store.h"

#include <sqlite3.h>

#include <initializer_list>
#include <variant>

namespace halfsplit::files {

using practice::ClassResults;
using practice::Job;
using practice::Result;

namespace {

/// "Halfsplit results, first version" to SQLite's own file header.
constexpr int kApplicationId = 0x48537231;
constexpr int kBusyMs = 10'000;

constexpr const char* kSchema =
    "CREATE TABLE IF NOT EXISTS job(content TEXT PRIMARY KEY, id TEXT NOT NULL, title TEXT NOT NULL,"
    " circuit TEXT NOT NULL, skill TEXT NOT NULL, level INTEGER NOT NULL, best_min REAL NOT NULL,"
    " budget_min REAL NOT NULL) STRICT;"
    "CREATE TABLE IF NOT EXISTS result(session TEXT PRIMARY KEY, who TEXT NOT NULL,"
    " content TEXT NOT NULL REFERENCES job(content), begun TEXT NOT NULL, is_over INTEGER NOT NULL,"
    " is_right INTEGER NOT NULL, minutes REAL NOT NULL, questions INTEGER NOT NULL, hints INTEGER NOT NULL,"
    " slips INTEGER NOT NULL, for_nothing INTEGER NOT NULL) STRICT;";

constexpr const char* kPutJob =
    "INSERT INTO job VALUES(?,?,?,?,?,?,?,?) ON CONFLICT(content) DO UPDATE SET id=excluded.id,"
    " title=excluded.title, circuit=excluded.circuit, skill=excluded.skill, level=excluded.level,"
    " best_min=excluded.best_min, budget_min=excluded.budget_min";
constexpr const char* kPutResult =
    "INSERT INTO result VALUES(?,?,?,?,?,?,?,?,?,?,?) ON CONFLICT(session) DO UPDATE SET who=excluded.who,"
    " content=excluded.content, begun=excluded.begun, is_over=excluded.is_over, is_right=excluded.is_right,"
    " minutes=excluded.minutes, questions=excluded.questions, hints=excluded.hints, slips=excluded.slips,"
    " for_nothing=excluded.for_nothing";

using Value = std::variant<std::string, double, int>;

/// One statement with its values; SQLite's own message where something goes wrong.
class Statement {
  public:
    Statement(sqlite3* database, const char* sql) : database_(database) {
        sqlite3_prepare_v2(database, sql, -1, &statement_, nullptr);
    }
    Statement(const Statement&) = delete;
    Statement& operator=(const Statement&) = delete;
    ~Statement() { sqlite3_finalize(statement_); }

    void bind(std::initializer_list<Value> values) {
        int index = 0;
        for (const Value& value : values) {
            ++index;
            if (const auto* text = std::get_if<std::string>(&value))
                sqlite3_bind_text(statement_, index, text->c_str(), static_cast<int>(text->size()),
                                  SQLITE_TRANSIENT);
            if (const auto* number = std::get_if<double>(&value))
                sqlite3_bind_double(statement_, index, *number);
            if (const auto* whole = std::get_if<int>(&value)) sqlite3_bind_int(statement_, index, *whole);
        }
    }
    /// True while there are rows.
    bool step() {
        code_ = statement_ == nullptr ? SQLITE_ERROR : sqlite3_step(statement_);
        return code_ == SQLITE_ROW;
    }
    tl::expected<void, std::string> finished() const {
        if (code_ == SQLITE_DONE) return {};
        return tl::unexpected(std::string(sqlite3_errmsg(database_)));
    }

    std::string text(int column) const {
        const auto* bytes = sqlite3_column_text(statement_, column);
        const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
        return bytes == nullptr ? std::string() : std::string(reinterpret_cast<const char*>(bytes), size);
    }
    double number(int column) const { return sqlite3_column_double(statement_, column); }
    int whole(int column) const { return sqlite3_column_int(statement_, column); }

  private:
    sqlite3* database_;
    sqlite3_stmt* statement_ = nullptr;
    int code_ = SQLITE_ERROR;
};

tl::expected<void, std::string> run(sqlite3* database, const char* sql) {
    if (sqlite3_exec(database, sql, nullptr, nullptr, nullptr) == SQLITE_OK) return {};
    return tl::unexpected(std::string(sqlite3_errmsg(database)));
}

tl::expected<void, std::string> put_job(sqlite3* database, const Job& job) {
    Statement statement(database, kPutJob);
    statement.bind(
        {job.content, job.id, job.title, job.circuit, job.skill, job.level, job.best_min, job.budget_min});
    statement.step();
    return statement.finished();
}

tl::expected<void, std::string> put_result(sqlite3* database, const Result& result) {
    Statement statement(database, kPutResult);
    statement.bind({result.session, result.who, result.content, result.begun, result.is_over ? 1 : 0,
                    result.is_right ? 1 : 0, result.minutes, result.questions, result.hints, result.slips,
                    result.for_nothing});
    statement.step();
    return statement.finished();
}

/// 0 of a file that is new.
int application_id(sqlite3* database) {
    Statement statement(database, "PRAGMA application_id");
    return statement.step() ? statement.whole(0) : -1;
}

bool is_empty(sqlite3* database) {
    Statement statement(database, "SELECT count(*) FROM sqlite_schema");
    return statement.step() && statement.whole(0) == 0;
}

tl::expected<void, std::string> prepare(sqlite3* database) {
    const int id = application_id(database);
    if (id < 0) return tl::unexpected(std::string(sqlite3_errmsg(database)));
    if (id != kApplicationId && !(id == 0 && is_empty(database)))
        return tl::unexpected(std::string("is a database of something else"));
    const std::string mark = "PRAGMA application_id=" + std::to_string(kApplicationId);
    for (const char* sql : {"PRAGMA journal_mode=WAL", "PRAGMA synchronous=FULL", "PRAGMA foreign_keys=ON",
                            mark.c_str(), kSchema})
        if (auto done = run(database, sql); !done) return done;
    return {};
}

}  // namespace

void ResultsStore::Close::operator()(sqlite3* database) const {
    sqlite3_close(database);
}

tl::expected<ResultsStore, std::string> ResultsStore::open(const std::string& path) {
    sqlite3* database = nullptr;
    const int code =
        sqlite3_open_v2(path.c_str(), &database, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
    ResultsStore store(database);
    if (code != SQLITE_OK)
        return tl::unexpected(path + ": " + (database == nullptr ? "no memory" : sqlite3_errmsg(database)));
    sqlite3_busy_timeout(database, kBusyMs);
    if (const auto prepared = prepare(database); !prepared)
        return tl::unexpected(path + ": " + prepared.error());
    return store;
}

tl::expected<void, std::string> ResultsStore::put(const Job& job, const Result& result) {
    sqlite3* database = database_.get();
    if (auto begun = run(database, "BEGIN IMMEDIATE"); !begun) return begun;
    auto done = put_job(database, job).and_then([&] { return put_result(database, result); });
    if (done) done = run(database, "COMMIT");
    if (!done) run(database, "ROLLBACK");
    return done;
}

tl::expected<void, std::string> ResultsStore::put(const Job& job) {
    return put_job(database_.get(), job);
}

tl::expected<ClassResults, std::string> ResultsStore::all() const {
    ClassResults all;
    Statement jobs(
        database_.get(),
        "SELECT content,id,title,circuit,skill,level,best_min,budget_min FROM job ORDER BY level,id");
    while (jobs.step())
        all.jobs.push_back({jobs.text(0), jobs.text(1), jobs.text(2), jobs.text(3), jobs.text(4),
                            jobs.whole(5), jobs.number(6), jobs.number(7)});
    if (const auto done = jobs.finished(); !done) return tl::unexpected(done.error());
    Statement results(
        database_.get(),
        "SELECT session,who,content,begun,is_over,is_right,minutes,questions,hints,slips,for_nothing"
        " FROM result ORDER BY begun,session");
    while (results.step())
        all.results.push_back({results.text(0), results.text(1), results.text(2), results.text(3),
                               results.whole(4) != 0, results.whole(5) != 0, results.number(6),
                               results.whole(7), results.whole(8), results.whole(9), results.whole(10)});
    if (const auto done = results.finished(); !done) return tl::unexpected(done.error());
    return all;
}

}  // namespace halfsplit::files
