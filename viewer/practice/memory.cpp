#include "viewer/practice/memory.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <set>
#include <utility>

#include "greens/input_error.hpp"
#include "viewer/text/english.hpp"

namespace dewtrail {
namespace {

/// Never change a step that was once released: add another.
constexpr const char* schema[] = {R"(
    CREATE TABLE answer(id INTEGER PRIMARY KEY, at TEXT NOT NULL, drill TEXT NOT NULL,
        occasion TEXT NOT NULL, seed TEXT NOT NULL, green TEXT, ball_x_m REAL NOT NULL,
        ball_y_m REAL NOT NULL, hole_x_m REAL NOT NULL, hole_y_m REAL NOT NULL,
        slope REAL NOT NULL, stimp_ft REAL NOT NULL, past_m REAL NOT NULL, category TEXT NOT NULL,
        aim_m REAL, level_putt_m REAL, sure REAL, lost REAL, score REAL, fit_aim_m REAL,
        break_share REAL, pace_share REAL, slope_said REAL, falls_said_deg REAL, slope_shown REAL,
        falls_shown_deg REAL, told REAL NOT NULL);
    CREATE TABLE putt(id INTEGER PRIMARY KEY, date TEXT, green TEXT, hole TEXT,
        distance_m REAL NOT NULL, slope REAL, clock_h REAL, stimp_ft REAL, aim_m REAL,
        level_putt_m REAL, holed REAL NOT NULL, past_m REAL, right_m REAL, left_m REAL,
        missed TEXT, side TEXT, grade TEXT);
)",
                                  "ALTER TABLE answer ADD COLUMN help TEXT;",
                                  R"(
    CREATE TABLE pace_ball(id INTEGER PRIMARY KEY, at TEXT NOT NULL, called_m REAL NOT NULL,
        stopped_m REAL NOT NULL);
    CREATE TABLE gate_stroke(id INTEGER PRIMARY KEY, at TEXT NOT NULL, width_m REAL NOT NULL,
        away_m REAL NOT NULL, passed TEXT NOT NULL);
)"};

template <class Row>
struct Stored;
template <>
struct Stored<Answer> {
    static constexpr const char* name = "answer";
    static auto fields() { return answer_fields(); }
};
template <>
struct Stored<LoggedPutt> {
    static constexpr const char* name = "putt";
    static auto fields() { return putt_fields(); }
};

template <>
struct Stored<PaceBall> {
    static constexpr const char* name = "pace_ball";
    static auto fields() { return pace_ball_fields(); }
};
template <>
struct Stored<GateStroke> {
    static constexpr const char* name = "gate_stroke";
    static auto fields() { return gate_stroke_fields(); }
};

template <class Row>
std::string column_names() {
    std::string names;
    for (const auto& field : Stored<Row>::fields())
        names += (names.empty() ? "" : ",") + std::string(field.name);
    return names;
}

void put(SQLite::Statement& statement, int index, const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return statement.bind(index, *number);
    if (const auto* text = std::get_if<std::string>(&cell)) return statement.bind(index, *text);
    statement.bind(index);
}

Cell cell_of(const SQLite::Column& column) {
    if (column.isNull()) return {};
    if (column.isText()) return column.getString();
    return column.getDouble();
}

template <class Row>
std::int64_t insert(SQLite::Database& database, const Row& row) {
    const auto fields = Stored<Row>::fields();
    std::string marks = "?";
    for (std::size_t i = 1; i < fields.size(); ++i) marks += ",?";
    SQLite::Statement statement(database,
                                fmt::format("INSERT INTO {}({}) VALUES({})", Stored<Row>::name,
                                            column_names<Row>(), marks));
    int index = 0;
    for (const auto& field : fields) put(statement, ++index, field.get(row));
    statement.exec();
    return database.getLastInsertRowid();
}

template <class Row>
Row row_of(SQLite::Statement& statement) {
    Row row;
    row.id = statement.getColumn(0).getInt64();
    int index = 0;
    for (const auto& field : Stored<Row>::fields())
        field.set(row, cell_of(statement.getColumn(++index)));
    return row;
}

/// Rows that were read, and what is wrong with the first of those that were not.
template <class Row>
struct Found {
    std::vector<Row> rows;
    int left_out = 0;
    std::string first_left_out;
};

template <class Row>
Found<Row> select(SQLite::Database& database) {
    SQLite::Statement statement(database, fmt::format("SELECT id,{} FROM {} ORDER BY id",
                                                      column_names<Row>(), Stored<Row>::name));
    Found<Row> found;
    while (statement.executeStep()) {
        std::string wrong;
        try {
            found.rows.push_back(row_of<Row>(statement));
            wrong = out_of_range(found.rows.back());
            if (!wrong.empty()) found.rows.pop_back();
        } catch (const std::invalid_argument& error) {
            wrong = error.what();
        }
        if (!wrong.empty() && ++found.left_out == 1)
            found.first_left_out =
                fmt::format("row {}: {}", statement.getColumn(0).getInt64(), wrong);
    }
    return found;
}

template <class Row>
Found<Row> found_in(const MemoryFile& file) {
    Found<Row> found;
    file.look([&](SQLite::Database& database) { found = select<Row>(database); });
    return found;
}

template <class Row>
std::int64_t remember_one(MemoryFile& file, const Row& row) {
    std::int64_t id = 0;
    file.change([&](SQLite::Database& database) { id = insert(database, row); });
    return id;
}

template <class Row>
std::vector<Cell> cells_of(const Row& row) {
    std::vector<Cell> cells;
    for (const auto& field : Stored<Row>::fields()) cells.push_back(field.get(row));
    return cells;
}

/// Rows that agree to twelve digits are the same: converting units back and forth may change the
/// last ones.
template <class Row>
std::string key_of(const Row& row) {
    std::string key;
    for (const Cell& cell : cells_of(row)) {
        if (const auto* number = std::get_if<double>(&cell)) key += fmt::format("{:.12g}", *number);
        if (const auto* text = std::get_if<std::string>(&cell)) key += *text;
        key += '\n';
    }
    return key;
}

template <class Row>
int add_new(MemoryFile& file, const std::vector<Row>& known_rows, const std::vector<Row>& rows) {
    std::multiset<std::string> known;
    for (const Row& row : known_rows) known.insert(key_of(row));
    int added = 0;
    file.change([&](SQLite::Database& database) {
        for (const Row& row : rows) {
            const auto same = known.find(key_of(row));
            if (same != known.end()) {
                known.erase(same);
                continue;
            }
            insert(database, row);
            ++added;
        }
    });
    return added;
}

}  // namespace

