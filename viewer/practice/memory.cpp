#include "viewer/practice/memory.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <set>

#include "greens/input_error.hpp"
#include "viewer/files/csv.hpp"

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
)"};

template <class Row>
struct Table;
template <>
struct Table<Answer> {
    static constexpr const char* name = "answer";
    static auto fields() { return answer_fields(); }
};
template <>
struct Table<LoggedPutt> {
    static constexpr const char* name = "putt";
    static auto fields() { return putt_fields(); }
};

template <class Row>
std::string column_names() {
    std::string names;
    for (const auto& field : Table<Row>::fields())
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
    const auto fields = Table<Row>::fields();
    std::string marks = "?";
    for (std::size_t i = 1; i < fields.size(); ++i) marks += ",?";
    SQLite::Statement statement(
        database,
        fmt::format("INSERT INTO {}({}) VALUES({})", Table<Row>::name, column_names<Row>(), marks));
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
    for (const auto& field : Table<Row>::fields())
        field.set(row, cell_of(statement.getColumn(++index)));
    return row;
}

template <class Row>
std::vector<Row> select(SQLite::Database& database) {
    SQLite::Statement statement(database, fmt::format("SELECT id,{} FROM {} ORDER BY id",
                                                      column_names<Row>(), Table<Row>::name));
    std::vector<Row> rows;
    while (statement.executeStep()) rows.push_back(row_of<Row>(statement));
    return rows;
}

template <class Row>
std::vector<Row> all(const MemoryFile& file) {
    std::vector<Row> rows;
    try {
        file.look([&](SQLite::Database& database) { rows = select<Row>(database); });
    } catch (const std::invalid_argument& error) {
        throw InputError(file.path().string(), 0, 0,
                         fmt::format("holds a row of the table {} that is not understood: it {}",
                                     Table<Row>::name, error.what()),
                         "export what is needed with sqlite3, or move the file away");
    }
    return rows;
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
    for (const auto& field : Table<Row>::fields()) cells.push_back(field.get(row));
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
int add_new(MemoryFile& file, const std::vector<Row>& rows) {
    std::multiset<std::string> known;
    for (const Row& row : all<Row>(file)) known.insert(key_of(row));
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

std::string csv_text(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return fmt::format("{}", *number);
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    return "";
}

void check_header(const std::string& name, const CsvRow& header) {
    const auto fields = answer_fields();
    bool same = header.cells.size() == fields.size();
    for (std::size_t i = 0; same && i < fields.size(); ++i)
        same = header.cells[i].text == fields[i].name;
    if (!same)
        throw InputError(name, header.line, 1, "the header is not that of practice answers",
                         "the columns are " + column_names<Answer>());
}

/// Refuses an answer to a putt that could not have been dealt: it would be asked again tomorrow.
void check(const std::string& name, const CsvRow& row, const Answer& answer) {
    if (answer.drill == Drill::slope) return;
    const double distance_m = (answer.putt.ball() - answer.putt.hole()).norm();
    const bool fine = distance_m >= 0.15 && distance_m <= 40 && answer.putt.slope >= 0 &&
                      answer.putt.slope <= 0.2 && answer.putt.stimp_ft >= 3 &&
                      answer.putt.stimp_ft <= 18 && answer.putt.past_m >= 0 &&
                      answer.putt.past_m <= 3;
    if (!fine)
        throw InputError(name, row.line, 1, "the putt is out of range",
                         "distances are 0.15-40 m, slopes 0-20 %, stimps 3-18 ft, past 0-3 m");
}

Answer read_answer(const std::string& name, const CsvRow& row) {
    const auto fields = answer_fields();
    if (row.cells.size() != fields.size())
        throw InputError(
            name, row.line, 1,
            fmt::format("{} cells where the header has {}", row.cells.size(), fields.size()),
            "leave a cell empty rather than out");
    Answer answer;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const CsvCell& cell = row.cells[i];
        try {
            fields[i].set(answer, cell.text.empty() ? Cell() : Cell(cell.text));
        } catch (const std::invalid_argument& error) {
            throw InputError(name, row.line, cell.column,
                             fmt::format("{} {}", fields[i].name, error.what()),
                             "write it as an export of the program does");
        }
    }
    check(name, row, answer);
    return answer;
}

}  // namespace

Memory::Memory(const std::filesystem::path& folder) : file_(folder / "memory.sqlite", schema) {}

std::int64_t Memory::remember(const Answer& answer) {
    return remember_one(file_, answer);
}

std::int64_t Memory::remember(const LoggedPutt& putt) {
    return remember_one(file_, putt);
}

std::vector<Answer> Memory::answers() const {
    return all<Answer>(file_);
}

std::vector<LoggedPutt> Memory::putts() const {
    return all<LoggedPutt>(file_);
}

int Memory::add(const std::vector<Answer>& answers) {
    return add_new(file_, answers);
}

int Memory::add(const std::vector<LoggedPutt>& putts) {
    return add_new(file_, putts);
}

std::string write_answers_csv(const std::vector<Answer>& answers) {
    std::string text = column_names<Answer>() + '\n';
    for (const Answer& answer : answers) {
        std::vector<std::string> cells;
        for (const Cell& cell : cells_of(answer)) cells.push_back(csv_text(cell));
        text += csv_line(cells);
    }
    return text;
}

std::vector<Answer> read_answers_csv(const std::string& name, std::string_view text) {
    const std::vector<CsvRow> rows = parse_csv(name, text);
    if (rows.empty())
        throw InputError(name, 0, 0, "holds no header",
                         "the columns are " + column_names<Answer>());
    check_header(name, rows.front());
    std::vector<Answer> answers;
    for (std::size_t i = 1; i < rows.size(); ++i) answers.push_back(read_answer(name, rows[i]));
    return answers;
}

}  // namespace dewtrail
