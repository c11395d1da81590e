#include "viewer/putt/kept_putt.hpp"

#include <fmt/format.h>

#include "greens/green_writer.hpp"

namespace dewtrail {
namespace {

constexpr double reach_m = 1000;
constexpr std::size_t most_readings = 100;
constexpr const char* faces[] = {"total", "along and across", "three rows"};

std::string point_text(const char* key, const Vec2& at) {
    return fmt::format("{} = [{}, {}]\n", key, at.x(), at.y());
}

/// On a green: the file and the two places.
std::string places_text(const Setup& setup) {
    return fmt::format("green = {}\n", toml_string(setup.green->file.string())) +
           point_text("ball", setup.ball) + point_text("hole", setup.hole);
}

/// Pairs of a reading's place, a fraction of the distance, and one of its grades.
std::vector<Vec2> grades(const std::vector<LineReading>& readings, double LineReading::*grade) {
    std::vector<Vec2> pairs;
    for (const LineReading& r : readings) pairs.emplace_back(r.along_m, r.*grade);
    return pairs;
}

std::string ground_text(const Setup& setup) {
    const std::string text =
        fmt::format("distance_m = {}\nclock_h = {}\nslope = {}\nface = '{}'\n", setup.distance_m,
                    setup.clock_h, setup.slope, faces[static_cast<int>(setup.face)]);
    return text + toml_points("up", grades(setup.readings, &LineReading::up)) +
           toml_points("right_up", grades(setup.readings, &LineReading::right_up));
}

SlopeFace face_of(const TomlSection& section) {
    const std::string name = section.text("face");
    for (int i = 0; i < 3; ++i)
        if (name == faces[i]) return static_cast<SlopeFace>(i);
    section.fail("face", "the face '" + name + "' is not known", "Take the file away.");
}

void read_readings(Setup& setup, const TomlSection& section) {
    const auto up = section.points("up", most_readings, 1);
    const auto right_up = section.points("right_up", most_readings, 1);
    if (up.size() != right_up.size() || up.empty())
        section.fail("up", "the readings are not whole", "Take the file away.");
    for (std::size_t i = 0; i < up.size(); ++i)
        setup.readings.push_back({up[i].x(), up[i].y(), right_up[i].y()});
}

void read_ground(Setup& setup, const TomlSection& section) {
    setup.distance_m = section.number("distance_m", {least_distance_m, most_distance_m});
    setup.slope = section.number("slope", {0, most_slope});
    setup.clock_h = on_the_dial(section.number("clock_h", {0, 12}));
    setup.face = face_of(section);
    if (section.has("up")) read_readings(setup, section);
}

std::string name_at(const std::map<std::string, Vec2>& places, const Vec2& at) {
    for (const auto& [name, place] : places)
        if (place == at) return name;
    return "";
}

/// False where the green is gone, or has been changed so that the putt no longer lies on it.
bool read_places(Setup& setup, const TomlSection& section, const GreenLoader& load) {
    try {
        put_on_green(setup, load(section.text("green")));
    } catch (const InputError&) {
        return false;
    }
    setup.hole = section.point("hole", reach_m);
    setup.ball = section.point("ball", reach_m);
    const double distance = distance_of(setup);
    setup.hole_name = name_at(setup.green->holes, setup.hole);
    setup.ball_name = name_at(setup.green->balls, setup.ball);
    return setup.green->outline.inside_by(setup.hole) >= hole_inside_by_m &&
           distance >= least_distance_m && distance <= most_distance_m;
}

std::optional<Setup> read_setup(const TomlSection& section, const GreenLoader& load) {
    Setup setup;
    if (!section.has("green"))
        read_ground(setup, section);
    else if (!read_places(setup, section, load))
        return std::nullopt;
    setup.stimp_ft = section.number("stimp", {least_stimp_ft, most_stimp_ft});
    setup.finish =
        section.has("past_m")
            ? Finish::past(section.number("past_m", {0, most_past_m}))
            : Finish::hole_speed(section.number("hole_speed_m_s", {0, most_hole_speed_m_s}));
    putt_of(setup);  // throws for readings that make no ground
    return setup;
}

}  // namespace

std::string kept_text(const Setup& setup) {
    const bool past = setup.finish.kind == Finish::Kind::past;
    return (setup.green ? places_text(setup) : ground_text(setup)) +
           fmt::format("stimp = {}\n{} = {}\n", setup.stimp_ft, past ? "past_m" : "hole_speed_m_s",
                       setup.finish.value);
}

void keep_putt(const std::optional<std::filesystem::path>& path, const Setup& setup) {
    keep_state(path, kept_text(setup));
}

std::optional<Setup> kept_putt(const std::optional<std::filesystem::path>& path,
                               const GreenLoader& load, const Tell& tell) {
    return kept_state(
        path, [&](const TomlSection& section) { return read_setup(section, load); }, tell);
}

}  // namespace dewtrail
