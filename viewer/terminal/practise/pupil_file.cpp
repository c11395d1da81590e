#include "viewer/terminal/practise/pupil_file.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "viewer/practice/memory_csv.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {
namespace {

constexpr int format_number = 1;

}  // namespace

std::string write_pupil(const PupilRecord& pupil) {
    return json_text({{"dewtrail_pupil", format_number},
                      {"name", pupil.name},
                      {"player", write_player(pupil.player)},
                      {"answers", write_answers_csv(pupil.answers)},
                      {"putts", write_putts_csv(pupil.putts)},
                      {"measures", write_measures_csv(pupil.measures)}}) +
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
    for (const char* part : {"name", "player", "answers", "putts", "measures"})
        if (!json.contains(part) || !json[part].is_string())
            refuse("a part of the pupil is missing");
    const auto part = [&](const char* name) { return json[name].get<std::string>(); };
    return {part("name"), read_player(file + " (player)", part("player")),
            read_answers_csv(file + " (answers)", part("answers")),
            read_putts_csv(file + " (putts)", part("putts"), Units{true}),
            read_measures_csv(file + " (measures)", part("measures"))};
}

}  // namespace dewtrail
