// One account of a read: what note, terminal, printed page and JSON say of the same putts.

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "greens/green_file.hpp"
#include "support/random.hpp"
#include "tests/support/sanitized.hpp"
#include "tests/viewer/modes/drawn_mode.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/comparison/comparison.hpp"
#include "viewer/paper/read_page.hpp"
#include "viewer/picture/widgets/note_picture.hpp"
#include "viewer/putt/fields.hpp"
#include "viewer/putt/spread.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/words.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace {

constexpr double deg = M_PI / 180;

/// A putt as it is typed, for the program and for its parts.
struct Asked {
    PuttRequest request;
    bool metric = false;

    Units units() const { return {.metric = metric}; }
    PuttDefaults defaults() const {
        return {.units = units(),
                .green_folders = {std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens"}};
    }
    std::vector<std::string> arguments(std::vector<std::string> more = {}) const {
        const PuttRequest& r = request;
        const ConditionRequest& c = r.conditions;
        std::vector<std::string> all{"read", "--units", metric ? "metric" : "imperial"};
        if (r.distance) all.push_back(*r.distance);
        const std::pair<const char*, const std::optional<std::string>&> options[] = {
            {"--slope", r.slope},
            {"--clock", r.clock},
            {"--green", r.green},
            {"--hole", r.hole},
            {"--ball", r.ball},
            {"--stimp", r.stimp},
            {"--past", r.past},
            {"--hole-speed", r.hole_speed},
            {"--slope-sure", r.slope_sure},
            {"--launch-spin", c.launch_spin},
            {"--wind", c.wind},
            {"--wind-from", c.wind_from},
            {"--slow-share", c.slow_share}};
        for (const auto& [name, value] : options)
            if (value) all.insert(all.end(), {name, *value});
        all.insert(all.end(), more.begin(), more.end());
        return all;
    }
};

void ask_finish(oracle::Random& random, PuttRequest& r) {
    const char* pasts[] = {"3in", "12in", "24in", "7in"};
    if (random.chance(0.8))
        r.past = pasts[random.below(4)];
    else
        r.hole_speed = fmt::format("{:.2f}m/s", random.between(0.3, 2.2));
}

void ask_conditions(oracle::Random& random, ConditionRequest& c) {
    const char* sides[] = {"left", "right", "hole", "ball"};
    if (random.chance(0.6)) c.wind = "4m/s", c.wind_from = sides[random.below(4)];
    if (random.chance(0.5) || !c.wind) c.launch_spin = "0";
    if (random.chance(0.3)) c.slow_share = "75%";
}

Asked ask(oracle::Random& random) {
    Asked asked;
    asked.metric = random.chance(0.5);
    PuttRequest& r = asked.request;
    r.stimp = fmt::format("{:.1f}", random.between(7, 13));
    if (random.chance(0.15)) {
        const char* greens[] = {"bench", "turtle", "stairs", "saddle", "meadow"};
        r.green = greens[random.below(5)];
        const Green green = load_green(*r.green, asked.defaults().green_folders);
        r.hole = std::next(green.holes.begin(), random.below(green.holes.size()))->first;
        r.ball = std::next(green.balls.begin(), random.below(green.balls.size()))->first;
    } else {
        r.distance = fmt::format("{:.2f}m", random.log_between(0.6, 15));
        r.slope = fmt::format("{:.1f}%", random.between(0, 5));
        r.clock = fmt::format("{}:{:02}", 1 + random.below(12), 5 * random.below(12));
        if (random.chance(0.15)) ask_conditions(random, r.conditions);
        if (random.chance(0.1)) r.slope_sure = "0.3%";
    }
    ask_finish(random, r);
    return asked;
}

/// All words of a picture in the order of drawing, lines joined again.
std::string said(const Picture& picture) {
    std::string all;
    for (const Text& text : all_of<Text>(picture)) all += text.words + " ";
    return all;
}

double figure(const Json& json, const char* block, const char* key) {
    const Json& value = json[block][key];
    return value.is_null() ? NAN : value.get<double>();
}

std::optional<OddsKnown> odds_in(const Json& json, const Putt& putt, const Read& read) {
    const Json& odds = json["odds"];
    if (odds.is_null()) return std::nullopt;
    const auto stroke = stroke_odds_of(putt, read, scatter_of({}));
    return OddsKnown{{},
                     odds["holed"].get<double>(),
                     odds["inside_3ft"].get<double>(),
                     stroke->usual_leave_m,
                     odds["three_putt"].get<double>(),
                     odds["putts"].get<double>()};
}

/// The window's note, coach detail on, on a panel high enough for all of it.
std::string note_says(const Setup& setup, const Solved& solved, const Account& account,
                      const Units& units) {
    OddsShown shown;
    if (const AccountRow* row = account.row(Glyph::odds)) {
        Odds odds;
        for (const Figure& f : row->figures) {
            const auto* number = std::get_if<std::optional<double>>(&f.value);
            if (f.key == "odds.holed") odds.holed = **number;
            if (f.key == "odds.inside_3ft") odds.inside_3ft = **number;
            if (f.key == "odds.three_putt") odds.three_putt = **number;
            if (f.key == "odds.putts") odds.putts = **number;
        }
        const auto stroke = stroke_odds_of(solved.putt, *solved.read, scatter_of({}));
        odds.usual_leave_m = stroke->usual_leave_m;
        shown.odds = odds;
        shown.fresh = true;
    }
    Picture picture;
    Targets targets;
    NoteState state;
    state.detail = true;
    const Look look{palette(Theme::dew), lay_out(1280, 3000, 1, true), units, type_width};
    draw_note({picture, targets, {}, look}, note_of(setup, solved, units, shown), state);
    return said(picture);
}

std::vector<std::string> names_of(const Account& account) {
    std::vector<std::string> names;
    for (const AccountRow& row : account.rows)
        if (!told(row).empty()) names.push_back(row.name);
    return names;
}

/// Of the rows below the heading: what stands at the left margin.
std::vector<std::string> names_printed(const std::string& text, const std::string& heading) {
    std::vector<std::string> names;
    std::istringstream lines(text.substr(text.find("\n" + heading + "\n") + heading.size() + 2));
    for (std::string line; std::getline(lines, line) && !line.starts_with("Note: ");)
        if (!line.starts_with(" ")) names.push_back(line.substr(0, line.find("  ")));
    return names;
}

/// Every figure of every row stands in JSON, and nothing else does.
void check_json(const Account& account, const Json& json) {
    std::size_t figures = 0, leaves = 0;
    for (const AccountRow& row : account.rows)
        for (const Figure& f : row.figures) {
            INFO(f.key);
            ++figures;
            const auto dot = f.key.find('.');
            const Json& value =
                json[std::string(f.key.substr(0, dot))][std::string(f.key.substr(dot + 1))];
            if (const auto* number = std::get_if<std::optional<double>>(&f.value)) {
                CHECK(value.is_null() != number->has_value());
                if (*number && !value.is_null()) CHECK(value.get<double>() == **number);
            } else if (const auto* range = std::get_if<std::pair<double, double>>(&f.value)) {
                CHECK(value == Json::array({range->first, range->second}));
            } else if (const auto* words = std::get_if<std::string>(&f.value)) {
                CHECK(value == *words);
            } else {
                CHECK(value == std::get<bool>(f.value));
            }
        }
    for (const auto& [block, content] : json.items())
        if (block != "putt" && block != "notes") leaves += content.size();
    CHECK(leaves == figures);
}

/// The words follow from the figures that JSON gives.
void check_words(const Account& account, const Json& json, const Units& units) {
    const double distance = figure(json, "putt", "distance_m");
    const double angle = figure(json, "start", "angle_deg") * deg;
    if (!json["aim"].is_null())
        CHECK(account.row(Glyph::aim)->words == aim_words(figure(json, "aim", "offset_m"), units));
    CHECK(account.row(Glyph::stand_in)->words ==
          level_putt_words(figure(json, "start", "level_putt_m"), units));
    if (!json["turns"].is_null()) {
        const auto turn = [&](const std::string& which) {
            return turn_words({figure(json, "turns", (which + "_along_m").c_str()),
                               figure(json, "turns", (which + "_offset_m").c_str())},
                              distance, units);
        };
        CHECK(account.row(Glyph::apex)->words == turn("first") + ", then " + turn("second"));
    } else if (!json["apex"].is_null())
        CHECK(account.row(Glyph::apex)->words == apex_words(figure(json, "apex", "along_m"),
                                                            figure(json, "apex", "offset_m"),
                                                            distance, units));
    const bool holed = json["entry"]["holed"];
    CHECK(account.row(Glyph::finish)->words ==
          arrival_words(figure(json, "arrival", "past_m"), figure(json, "arrival", "speed_m_s"),
                        holed ? figure(json, "entry", "clock_h") : NAN, units));
    CHECK((account.row(Glyph::room) != nullptr) == !json["room"].is_null());
    if (json["room"].is_null()) return;
    const double left = json["room"]["line_deg"][0], right = json["room"]["line_deg"][1];
    if (right - left < 0.2) return;
    const double level = figure(json, "start", "level_roll_m");
    const auto at_hole = [&](double turn_deg) {
        return std::abs(distance * (std::tan(angle + turn_deg * deg) - std::tan(angle)));
    };
    CHECK(account.row(Glyph::room)->words ==
          room_words(at_hole(right), at_hole(left), -json["room"]["pace"][0].get<double>() * level,
                     json["room"]["pace"][1].get<double>() * level, units));
}

void check_account(const CommandLine& line, const Asked& asked, const Json& json) {
    const Units units = asked.units();
    const PlacedPutt plan = set_up(asked.request, asked.defaults());
    ReadOptions options;
    options.open_hole = true;
    const ReadResult result = read(plan.putt, options);
    const Read& own = result.lines.front();
    KnownBeside known = known_of(plan.setup, odds_in(json, plan.putt, own));
    known.other_lines = result.other_lines;
    const Account account = account_of(plan.putt, own, units, known);
    check_json(account, json);
    check_words(account, json, units);

    const std::string text = line.run(asked.arguments()).out;
    CHECK(names_printed(text, account.heading) == names_of(account));
    const Solved solved = solve(plan.setup, usual_past_m, Effort::settled);
    REQUIRE(solved.read);
    const std::string note = note_says(plan.setup, solved, account, units);
    const std::string page = said(read_page(plan.setup, solved, Paper::a4, units));
    CHECK_THAT(note, Contains(account.heading));
    CHECK_THAT(page, Contains(account.heading));
    for (const AccountRow& row : account.rows) {
        if (told(row).empty()) continue;
        CHECK_THAT(one_spaced(text), Contains(one_spaced(row.name + " " + told(row))));
        for (const std::string& words : {row.words, row.second, row.detail}) {
            CHECK_THAT(note, Contains(words));
            const bool printed = row.glyph != Glyph::odds && words != row.detail;
            if (printed) CHECK_THAT(page, Contains(words));
        }
        for (const auto& [what, cost] : row.table)
            for (const std::string& out : {note, page})
                CHECK_THAT(out, Contains(what + " " + cost));
    }
}

std::vector<std::string> with(std::vector<std::string> arguments,
                              const std::vector<std::string>& more) {
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

/// A quarter of the hundred: side by side they take a quarter of the time. Sanitizers see all that
/// there is to see in a few of them.
void tell_a_quarter_alike(std::uint64_t seed) {
    const CommandLine line;
    oracle::Random random(seed);
    const int all = oracle::sanitized ? 3 : 25;
    int told = 0;
    while (told < all) {
        const Asked asked = ask(random);
        const std::vector<std::string> arguments = asked.arguments({"--json"});
        const auto answer = line.run(arguments);
        INFO(fmt::format("{}", fmt::join(arguments, " ")));
        if (answer.exit == Exit::no_answer) continue;
        REQUIRE(answer.exit == Exit::done);
        check_account(line, asked, answer.json());
        ++told;
    }
}

}  // namespace

TEST_CASE("note, terminal, page and JSON tell a hundred putts alike, first quarter", "[account]") {
    tell_a_quarter_alike(20260611);
}

TEST_CASE("note, terminal, page and JSON tell a hundred putts alike, second quarter", "[account]") {
    tell_a_quarter_alike(20260612);
}

TEST_CASE("note, terminal, page and JSON tell a hundred putts alike, third quarter", "[account]") {
    tell_a_quarter_alike(20260613);
}

TEST_CASE("note, terminal, page and JSON tell a hundred putts alike, last quarter", "[account]") {
    tell_a_quarter_alike(20260614);
}

TEST_CASE("wind, grain and skid are in the picture of a read", "[account]") {
    const CommandLine line;
    const std::vector<std::string> putt{"read",    "20ft", "--slope", "1%",
                                        "--clock", "3",    "--stimp", "10"};
    const auto picture = [&](const std::vector<std::string>& more) {
        const std::string file = line.path("read.png");
        REQUIRE(line.run(with(with(putt, more), {"--png", file})).exit == Exit::done);
        return content_of(file);
    };
    const std::string plain = picture({});
    CHECK(picture({"--wind", "8m/s", "--wind-from", "left"}) != plain);
    CHECK(picture({"--launch-spin", "0"}) != plain);
    const PuttRequest blown{.distance = "20ft",
                            .slope = "1%",
                            .clock = "3",
                            .conditions = {.wind = "8m/s", .wind_from = "left"}};
    const PlacedPutt plan = set_up(blown, {});
    // Two roundings of the ball's place; the solver meets its own line to far better.
    CHECK_THAT(solve(plan.setup, usual_past_m, Effort::live).read->stroke.angle_rad,
               WithinAbs(read(plan.putt).lines.front().stroke.angle_rad, 1e-9));
}

TEST_CASE("the room is told at the hole's depth", "[account]") {
    // From 4 ft aimed far out on 5 % a turn of the line moves the aim by d sec² a, not by d.
    const auto said = CommandLine().run("read 4ft --slope 5% --clock 2:30 --stimp 12");
    CHECK_THAT(said.out, Contains("9 in right to 7 in left"));
}

TEST_CASE("a ball too fast to drop goes in nowhere", "[account]") {
    const auto said = CommandLine().run("read 12ft --hole-speed 2m/s");
    CHECK_THAT(said.out, Contains("12 ft past; too fast to drop"));
    CHECK_THAT(said.out, !Contains("in over"));
}

TEST_CASE("the chance to hole is that of the stroke shown, and JSON says whose", "[account]") {
    const std::vector<std::string> compared{"compare", "12ft",     "--slope", "2%",
                                            "--clock", "3",        "--stimp", "10",
                                            "--with",  "aim apex", "--odds",  "--json"};
    const Json putts = CommandLine().run(compared).json()["putts"];
    CHECK(putts[0]["holed_by"] == "read");
    CHECK(putts[1]["holed_by"] == "stroke");
    // A ball aimed at its apex plays little more than half the break: fewer of these drop.
    CHECK(putts[1]["holed"].get<double>() < 0.8 * putts[0]["holed"].get<double>());
    CHECK_FALSE(chance_of_shown(ComparedPutt{}, scatter_of({})));
}

TEST_CASE("a putt up a step to a level hole is not called level", "[account]") {
    const auto said = CommandLine().run("read 20ft --rise 4in --step-at 12ft --stimp 10");
    CHECK_THAT(said.out, Contains("20 ft, level at the hole, rises 4 in, stimp 10"));
    CHECK_THAT(said.out, Contains("Straight, uphill"));
    CHECK_THAT(CommandLine().run("read 20ft --stimp 10").out, Contains("20 ft, level, stimp 10"));
}

TEST_CASE("typed values are told as typed until they are dragged", "[account]") {
    const auto said = CommandLine().run(
        {"read", "12.3ft", "--slope", "1.1deg", "--clock", "3:20", "--stimp", "11.2"});
    CHECK_THAT(said.out, Contains("12.3 ft, 1.1°, ball at 3:20, stimp 11.2, a foot past"));
    Setup setup;
    const auto shown = [&](Field field, const Units& units = {}) {
        const FieldState state = field_state(setup, field, units);
        return state.unit.empty() ? state.figure : state.figure + " " + state.unit;
    };
    type_field(setup, Field::slope, "1.1deg", {});
    type_field(setup, Field::ball_at, "3:20", {});
    type_field(setup, Field::stimp, "11.2", {});
    type_field(setup, Field::distance, "12.3", {});
    CHECK(shown(Field::slope) == "1.1°");
    CHECK(shown(Field::ball_at) == "3:20 o’clock");
    CHECK(shown(Field::stimp) == "11.2 ft");
    CHECK(shown(Field::distance) == "12.3 ft");
    CHECK(shown(Field::distance, {.metric = true}) == "3.75 m");
    for (const Field field : {Field::slope, Field::ball_at, Field::stimp, Field::distance})
        move_field(setup, field, 0.31, {});
    CHECK(setup.typed.slope.empty());
    CHECK(shown(Field::slope) == "1¾ %");
    CHECK(shown(Field::stimp) == "9 ft");
}

TEST_CASE("a spread is told as it was given", "[account]") {
    const auto said =
        CommandLine().run("odds 8ft --up 1% --stimp 10 --slope-read 0.35% --line 1.85deg");
    CHECK_THAT(said.out, Contains("line 1.85°") && Contains("slope read 0.35 %"));
}
