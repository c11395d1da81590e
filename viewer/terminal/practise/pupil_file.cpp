#include "viewer/terminal/practise/pupil_file.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {
namespace {

constexpr int format_number = 1;

/// A row as an array in the order of its fields.
template <class Row>
Json rows_json(const std::vector<Row>& rows, std::span<const RecordField<Row>> fields) {
    Json all = Json::array();
    for (const Row& row : rows) {
        Json cells = Json::array();
        for (const auto& field : fields) {
            const Cell cell = field.get(row);
            if (const auto* text = std::get_if<std::string>(&cell)) cells.push_back(*text);
            if (const auto* number = std::get_if<double>(&cell)) cells.push_back(*number);
        }
        all.push_back(std::move(cells));
    }
    return all;
}

/// Throws std::invalid_argument.
template <class Row>
std::vector<Row> rows_of(const Json& all, std::span<const RecordField<Row>> fields) {
    std::vector<Row> rows;
    if (!all.is_array()) throw std::invalid_argument("is no list");
    for (const Json& cells : all) {
        if (!cells.is_array() || cells.size() != fields.size())
            throw std::invalid_argument(fmt::format("has a row without {} cells", fields.size()));
        Row& row = rows.emplace_back();
        for (std::size_t i = 0; i < fields.size(); ++i) {
            const Json& cell = cells[i];
            fields[i].set(row, cell.is_string()   ? Cell(cell.get<std::string>())
                               : cell.is_number() ? Cell(cell.get<double>())
                                                  : Cell());
        }
        if (const std::string wrong = out_of_range(row); !wrong.empty())
            throw std::invalid_argument("has " + wrong);
    }
    return rows;
}

}  // namespace

std::string write_pupil(const PupilRecord& pupil) {
    return json_text({{"dewtrail_pupil", format_number},
                      {"name", pupil.name},
                      {"player", write_player(pupil.player)},
                      {"answers", write_answers_csv(pupil.answers)},
                      {"putts", write_putts_csv(pupil.putts)},
                      {"pace_balls", rows_json(pupil.pace_balls, pace_ball_fields())},
                      {"gate_strokes", rows_json(pupil.gate_strokes, gate_stroke_fields())}}) +
           "\n";
}

PupilRecord read_pupil(const std::string& file, std::string_view text) {
    const auto json = Json::parse(text, nullptr, false);
    const auto refuse = [&](const char* why) {
        throw InputError(fmt::format("{}: {}", file, why),
                         "Pupils are written by: dewtrail pupil export NAME FILE");
    };
    if (!json.is_object() || !json.contains("dewtrail_pupil")) refuse("holds no pupil");
    if (json["dewtrail_pupil"] != format_number) refuse("is of a newer program");
    for (const char* part : {"name", "player", "answers", "putts"})
        if (!json.contains(part) || !json[part].is_string())
            refuse("a part of the pupil is missing");
    const auto part = [&](const char* name) { return json[name].get<std::string>(); };
    const auto measured = [&](const char* name, auto fields) {
        try {
            return rows_of(json.value(name, Json::array()), fields);
        } catch (const std::invalid_argument& error) {
            throw InputError(fmt::format("{}: {} {}", file, name, error.what()),
                             "Leave the row out, or export the pupil again.");
        }
    };
    return {part("name"),
            read_player(file + " (player)", part("player")),
            read_answers_csv(file + " (answers)", part("answers")),
            read_putts_csv(file + " (putts)", part("putts"), Units{true}),
            measured("pace_balls", pace_ball_fields()),
            measured("gate_strokes", gate_stroke_fields())};
}

}  // namespace dewtrail
