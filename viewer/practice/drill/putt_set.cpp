#include "viewer/practice/drill/putt_set.hpp"

#include <fmt/format.h>

#include "greens/green_writer.hpp"
#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace {

constexpr double format_number = 1;
constexpr std::uintmax_t most_bytes = 1'000'000;
constexpr std::size_t most_putts = 1000;
constexpr double reach_m = 200;

DealtPutt read_putt(const TomlSection& section) {
    section.allow_only({"green", "ball", "hole", "slope_percent", "stimp", "past_m"});
    DealtPutt putt;
    const Vec2 ball = section.point("ball", reach_m);
    putt.ball_x_m = ball.x();
    putt.ball_y_m = ball.y();
    if (section.has("green")) {
        putt.green = section.text("green");
        try {
            check_names_green(putt.green);
        } catch (const InputError& error) {
            section.fail("green", error.problem(), error.remedy());
        }
        const Vec2 hole = section.point("hole", reach_m);
        putt.hole_x_m = hole.x();
        putt.hole_y_m = hole.y();
    } else {
        putt.slope = section.number("slope_percent", {0, 20}) / 100;
    }
    putt.stimp_ft = section.number("stimp", putt_range::stimp_ft);
    putt.past_m = section.optional_number("past_m", putt_range::past_m).value_or(putt.past_m);
    if (const std::string wrong = out_of_range(putt); !wrong.empty())
        section.fail("ball", wrong, "move the ball or the hole");
    return putt;
}

std::string text_of(const DealtPutt& putt) {
    std::string text = "\n[[putt]]\n";
    if (!putt.green.empty()) text += fmt::format("green = {}\n", toml_string(putt.green));
    text += fmt::format("ball = [{}, {}]\n", putt.ball_x_m, putt.ball_y_m);
    if (putt.green.empty())
        text += fmt::format("slope_percent = {}\n", 100 * putt.slope);
    else
        text += fmt::format("hole = [{}, {}]\n", putt.hole_x_m, putt.hole_y_m);
    return text + fmt::format("stimp = {}\npast_m = {}\n", putt.stimp_ft, putt.past_m);
}

}  // namespace

void check_names_green(const std::string& green) {
    if (green.find('/') == green.npos) return;
    throw InputError("a set names its greens, and '" + cut(green) + "' is a path",
                     "put it among your own greens, and name it without its folder");
}

std::vector<DealtPutt> load_putt_set(const std::filesystem::path& path) {
    const TomlSection file =
        TomlSection::parse(path.string(), "the set of putts", read_text_file(path, most_bytes));
    if (file.number("format", {1, 1e6}) != format_number)
        file.fail("format", "the set is newer than this program", "use the newer program");
    file.allow_only({"format", "putt"});
    return read_putts(file);
}

std::vector<DealtPutt> read_putts(const TomlSection& file) {
    std::vector<DealtPutt> putts;
    for (const TomlSection& section : file.sections("putt", most_putts))
        putts.push_back(read_putt(section));
    return putts;
}

std::string putt_set_text(const std::vector<DealtPutt>& putts) {
    std::string text;
    for (const DealtPutt& putt : putts) {
        check_names_green(putt.green);
        text += text_of(putt);
    }
    return text;
}

std::string putt_set_file(const std::vector<DealtPutt>& putts) {
    return "# Putts to practise: dewtrail practise --set FILE\nformat = 1\n" + putt_set_text(putts);
}

void save_putt_set(const std::filesystem::path& path, const std::vector<DealtPutt>& putts) {
    save_whole_file(path, putt_set_file(putts));
}

}  // namespace dewtrail