Memory::Memory(const std::filesystem::path& folder, Tell tell)
    : file_(folder / file_name, schema), tell_(std::move(tell)) {}

template <class Row>
std::vector<Row> Memory::all() const {
    Found<Row> found = found_in<Row>(file_);
    if (found.left_out > 0 && tell_)
        std::exchange(
            tell_, nullptr)(fmt::format("{}: {} of the table {} {} left out, {}", path().string(),
                                        counted(found.left_out, "row"), Stored<Row>::name,
                                        found.left_out == 1 ? "is" : "are", found.first_left_out));
    return std::move(found.rows);
}

std::int64_t Memory::remember(const Answer& answer) {
    return remember_one(file_, answer);
}

std::int64_t Memory::remember(const LoggedPutt& putt) {
    return remember_one(file_, putt);
}

std::int64_t Memory::remember(const PaceBall& ball) {
    return remember_one(file_, ball);
}

std::int64_t Memory::remember(const GateStroke& stroke) {
    return remember_one(file_, stroke);
}

template <class Row>
void Memory::forget(std::int64_t id) {
    file_.change([&](SQLite::Database& database) {
        SQLite::Statement statement(database,
                                    fmt::format("DELETE FROM {} WHERE id=?", Stored<Row>::name));
        statement.bind(1, id);
        statement.exec();
    });
}

void Memory::take_back(const PaceBall& ball) {
    forget<PaceBall>(ball.id);
}

void Memory::take_back(const GateStroke& stroke) {
    forget<GateStroke>(stroke.id);
}

Measures Memory::measures() const {
    return {all<PaceBall>(), all<GateStroke>()};
}

std::vector<Answer> Memory::answers() const {
    return all<Answer>();
}

std::vector<LoggedPutt> Memory::putts() const {
    return all<LoggedPutt>();
}

int Memory::add(const std::vector<Answer>& answers) {
    return add_new(file_, this->answers(), answers);
}

int Memory::add(const std::vector<LoggedPutt>& putts) {
    return add_new(file_, this->putts(), putts);
}

int Memory::add(const Measures& measures) {
    const Measures known = this->measures();
    return add_new(file_, known.balls, measures.balls) +
           add_new(file_, known.strokes, measures.strokes);
}

}  // namespace dewtrail
